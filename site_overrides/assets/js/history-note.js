/** What my bike's history tells a workshop: odometer, when it was first seen, how often, what came back and what was tried. */

import { myBike } from "./bike.js";
import { patternsOf, recentCodes, returnsOf } from "./core/history-codes.js";
import { readCodes } from "./core/given-codes.js";
import { codeText, dayText, distanceText, doneText, patternText, returnText } from "./core/history-words.js";
import { inOrder } from "./core/history.js";
import { el } from "./dom.js";
import { chosenBike, entries } from "./history-store.js";
import { today } from "./look-store.js";

/** The note fits one sheet of paper. */
const MOST_ROWS = 5;
const MOST_FACTS = 3;
/** What is older tells a workshop little. */
const MOST_ENTRIES = 200;

/** What this page is about, as far as the history can tell: its codes, its fault, and codes that were read lately. @param {HistoryEntry[]} own */
function about(own) {
  const article = /** @type {?HTMLElement} */ (document.querySelector("article[data-fault], article[data-code], article[data-several]"));
  const { code, fault } = article?.dataset ?? {};
  const given = readCodes(new URL(location.href).searchParams.get("codes") ?? "");
  const codes = new Set([...(code ? [code] : []), ...given, ...recentCodes(own, today(), MOST_ROWS).map((each) => each.code)]);
  return own.filter((entry) => (fault && entry.fault?.id === fault) || entry.codes.some((each) => codes.has(each.code)));
}

/** @param {HistoryEntry} entry @param {OwnBike} bike */
function rowText(entry, { unit }) {
  const at = entry.odometer === null ? "" : ` at ${distanceText(entry.odometer, unit)}`;
  const what = [entry.codes.map(codeText).join(", "), entry.conditions.join(", "), doneText(entry), entry.cleared === null ? "" : "cleared"];
  return `${dayText(entry.day)}${at}: ${what.filter(Boolean).join("; ") || entry.fault?.title || "seen"}`;
}

/** @param {HTMLElement} place */
function show(place) {
  const bike = myBike() && chosenBike();
  const own = bike ? entries(bike.id).slice(0, MOST_ENTRIES) : [];
  const rows = about(own);
  place.hidden = rows.length === 0;
  place.replaceChildren();
  if (!bike || rows.length === 0) {
    return;
  }
  const codes = new Set(rows.flatMap((entry) => entry.codes.map(({ code }) => code)));
  const facts = [
    ...patternsOf(own).filter(({ code }) => codes.has(code)).map((each) => `${patternText(each, bike.unit)}.`),
    ...returnsOf(own).filter(({ code }) => codes.has(code)).map((each) => returnText(each, bike.unit)),
  ].slice(0, MOST_FACTS);
  place.append(
    el("h3", { class: "sheet__title" }, "What I noted on this bike"),
    el("ul", { class: "sheet__list" }, [...facts, ...rows.slice(0, MOST_ROWS).map((entry) => rowText(entry, bike))].map((text) => el("li", { dir: "auto" }, text))),
  );
  const last = own.find(({ odometer }) => odometer !== null);
  fill("Odometer", last ? `${distanceText(Number(last.odometer), bike.unit)} on ${dayText(last.day)}` : "");
  fill("Seen first on", dayText(inOrder(rows)[0].day));
}

/** What was filled in here, so that what the owner writes stays. @type {Map<HTMLInputElement, string>} */
const filled = new Map();

/** A field of `workshop-form.js`. @param {string} name @param {string} text */
function fill(name, text) {
  const field = /** @type {?HTMLInputElement} */ (document.querySelector(`input[data-sheet-write="${name}"]`));
  if (field && (field.value === "" || field.value === filled.get(field))) {
    field.value = text;
    filled.set(field, text);
  }
}

const place = document.querySelector("[data-sheet-history]");
if (place) {
  show(place);
  document.addEventListener("historychange", () => show(place));
  document.addEventListener("bikechange", () => show(place));
}
