/** What was reported stands in the bike's history too: at the entry that it is about, or as an entry of its own. */

import { add, bikes, change, chosenBike, entries } from "./history-store.js";

/** The bike that a report is about, if its history is kept. @param {string} model @param {number} year @returns {?OwnBike} */
function bikeOf(model, year) {
  // Of two bikes of one model year it is the one that is chosen.
  return [chosenBike(), ...bikes()].find((each) => each?.model === model && each.year === year) ?? null;
}

/**
 * @param {Filled} filled what the form says
 * @param {?{id: string, title: string}} fault the entry that it is about
 * @param {string} sent the day on which it went off, as 2026-03-14
 */
export function noteSent(filled, fault, sent) {
  const first = (/** @type {string} */ name) => filled[name]?.[0] ?? "";
  const bike = bikeOf(first("model"), Number(first("year")));
  const day = first("seen") || sent;
  if (!bike) {
    return;
  }
  const solved = first("state") === "solved";
  const report = { sent, way: "", solved };
  const told = entries(bike.id).find((each) => each.day === day && fault !== null && each.fault?.id === fault.id);
  if (told) {
    change(bike.id, told, { report });
    return;
  }
  const odometer = /^[0-9]{1,7}$/u.test(first("odometer")) && first("unit") === bike.unit ? Number(first("odometer")) : null;
  add(bike.id, { day, odometer, fault: fault && { id: fault.id, title: fault.title }, mended: solved, report });
}
