/**
 * What was found today at the checks that come before any plan, of the bike at hand. Nothing of it leaves the browser;
 * where storage fails, it holds for the page. Other parts of a page hear of a change by the event `lookchange`.
 */

import { myBike } from "./bike.js";
import { remember, remembered } from "./memory.js";

const KEY = "looks";
const MOST = 200;
const RESULTS = new Set(["good", "bad", "low", "high"]);

/** The day by the owner's clock, as 2026-03-14. */
export function today() {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}

/** The bike at hand, as a part of a key; empty: none is known. */
export function bikeNow() {
  const bike = myBike();
  return bike ? `${bike.model}/${bike.year}` : "";
}

/** Id of a check → what came out, of this bike and this day; empty on another one. @returns {Looks} */
export function looksOfToday() {
  const record = /** @type {?Record<string, unknown>} */ (remembered(KEY));
  if (typeof record !== "object" || record === null || record.day !== today() || record.bike !== bikeNow()) {
    return {};
  }
  const { results } = record;
  const rows = typeof results === "object" && results !== null ? Object.entries(results) : [];
  return Object.fromEntries(rows.filter(([, result]) => RESULTS.has(result)).slice(0, MOST));
}

/** @param {string} check @param {?string} result null: take it back */
export function keepLook(check, result) {
  const results = { ...looksOfToday() };
  if ((results[check] ?? null) === result) {
    return;
  }
  if (result === null) {
    delete results[check];
  } else {
    results[check] = result;
  }
  remember(KEY, { day: today(), bike: bikeNow(), results });
  document.dispatchEvent(new CustomEvent("lookchange", { detail: { check, result } }));
}
