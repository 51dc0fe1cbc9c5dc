/**
 * What was ticked and written in notes for a workshop, kept for the day and the bike at hand: a note is often filled in at the
 * bike and shown at the counter. Nothing of it leaves the browser.
 *
 * Under `notes` stand day, bike, and by the fault's id or the codes of a note what the owner changed in it: names of boxes
 * (true or false) and of fields (text).
 */

import { bikeNow, today } from "./look-store.js";
import { remember, remembered } from "./memory.js";

const KEY = "notes";
const MOST = 500;
const LONGEST = 200;
const ROW = "[data-sheet-code], [data-sheet-notice], [data-sheet-open], [data-sheet-check], [data-sheet-sign]";

/** @param {unknown} value @returns {Record<string, unknown>} */
function fieldsOf(value) {
  return typeof value === "object" && value !== null ? /** @type {Record<string, unknown>} */ (value) : {};
}

/** All notes of this day and bike, whatever another page may have written there. */
function notesOfToday() {
  const { day, bike, notes } = fieldsOf(remembered(KEY));
  return day === today() && bike === bikeNow() ? fieldsOf(notes) : {};
}

/** Of which note it is. @param {HTMLElement} note */
function nameOf(note) {
  const article = /** @type {?HTMLElement} */ (note.closest("[data-fault]"));
  return article?.dataset.fault ?? note.querySelector("[data-sheet-codes]")?.textContent ?? "";
}

/** What a box or field is called: its row, and what it is in it. @param {HTMLInputElement} input */
function nameIn(input) {
  const row = /** @type {?HTMLElement} */ (input.closest(ROW));
  const { sheetCode, sheetNotice, sheetOpen, sheetCheck } = row?.dataset ?? {};
  const what = sheetCode ?? sheetNotice ?? sheetOpen ?? sheetCheck ?? row?.textContent?.trim() ?? "";
  const state = /** @type {?HTMLElement} */ (input.closest("[data-sheet-state]"))?.dataset.sheetState;
  return `${what.slice(0, LONGEST)}: ${input.dataset.sheetWrite ?? state ?? ""}`;
}

/** @param {HTMLElement} note */
function inputs(note) {
  return /** @type {NodeListOf<HTMLInputElement>} */ (note.querySelectorAll("input.tick, input[data-sheet-write]"));
}

/** What the owner said today about this box or field; undefined: nothing. @param {HTMLElement} note @param {HTMLInputElement} input */
export function keptOf(note, input) {
  const kept = fieldsOf(notesOfToday()[nameOf(note)]);
  const name = nameIn(input);
  return Object.hasOwn(kept, name) ? kept[name] : undefined;
}

/** Puts what was ticked and written today back. @param {HTMLElement} note */
export function showKept(note) {
  for (const input of inputs(note)) {
    const value = keptOf(note, input);
    if (input.type === "checkbox" && typeof value === "boolean") {
      input.checked = value;
    } else if (input.type === "text" && typeof value === "string" && input.value === "") {
      input.value = value.slice(0, LONGEST);
    }
  }
}

/** @param {HTMLElement} note @param {HTMLInputElement} input what the owner has just changed */
function keep(note, input) {
  const notes = notesOfToday();
  const name = nameOf(note);
  const kept = fieldsOf(Object.hasOwn(notes, name) ? notes[name] : null);
  const own = { ...kept, [nameIn(input)]: input.type === "checkbox" ? input.checked : input.value };
  const rows = Object.entries(own).slice(-MOST);
  remember(KEY, { day: today(), bike: bikeNow(), notes: { ...notes, [name]: Object.fromEntries(rows) } });
}

/** From now on what the owner changes is kept. @param {HTMLElement} note */
export function keepWhatIsSaid(note) {
  note.addEventListener("input", ({ target }) => target instanceof HTMLInputElement && keep(note, target));
}
