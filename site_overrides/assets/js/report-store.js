/** What this browser keeps of reports. Nothing of it leaves the browser by itself; where storage fails, it holds for the page. */

import { bikeId, cleanKept } from "./core/report-kept.js";

const KEY = "reports";

/** @type {?KeptReports} */
let held = null;

/** @returns {KeptReports} */
export function kept() {
  if (held) {
    return held;
  }
  try {
    return cleanKept(JSON.parse(localStorage.getItem(KEY) ?? "null"));
  } catch {
    // Forbidden, or what another page wrote.
    return cleanKept(null);
  }
}

/** Whether it will still be there tomorrow. @param {KeptReports} reports */
export function keep(reports) {
  try {
    localStorage.setItem(KEY, JSON.stringify(reports));
    held = null;
    return true;
  } catch {
    // Forbidden or full: it holds for this page.
    held = reports;
    return false;
  }
}

/** The made-up id of the device's bike, the same in all its reports. @param {string} model @param {number} year */
export function ownBike(model, year) {
  const reports = kept();
  const key = `${model}/${year}`;
  if (!Object.hasOwn(reports.bikes, key)) {
    const id = bikeId(crypto.getRandomValues(new Uint8Array(8)));
    keep({ ...reports, bikes: { ...reports.bikes, [key]: id } });
    return id;
  }
  return reports.bikes[key];
}

/** The day that a report may name as today: the owner's, but never one that has not begun everywhere. */
export function today() {
  const now = new Date();
  const own = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
  const common = now.toISOString().slice(0, 10);
  return own < common ? own : common;
}
