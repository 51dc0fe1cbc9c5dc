/** The note for the workshop as a form: its blanks as fields, and what was ticked and written in it. Only texts are set. */

import { el } from "./dom.js";

/** A field in the place of each blank that has a name: on paper it is the blank again. @param {HTMLElement} note */
export function writable(note) {
  for (const blank of note.querySelectorAll("[data-sheet-write]")) {
    const { sheetWrite: name } = blank.dataset;
    blank.replaceWith(
      el("input", { class: `${blank.className} sheet__field`, type: "text", "data-sheet-write": name, "aria-label": name, maxlength: 200, autocomplete: "off" }),
    );
  }
}

/** @param {?Element} place */
function textOf(place) {
  return (place?.textContent ?? "").replace(/\s+/gu, " ").trim();
}

/** @param {Element} row */
function isTicked(row) {
  return /** @type {?HTMLInputElement} */ (row.querySelector(":scope > .ticked > .tick"))?.checked ?? false;
}

/** The words that were ticked in a row. @param {Element} row */
function states(row) {
  const all = [...row.querySelectorAll("[data-sheet-state]")];
  return all.filter((label) => /** @type {HTMLInputElement} */ (label.querySelector(".tick")).checked).map(({ dataset }) => dataset.sheetState);
}

/** What an owner ticked and wrote. @param {HTMLElement} note @returns {NoteForm} */
export function readNote(note) {
  const written = [...note.querySelectorAll("[data-sheet-write]")].map((field) => /** @type {const} */ ([field, /** @type {HTMLInputElement} */ (/** @type {unknown} */ (field)).value?.trim() ?? ""]));
  /** @param {string} name */
  const under = (name) => written.find(([field, value]) => field.dataset.sheetWrite === name && value)?.[1] ?? "";
  const facts = written.filter(([field, value]) => value && field.closest(".sheet__facts"));
  const checks = written.filter(([field, value]) => value && field.closest("[data-sheet-check]"));
  const noted = [...note.querySelectorAll("[data-sheet-history] li")].map(textOf);
  const [limit] = written.filter(([field, value]) => value && field.closest(".sheet__ask"));
  return {
    about: textOf(note.querySelector("[data-sheet-about]")),
    facts: [...facts.map(([field, value]) => `${field.dataset.sheetWrite}: ${value}`), ...noted.map((text) => `Noted on this bike: ${text}`)],
    codes: [...note.querySelectorAll("[data-sheet-code]")].map((row) => ({ code: row.dataset.sheetCode, read: isTicked(row), states: states(row) })),
    others: under("Other codes"),
    checked: [
      ...checks.map(([field, value]) => `${textOf(field.closest("[data-sheet-check]")?.querySelector("[data-sheet-task]") ?? null)}: ${value}`),
      ...[under("Also checked")].filter(Boolean),
    ],
    changed: [under("Also changed")].filter(Boolean),
    noticed: [...[...note.querySelectorAll("[data-sheet-sign]")].filter(isTicked).map(textOf), ...[under("Also noticed")].filter(Boolean)],
    notices: [...note.querySelectorAll("[data-sheet-notice]")].map((row) => ({ notice: row.dataset.sheetNotice, answers: states(row) })),
    limit: limit ? `${limit[1]} ${textOf(limit[0].closest(".sheet__ask")).split(" ").at(-1) ?? ""}` : "",
  };
}
