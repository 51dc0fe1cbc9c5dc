/**
 * Fills the call sheet of a fault page in: the bike that this browser remembers, and what was answered in the plan.
 * The sheet is whole without it; only texts are set.
 */

import { bikeName, myBike } from "./bike.js";
import { percentText } from "./core/plan-words.js";
import { button } from "./dom.js";
import { resultWord, withUnit } from "./plan-check.js";

const sheet = document.getElementById("call-sheet");
const blanks = new Map();

/** Writes a text in place of a blank; an empty one brings the blank back. */
function fill(place, text) {
  if (!blanks.has(place)) {
    blanks.set(place, [...place.childNodes]);
  }
  place.replaceChildren(...(text ? [text] : blanks.get(place)));
}

function showBike(bike) {
  fill(sheet.querySelector("[data-sheet-bike]"), bike ? bikeName(bike) : "");
}

function found({ result, value, check }, page) {
  const unit = Object.hasOwn(page.units, check) ? page.units[check] : "";
  const word = resultWord(result).toLowerCase();
  return value === null ? word : `${word}, ${withUnit(value, unit)}`;
}

function showPlan({ answers, plan, page }) {
  const results = new Map(answers.filter((answer) => answer.check).map((answer) => [answer.check, answer]));
  for (const row of sheet.querySelectorAll("[data-sheet-check]")) {
    const answer = results.get(row.dataset.sheetCheck);
    fill(row.querySelector("[data-sheet-found]"), answer ? found(answer, page) : "");
  }
  const changed = sheet.querySelector("[data-sheet-changed]");
  const fixes = answers.filter((answer) => answer.fix);
  const word = { helped: "helped", "no-change": "did not help" };
  changed.textContent = fixes.map(({ fix, result }) => `${page.names.causes[fix]}: ${word[result]}`).join("; ");
  changed.hidden = fixes.length === 0;
  for (const place of sheet.querySelectorAll("[data-sheet-cause]")) {
    fill(place, chance(place.dataset.sheetCause, answers, plan, page));
  }
}

/** What the answers make of a cause; empty where nothing was answered, so that the words of the entry stand. */
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
