/**
 * Fills the note for the workshop in: the bike that this browser remembers, the codes that were read, what was answered in
 * the plan, what is still to be done before riding. The note is whole without it; only texts are set.
 */

import { bikeName, myBike } from "./bike.js";
import { beforeRiding } from "./core/plan-beside.js";
import { percentText } from "./core/plan-words.js";
import { button, el } from "./dom.js";
import { resultWord, withUnit } from "./plan-check.js";
import { copyView } from "./plan-ends.js";

const note = /** @type {HTMLElement} */ (document.querySelector(".workshop-note"));
/** @type {Map<Element, ChildNode[]>} */
const blanks = new Map();

/**
 * Writes in place of a blank; nothing brings the blank back.
 * @param {Element} place @param {...(string | Node)} content
 */
function fill(place, ...content) {
  if (!blanks.has(place)) {
    blanks.set(place, [...place.childNodes]);
  }
  place.replaceChildren(...(content.some(Boolean) ? content : (blanks.get(place) ?? [])));
}

/** @param {?MyBike} bike */
function showBike(bike) {
  fill(note.querySelector("[data-sheet-bike]"), bike ? bikeName(bike) : "");
}

/** @param {CheckAnswer} answer @param {Page} page */
function found({ result, value, check }, page) {
  const unit = Object.hasOwn(page.units, check) ? page.units[check] : "";
  const word = resultWord(result).toLowerCase();
  return value === null ? word : `${word}, ${withUnit(value, unit)}`;
}

/** @param {PlanChange} change */
function showPlan({ answers, situation, page }) {
  const { plan, problem, owner } = situation;
  /** @type {Map<string, CheckAnswer>} */
  const results = new Map();
  answers.forEach((answer) => answer.check && results.set(answer.check, answer));
  for (const row of note.querySelectorAll("[data-sheet-check]")) {
    const answer = results.get(row.dataset.sheetCheck);
    fill(row.querySelector("[data-sheet-found]"), answer ? found(answer, page) : "");
  }
  const open = beforeRiding(problem, owner);
  for (const row of note.querySelectorAll("[data-sheet-open]")) {
    row.hidden = !open.includes(row.dataset.sheetOpen);
  }
  note.querySelector("[data-sheet-before]")?.toggleAttribute("hidden", open.length === 0);
  const changed = note.querySelector("[data-sheet-changed]");
  const fixes = answers.flatMap((answer) => (answer.fix ? [answer] : []));
  const word = { helped: "helped", "no-change": "did not help" };
  changed.textContent = fixes.map(({ fix, result }) => `${page.names.causes[fix]}: ${word[result]}`).join("; ");
  changed.hidden = fixes.length === 0;
  for (const place of note.querySelectorAll("[data-sheet-cause]")) {
    fill(place, chance(place.dataset.sheetCause, answers, plan, page));
  }
  const [read] = page.source.about().slice(1);
  const codes = note.querySelector("[data-sheet-read]");
  if (codes && page.source.codes?.length) {
    codes.textContent = read || "";
    codes.hidden = false;
  }
}

/** What the plan for codes tells a workshop. @type {string[]} */
let told = [];

/** The whole note as text. */
function noteLines() {
  const bike = myBike();
  const codes = note.querySelector("[data-sheet-codes]").textContent;
  return [codes ? `Codes that I read: ${codes}` : "", bike ? bikeName(bike) : "", ...told].filter(Boolean);
}

/** The plan for codes: its lines, as they are told to a workshop; the first ones say what stands above. @param {?PlanChange} change */
function showLines(change) {
  const place = note.querySelector("[data-sheet-lines]");
  told = change ? change.lines : [];
  if (!change) {
    fill(place);
    return;
  }
  const { lines, page } = change;
  note.querySelector("[data-sheet-codes]").textContent = (page.source.codes ?? []).join(", ");
  fill(place, ...lines.map((line) => el("p", { class: line.startsWith("– ") ? "sheet__row" : "sheet__title" }, line)));
}

/**
 * What the answers make of a cause; empty where nothing was answered, so that the words of the entry stand.
 * @param {string} cause @param {Answer[]} answers @param {Plan} plan @param {Page} page
 */
function chance(cause, answers, plan, page) {
  if (!plan.causes.some(({ id }) => id === cause)) {
    return "not on this bike";
  }
  if (answers.length === 0 || plan.expected_cost === null) {
    return "";
  }
  return Object.hasOwn(plan.chances, cause)
    ? `${percentText(plan.chances[cause], page.words)} after these checks`
    : "ruled out by these checks";
}

function printAlone() {
  const root = document.documentElement;
  root.setAttribute("data-print", "workshop-note");
  addEventListener("afterprint", () => root.removeAttribute("data-print"), { once: true });
  print();
}

if (note) {
  note.querySelector("[data-sheet-print]").append(button("sheet__button", printAlone, "Print the note"));
  showBike(myBike());
  const ofCodes = note.querySelector("[data-sheet-lines]") !== null;
  if (ofCodes) {
    note.querySelector("[data-sheet-print]").after(copyView(noteLines));
  }
  document.addEventListener("bikechange", ({ detail }) => showBike(detail));
  document.addEventListener("planchange", ({ detail }) => {
    if (ofCodes) {
      showLines(detail);
    } else if (detail) {
      showPlan(detail);
    }
  });
}
