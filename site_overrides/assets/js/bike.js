/**
 * My bike: the machine that all pages speak of. {model: id, year: number, name: the model's name}, or null. With an `id`
 * it is one of those whose history is kept, see `history-store.js`.
 *
 * Other parts of a page hear of a change by the event `bikechange` on the document.
 */

import { ownMemory, remember, remembered } from "./memory.js";

export const BIKE = "bike";

/** @param {unknown} stored whatever another page may have written @returns {?MyBike} */
function sound(stored) {
  const { model, year, name, id } = /** @type {Record<string, unknown>} */ (stored ?? {});
  const isSound = typeof model === "string" && typeof year === "number" && Number.isInteger(year) && typeof name === "string";
  return isSound ? { model, year, name, ...(typeof id === "string" && { id }) } : null;
}

/** The bike of this page: the remembered one, or that of a shared state while one is looked at. @returns {?MyBike} */
export function myBike() {
  return sound(remembered(BIKE));
}

/** The remembered one, whatever is looked at. @returns {?MyBike} */
export function ownBike() {
  return sound(ownMemory(BIKE));
}

/** @param {?MyBike} chosen */
export function keepBike(chosen) {
  const before = myBike();
  // Whoever chooses the same model year again means the same bike.
  const isSame = chosen && before?.model === chosen.model && before.year === chosen.year;
  remember(BIKE, isSame ? { ...before, ...chosen } : chosen);
  tellBike();
}

/** What a page knows of the bike has to be looked up anew. */
export function tellBike() {
  const bike = myBike();
  document.documentElement.toggleAttribute("data-bike", Boolean(bike));
  document.dispatchEvent(new CustomEvent("bikechange", { detail: bike }));
}

/** @param {Omit<MyBike, "model">} bike */
export function bikeName({ name, year }) {
  return `${name}, ${year}`;
}
