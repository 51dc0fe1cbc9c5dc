/**
 * My bike: the machine that all pages speak of. {model: id, year: number, name: the model's name}, or null. With an `id`
 * it is one of those whose history is kept, see `history-store.js`.
 *
 * Other parts of a page hear of a change by the event `bikechange` on the document.
 */

const KEY = "bike";

/** @returns {?MyBike} */
export function myBike() {
  try {
    const { model, year, name, id } = JSON.parse(localStorage.getItem(KEY) ?? "null") ?? {};
    const isSound = typeof model === "string" && Number.isInteger(year) && typeof name === "string";
    return isSound ? { model, year, name, ...(typeof id === "string" && { id }) } : null;
  } catch {
    // Storage may be forbidden, or hold what another page wrote.
    return null;
  }
}

/** @param {?MyBike} chosen */
export function keepBike(chosen) {
  const before = myBike();
  // Whoever chooses the same model year again means the same bike.
  const isSame = chosen && before?.model === chosen.model && before.year === chosen.year;
  const bike = isSame ? { ...before, ...chosen } : chosen;
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
