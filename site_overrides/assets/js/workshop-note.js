/**
 * Fills the note for the workshop in: the bike, the codes that were read, what was answered in the plan, what is still to be
 * done before riding; and makes a text of it, with what was ticked and written. The note is whole without it; only texts are set.
 */

import { bikeName, myBike } from "./bike.js";
import { beforeRiding } from "./core/plan-beside.js";
import { percentText } from "./core/plan-words.js";
import { foundLines, noteLines, openLines } from "./core/workshop-text.js";
import { button, el } from "./dom.js";
import { keepWhatIsSaid, keptOf, showKept } from "./note-store.js";
import { resultWord, withUnit } from "./plan-check.js";
import { shareView, textView } from "./share.js";
import { readNote, writable } from "./workshop-form.js";

/** @type {HTMLElement} */
let note;
/** @type {Map<Element, ChildNode[]>} */
const blanks = new Map();
/** What the plan told last; null: there is none. @type {?PlanChange} */
let last = null;

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

/** The plan of a fault. @param {PlanChange} change */
function showPlan({ given, situation, page }) {
  const answers = given.list;
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
    const { sheetCause: cause } = place.dataset;
    fill(place, chance(cause, answers, plan, page));
    place.closest("li")?.toggleAttribute("data-not-mine", !plan.causes.some(({ id }) => id === cause));
  }
  const codes = note.querySelector("[data-sheet-read]");
  if (codes) {
    codes.textContent = page.source.codes.length ? `Codes that I read: ${page.source.codes.join(", ")}` : "";
    codes.hidden = page.source.codes.length === 0;
  }
  tickCodes(page.source.codes);
}

/** Codes that were ticked here, not by the owner. @type {Set<HTMLInputElement>} */
const ticked = new Set();

/** What was read is ticked, until the owner says otherwise. @param {string[]} codes */
function tickCodes(codes) {
  const read = new Set(codes.map((code) => code.toUpperCase()));
  for (const row of note.querySelectorAll("[data-sheet-code]")) {
    const box = /** @type {?HTMLInputElement} */ (row.querySelector(":scope > .ticked > .tick"));
    const isRead = read.has(row.dataset.sheetCode.toUpperCase());
    if (box && keptOf(note, box) === undefined && isRead !== box.checked && (isRead || ticked.has(box))) {
      box.checked = isRead;
      ticked[isRead ? "add" : "delete"](box);
    }
  }
}

/** The plan for codes: its lines, as they are told to a workshop. @param {?PlanChange} change */
function showLines(change) {
  const place = note.querySelector("[data-sheet-lines]");
  if (!change) {
    fill(place);
    return;
  }
  const codes = note.querySelector("[data-sheet-codes]");
  codes.textContent = change.page.source.codes.join(", ");
  showStates(codes, change.page.source.codes);
  const rows = [...foundLines(change.told), ...openLines(change.told)];
  fill(place, ...rows.map((line) => el("p", { class: line.startsWith("– ") ? "sheet__row" : "sheet__title" }, line)));
}

/** For each code how it was shown. @param {HTMLElement} place @param {string[]} codes */
function showStates(place, codes) {
  const rows = [...note.querySelectorAll("[data-sheet-code]")];
  if (rows.map((row) => row.dataset.sheetCode).join(",") === codes.join(",")) {
    return;
  }
  rows.forEach((row) => row.remove());
  const states = ["present", "stored", "comes and goes"];
  const made = codes.map((code) =>
    el(
      "li",
      { class: "sheet__code", "data-sheet-code": code },
      codes.length > 1 && `${code}: `,
      el(
        "span",
        { class: "sheet__states" },
        states.map((word) => el("label", { class: "ticked", "data-sheet-state": word }, el("input", { class: "tick", type: "checkbox", autocomplete: "off" }), word)),
      ),
    ),
  );
  place.closest("li")?.after(...made);
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

/** The whole note as text. */
function lines() {
  const bike = myBike();
  return noteLines(readNote(note), bike ? bikeName(bike) : "", last?.page.source.codes ?? [], last?.told ?? null);
}

function printAlone() {
  const root = document.documentElement;
  root.setAttribute("data-print", "workshop-note");
  addEventListener("afterprint", () => root.removeAttribute("data-print"), { once: true });
  print();
}

/** @param {?PlanChange} change @param {HTMLElement} share */
function follow(change, share) {
  last = change;
  share.hidden = change === null;
  if (note.querySelector("[data-sheet-lines]")) {
    showLines(change);
  } else if (change) {
    showPlan(change);
  }
  showKept(note);
}

/** Where nothing was kept, nothing is fetched for it. */
function isAnythingKept() {
  try {
    return Object.keys(localStorage).some((key) => key.startsWith("entry:"));
  } catch {
    return false;
  }
}

/** Once a page. @param {HTMLElement} sheet @param {?PlanChange} change what the plan told last; null: there is none */
export function fillNote(sheet, change) {
  note = sheet;
  writable(note);
  const share = el("div", {}, shareView(async () => last?.link() ?? location.href));
  share.hidden = true;
  const print = button("sheet__button", printAlone, "Print the note");
  note.querySelector("[data-sheet-print]").append(print, textView(lines, "note"), share);
  showBike(myBike());
  showKept(note);
  keepWhatIsSaid(note);
  document.addEventListener("bikechange", ({ detail }) => showBike(detail));
  document.addEventListener("planchange", ({ detail }) => follow(detail, share));
  if (change) {
    follow(change, share);
  }
  if (isAnythingKept()) {
    import("./history-note.js");
  }
}
