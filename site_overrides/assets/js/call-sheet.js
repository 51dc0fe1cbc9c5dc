/**
 * Fills the call sheet of a fault page in: the bike that this browser remembers, and what was answered in the plan.
 * The sheet is whole without it; only texts are set.
 */

import { bikeName, myBike } from "./bike.js";
import { percentText } from "./core/plan-words.js";
import { button } from "./dom.js";
import { resultWord, withUnit } from "./plan-check.js";

const sheet = /** @type {HTMLElement} */ (document.getElementById("call-sheet"));
/** @type {Map<Element, ChildNode[]>} */
const blanks = new Map();

/**
 * Writes a text in place of a blank; an empty one brings the blank back.
 * @param {Element} place @param {string} text
 */
function fill(place, text) {
  if (!blanks.has(place)) {
    blanks.set(place, [...place.childNodes]);
  }
  place.replaceChildren(...(text ? [text] : (blanks.get(place) ?? [])));
}

/** @param {?MyBike} bike */
function showBike(bike) {
  fill(sheet.querySelector("[data-sheet-bike]"), bike ? bikeName(bike) : "");
}

/** @param {CheckAnswer} answer @param {Page} page */
function found({ result, value, check }, page) {
  const unit = Object.hasOwn(page.units, check) ? page.units[check] : "";
  const word = resultWord(result).toLowerCase();
  return value === null ? word : `${word}, ${withUnit(value, unit)}`;
}

/** @param {DocumentEventMap["planchange"]["detail"]} change */
function showPlan({ answers, plan, page }) {
  /** @type {Map<string, CheckAnswer>} */
  const results = new Map();
  answers.forEach((answer) => answer.check && results.set(answer.check, answer));
  for (const row of sheet.querySelectorAll("[data-sheet-check]")) {
    const answer = results.get(row.dataset.sheetCheck);
    fill(row.querySelector("[data-sheet-found]"), answer ? found(answer, page) : "");
  }
  const changed = sheet.querySelector("[data-sheet-changed]");
  const fixes = answers.flatMap((answer) => (answer.fix ? [answer] : []));
  const word = { helped: "helped", "no-change": "did not help" };
  changed.textContent = fixes.map(({ fix, result }) => `${page.names.causes[fix]}: ${word[result]}`).join("; ");
  changed.hidden = fixes.length === 0;
  for (const place of sheet.querySelectorAll("[data-sheet-cause]")) {
    fill(place, chance(place.dataset.sheetCause, answers, plan, page));
  }
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
  root.setAttribute("data-print", "call-sheet");
  addEventListener("afterprint", () => root.removeAttribute("data-print"), { once: true });
  print();
}

if (sheet) {
  sheet.querySelector("[data-sheet-print]").append(button("sheet__button", printAlone, "Print the call sheet"));
  showBike(myBike());
  document.addEventListener("bikechange", ({ detail }) => showBike(detail));
  document.addEventListener("planchange", ({ detail }) => showPlan(detail));
}
