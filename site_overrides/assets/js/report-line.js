/** One quiet line on the home page and on that of my bike: a report waits to be sent, or it is time to ask whether it held. */

import { toAsk } from "./core/report-kept.js";
import { button, el } from "./dom.js";
import { odometerNow } from "./report-history.js";
import { keep, kept, today } from "./report-store.js";

/** @param {string} address what stands behind the page's own @param {string} more */
function reportAddress(address, more = "") {
  const root = new URL(document.querySelector("[data-finder]").dataset.root.replace(/\/?$/u, "/"), document.baseURI);
  const page = new URL("report/", root);
  page.search = address.startsWith("?") ? address : "";
  if (more) {
    page.searchParams.set(more, "1");
  }
  return page.href;
}

function show() {
  const reports = kept();
  const ready = reports.drafts.find((draft) => draft.ready);
  const asked = toAsk(reports, ({ filled }) => odometerNow(filled.model?.[0] ?? "", Number(filled.year?.[0])), today());
  const lines = [];
  if (ready) {
    lines.push(el("p", { class: "report-line" }, el("a", { href: reportAddress(ready.address) }, "A report waits to be sent"), ready.title ? `: ${ready.title.replace(/^Report: /u, "")}.` : "."));
  }
  if (asked) {
    const drop = button("report-line__drop", () => {
      keep({ ...reports, sent: reports.sent.map((each) => (each === asked ? { ...each, asked: true } : each)) });
      line.remove();
    }, "Do not ask");
    const line = el("p", { class: "report-line" }, `${asked.title.replace(/^Report: /u, "")}, reported on ${asked.on}: `, el("a", { href: reportAddress(asked.address, "again") }, "did the mending hold?"), " ", drop);
    lines.push(line);
  }
  document.querySelector("#content").prepend(...lines);
}

show();
