/** How a plan for several faults shows how often it is which, what may be free, and when to stop at once. */

import { UNLISTED } from "./core/evidence.js";
import { percentText, rounded, say, sentence } from "./core/plan-words.js";
import { bar, el } from "./dom.js";
import { copyOf } from "./plan-frame.js";

/**
 * The faults, the likeliest first; those of which no share is known in their order.
 * @param {Share[]} shares @param {JointFaultRow[]} rows @param {Map<string, number>} on cases on the bike's model, by fault
 * @param {{words: PlanWords, labels: string[], bike: Bike, model: string}} said
 */
export function likelyView(shares, rows, on, { words, labels, bike, model }) {
  const byId = new Map(rows.map((row) => [row.id, row]));
  /** @param {JointFaultRow | undefined} row */
  const link = (row) => {
    const to = new URL(row?.address ?? "", document.baseURI);
    to.searchParams.set("codes", labels.join(","));
    return el("a", { class: "likely__link", href: to.href }, row?.title ?? "");
  };
  if (shares.length === 0) {
    return rows.map((row) => el("li", { class: "likely__one" }, link(row)));
  }
  const all = shares.reduce((sum, { cases }) => sum + cases, 0);
  const code = say(words, labels.length > 1 ? "these_codes" : "this_code");
  return shares.map(({ id, share, low, high, cases }) => {
    const own = on.get(id) ?? 0;
    const counted = all ? say(words, "cases_code", { k: String(cases), n: String(all), cases: all === 1 ? "case" : "cases", code }) : say(words, "no_cases");
    const here = cases > 0 && bike && id !== UNLISTED && say(words, "cases_model", { k: String(own), model });
    return el(
      "li",
      { class: "likely__one", "data-fault": id },
      el(
        "span",
        { class: "likely__part figure" },
        el("strong", {}, percentText(share, words)),
        " ",
        el("span", { class: "likely__interval" }, say(words, "from_to", { low: String(rounded(100 * low)), high: String(rounded(100 * high)) })),
      ),
      id === UNLISTED ? el("span", { class: "likely__name" }, say(words, "unlisted_fault")) : link(byId.get(id)),
      (id !== UNLISTED || cases > 0) && el("span", { class: "likely__rest" }, [counted, here].filter(Boolean).join("; ")),
      bar(share, "chance"),
    );
  });
}

/** @param {(string | false)[]} texts */
export function toldView(texts) {
  return texts.filter(Boolean).map((text) => el("p", {}, text));
}

/** What a fault's page says above all checks, in full. */
const ABOVE = "#checks > .caution > .caution__texts >";
const BEFORE = `#checks > .critical, ${ABOVE} .caution__full > *, ${ABOVE} :not(.caution__word, .caution__brief, .caution__full)`;

/** What holds for the whole of each fault, each caution once. @param {FaultPage[]} pages */
export function beforeView(pages) {
  const parts = pages.flatMap(({ shown }) => [...shown.querySelectorAll(BEFORE)]);
  const texts = [...new Map(parts.map((part) => [part.textContent, part])).values()].map(copyOf);
  return texts.length ? [el("h3", {}, "Before you start"), el("div", { class: "caution" }, el("div", { class: "caution__texts" }, ...texts))] : [];
}

/** @param {string[]} signs */
export function stopView(signs) {
  return signs.length
    ? [el("p", { class: "joint__stop" }, "Stop at once if:"), el("ul", {}, signs.map((sign) => el("li", {}, sign)))]
    : [];
}

/**
 * Recalls and bulletins, before any price.
 * @param {FreeWork[]} works @param {import("./plan-joint.js").SeveralFaults} source @param {PlanWords} said
 */
export function freeView(works, source, said) {
  if (works.length === 0) {
    return [];
  }
  const rows = works.map(({ kind, source: number, covers }) => {
    const [cause] = covers;
    const faults = cause ? source.whose(cause) : null;
    return el("li", {}, el("strong", {}, sentence(`${kind} ${number}`)), faults && `: ${faults}`);
  });
  return [el("p", {}, say(said, "may_be_free")), el("ul", {}, rows)];
}
