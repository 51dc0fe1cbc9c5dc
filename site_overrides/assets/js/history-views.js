/** Elements of a bike's history. Only texts are set. */

import { odditiesOf, patternsOf, returnsOf } from "./core/history-codes.js";
import { codeText, dayText, distanceText, oddText, patternText, returnText, triedTexts } from "./core/history-words.js";
import { button, el } from "./dom.js";

const MOST_FACTS = 4;
const MOST_ROWS = 20;

/** Said only where it is not kept for good. @param {"device" | "visit" | "page"} where */
export function lastingText(where) {
  return {
    device: "",
    visit: "This browser has no room to keep it for good: it holds until this tab is closed. Save it as a file on the page of your bike.",
    page: "This browser keeps nothing for this site: it holds until you leave this page.",
  }[where];
}

/** What the entries together say: what comes and goes, what came back. @param {HistoryEntry[]} entries @param {OwnBike} bike */
export function factsView(entries, { unit }) {
  const often = patternsOf(entries)
    .filter(({ over }) => !over)
    .slice(0, MOST_FACTS)
    .map((each) => `${patternText(each, unit)}.`);
  const back = returnsOf(entries)
    .slice(0, MOST_FACTS)
    .map((each) => returnText(each, unit));
  const texts = [...often, ...back];
  return texts.length ? el("ul", { class: "history__facts" }, texts.map((text) => el("li", { dir: "auto" }, text))) : null;
}

/**
 * The entries, the newest first, of which so many are shown at once.
 * @param {HistoryEntry[]} entries newest first @param {OwnBike} bike @param {{home: URL, today: string, change: (entry: HistoryEntry) => void, remove: (entry: HistoryEntry) => void}} act
 */
export function listView(entries, bike, act) {
  const returns = groupedBy(returnsOf(entries));
  const odd = new Map(odditiesOf(entries, act.today).map((each) => [each.id, each]));
  const list = el("ol", { class: "history__list" });
  let shown = 0;
  const more = el("p", {}, button("my-bike__button", () => showMore(true), "Show older ones"));
  const showMore = (/** @type {boolean} */ pressed) => {
    const rows = entries.slice(shown, shown + MOST_ROWS).map((entry) => rowView(entry, bike, { ...act, backs: returns.get(entry.id) ?? [], odd: odd.get(entry.id) ?? null }));
    list.append(...rows);
    shown += rows.length;
    more.hidden = shown >= entries.length;
    if (pressed) {
      rows[0]?.querySelector("button")?.focus();
    }
  };
  showMore(false);
  return el("div", {}, list, more);
}

/** By the entry in which the code was seen again, or else that which says so. @param {CodeReturn[]} returns */
function groupedBy(returns) {
  /** @type {Map<string, CodeReturn[]>} */
  const found = new Map();
  for (const each of returns) {
    const id = each.to ?? each.from;
    found.set(id, [...(found.get(id) ?? []), each]);
  }
  return found;
}

/**
 * @param {HistoryEntry} entry @param {OwnBike} bike
 * @param {{home: URL, change: (entry: HistoryEntry) => void, remove: (entry: HistoryEntry) => void, backs: CodeReturn[], odd: ?Oddity}} act
 */
function rowView(entry, bike, { home, change, remove, backs, odd }) {
  const { id, day, odometer, codes } = entry;
  const when = `, entry of ${dayText(day)}`;
  return el(
    "li",
    { class: "history__entry", "data-entry": id },
    el(
      "p",
      { class: "history__when" },
      el("time", { datetime: day }, dayText(day)),
      odometer !== null && el("span", { class: "figure" }, distanceText(odometer, bike.unit)),
    ),
    odd && el("p", { class: "history__odd" }, oddText(odd, bike.unit)),
    codes.length > 0 && el("p", { class: "history__codes" }, codes.map((seen) => codeLink(seen, home))),
    ...backs.map((each) => el("p", { class: "history__back" }, returnText(each, bike.unit))),
    ...toldViews(entry, home),
    el(
      "p",
      { class: "history__ways" },
      button("history__way", () => change(entry), "Change", el("span", { class: "visually-hidden" }, when)),
      button("history__way", () => remove(entry), "Delete", el("span", { class: "visually-hidden" }, when)),
    ),
  );
}

/** What was found, done and cleared. @param {HistoryEntry} entry @param {URL} home @returns {Child[]} */
function toldViews({ day, conditions, done, tried, fault, cause, mended, cleared, report }, home) {
  const what = fault && (cause ? `${fault.title}: ${cause.title}` : fault.title);
  return [
    what && el("p", { dir: "auto" }, mended && "Mended: ", el("a", { href: new URL(`faults/${fault.id}/`, home).href }, what)),
    mended && !what && el("p", {}, "Mended:"),
    done && el("p", { class: "history__done", dir: "auto" }, done),
    tried.length > 0 && el("ul", { class: "history__tried" }, triedTexts(tried).map((text) => el("li", { dir: "auto" }, text))),
    conditions.length > 0 && el("p", { class: "history__soft", dir: "auto" }, conditions.join(", ")),
    cleared !== null && el("p", { class: "history__soft" }, cleared === day ? "Cleared." : `Cleared on ${dayText(cleared)}.`),
    report && el("p", { class: "history__soft" }, `Reported to the club on ${dayText(report.sent)}.`),
  ];
}

/** @param {SeenCode} seen @param {URL} home */
function codeLink(seen, home) {
  const address = new URL(home);
  address.searchParams.set("q", seen.code);
  return el("a", { class: "code__text", href: address.href }, codeText(seen));
}
