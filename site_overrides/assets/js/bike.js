/**
 * My bike: the one machine that this browser remembers. {model: id, year: number, name: the model's name}, or null.
 *
 * Other parts of a page hear of a change by the event `bikechange` on the document.
 */

import { ownMemory, remember, remembered } from "./memory.js";

export const BIKE = "bike";

/** @param {unknown} stored whatever another page may have written @returns {?MyBike} */
function sound(stored) {
  const { model, year, name } = /** @type {Record<string, unknown>} */ (stored ?? {});
  const isSound = typeof model === "string" && typeof year === "number" && Number.isInteger(year) && typeof name === "string";
  return isSound ? { model, year, name } : null;
}

/** The bike of this page: the remembered one, or that of a shared state while one is looked at. @returns {?MyBike} */
export function myBike() {
  return sound(remembered(BIKE));
}

/** The remembered one, whatever is looked at. @returns {?MyBike} */
export function ownBike() {
  return sound(ownMemory(BIKE));
}

/** @param {?MyBike} bike */
export function keepBike(bike) {
  remember(BIKE, bike);
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
