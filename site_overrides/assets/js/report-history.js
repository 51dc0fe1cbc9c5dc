/**
 * What the history of my bike says that a report wants. The history has keys of its own, `bike:ID` and `entry:BIKE:ID`;
 * where there is none, nothing is known.
 */

/** @param {string} start */
function stored(start) {
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(start));
    return keys.map((key) => JSON.parse(localStorage.getItem(key) ?? "null")).filter((each) => typeof each === "object" && each !== null);
  } catch {
    // Forbidden, or what another page wrote.
    return [];
  }
}

/** @param {unknown} value @param {RegExp} shape */
function text(value, shape) {
  return typeof value === "string" && shape.test(value) ? value : null;
}

/** The bike in the history: its made-up id, and what its odometer counts in. @param {string} model @param {number} year */
export function historyBike(model, year) {
  const fitting = stored("bike:").filter((each) => each.model === model && each.year === year && text(each.id, /^b[0-9a-z]{6}$/u));
  // Of two bikes of one model year it is the one that is chosen.
  const chosen = stored("bike").find((each) => each.model === model && each.year === year && typeof each.name === "string" && !each.unit)?.id;
  const found = fitting.find(({ id }) => id === chosen) ?? fitting[0];
  return found ? { id: String(found.id), unit: found.unit === "mi" ? "mi" : "km" } : null;
}

/**
 * Its entries, the latest first.
 * @param {string} bike
 */
export function historyEntries(bike) {
  const rows = stored(`entry:${bike}:`).filter((each) => text(each.day, /^[0-9]{4}-[0-9]{2}-[0-9]{2}$/u));
  return rows
    .map((each) => ({
      day: String(each.day),
      odometer: Number.isInteger(each.odometer) && each.odometer >= 0 ? Number(each.odometer) : null,
      codes: (Array.isArray(each.codes) ? each.codes : []).map((/** @type {{code?: unknown}} */ row) => text(row?.code, /^[!-~]{1,30}$/u)).filter(Boolean),
      fault: text(each.fault?.id, /^[a-z0-9-]{1,100}$/u),
    }))
    .sort((one, other) => (one.day < other.day ? 1 : -1));
}

/** The latest odometer in kilometres; null: not known. @param {string} model @param {number} year */
export function odometerNow(model, year) {
  const bike = historyBike(model, year);
  const last = bike ? historyEntries(bike.id).find(({ odometer }) => odometer !== null) : null;
  return bike && last?.odometer ? last.odometer * (bike.unit === "mi" ? 1.609344 : 1) : null;
}
