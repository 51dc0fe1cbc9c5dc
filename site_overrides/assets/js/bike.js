/**
 * My bike: the one machine that this browser remembers. {model: id, year: number, name: the model's name}, or null.
 *
 * Other parts of a page hear of a change by the event `bikechange` on the document.
 */

const KEY = "bike";

/** @returns {?MyBike} */
export function myBike() {
  try {
    const { model, year, name } = JSON.parse(localStorage.getItem(KEY) ?? "null") ?? {};
    const isSound = typeof model === "string" && Number.isInteger(year) && typeof name === "string";
    return isSound ? { model, year, name } : null;
  } catch {
    // Storage may be forbidden, or hold what another page wrote.
    return null;
  }
}

/** @param {?MyBike} bike */
export function keepBike(bike) {
  try {
    if (bike) {
      localStorage.setItem(KEY, JSON.stringify(bike));
    } else {
      localStorage.removeItem(KEY);
    }
  } catch {
    // Then it holds for this page only.
  }
  document.documentElement.toggleAttribute("data-bike", Boolean(bike));
  document.dispatchEvent(new CustomEvent("bikechange", { detail: bike }));
}

/** @param {Omit<MyBike, "model">} bike */
export function bikeName({ name, year }) {
  return `${name}, ${year}`;
}
