/**
 * The history as one file (JSON, RFC 8259), and what such a file would bring into this browser. Pure.
 *
 *     {"format": 1, "holds": "bike history", "saved": "2026-11-30", "bikes": [{…OwnBike, "entries": [{…HistoryEntry}, …]}, …]}
 *
 * A file of a newer format is refused whole, so that nothing of it is lost unseen. Bikes and entries are told by their ids:
 * what is there already does not come a second time, and of two versions of an entry the one that was changed later holds.
 */

import { cleanBike, cleanEntry, inOrder, isRecord } from "./history.js";

export const FORMAT = 1;
const HOLDS = "bike history";
/** More than any browser gives a site for such a thing. */
export const MOST_BYTES = 10_000_000;
const MOST_BIKES = 100;
const MOST_ENTRIES = 50_000;

/**
 * @param {BikeHistory[]} bikes @param {string} day of saving
 */
export function fileText(bikes, day) {
  const rows = bikes.map(({ bike, entries }) => ({ ...bike, entries: inOrder(entries) }));
  return `${JSON.stringify({ format: FORMAT, holds: HOLDS, saved: day, bikes: rows }, null, 1)}\n`;
}

/** @param {FileProblem} problem @returns {HistoryFile} */
function refused(problem) {
  return { problem, bikes: [], odd: 0 };
}

/** @param {string} text @returns {unknown} undefined where it is no JSON */
function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/**
 * Reads a file's text. `odd` counts bikes and entries that are not sound, and are left out.
 * @param {string} text @returns {HistoryFile}
 */
export function readFile(text) {
  if (text.length > MOST_BYTES) {
    return refused("huge");
  }
  const plain = text.replace(/^\uFEFF/, "").trim();
  const value = parsed(plain);
  if (value === undefined) {
    // What begins as such a file does was one once.
    return refused(/^\{\s*"format"\s*:/.test(plain) ? "damaged" : "other");
  }
  if (!isRecord(value) || value.holds !== HOLDS || typeof value.format !== "number") {
    return refused("other");
  }
  if (value.format > FORMAT) {
    return refused("newer");
  }
  if (value.format !== FORMAT || !Array.isArray(value.bikes)) {
    return refused("damaged");
  }
  const entries = value.bikes.reduce((sum, each) => sum + (isRecord(each) && Array.isArray(each.entries) ? each.entries.length : 0), 0);
  return value.bikes.length > MOST_BIKES || entries > MOST_ENTRIES ? refused("huge") : { problem: null, ...bikesOf(value.bikes) };
}

/** @param {unknown[]} rows */
function bikesOf(rows) {
  /** @type {Map<string, BikeHistory>} */
  const bikes = new Map();
  let odd = 0;
  for (const row of rows) {
    const bike = cleanBike(row);
    const listed = isRecord(row) && Array.isArray(row.entries) ? row.entries : [];
    const sound = listed.map(cleanEntry).filter((each) => each !== null);
    if (bike) {
      const before = bikes.get(bike.id)?.entries ?? [];
      bikes.set(bike.id, { bike, entries: newest([...before, ...sound]) });
      odd += listed.length - sound.length;
    } else {
      odd += 1 + listed.length;
    }
  }
  return { bikes: [...bikes.values()], odd };
}

/** Each id once, in the version that was changed last; of two of one moment the first. @param {HistoryEntry[]} entries */
function newest(entries) {
  /** @type {Map<string, HistoryEntry>} */
  const found = new Map();
  for (const entry of entries) {
    const there = found.get(entry.id);
    if (!there || there.changed < entry.changed) {
      found.set(entry.id, entry);
    }
  }
  return [...found.values()];
}

/**
 * What the file would bring, bike by bike. A bike whose odometer counts in another unit here is left alone, as its figures
 * would be taken for what they are not.
 * @param {BikeHistory[]} own @param {BikeHistory[]} brought @returns {Arrival[]}
 */
export function arrivals(own, brought) {
  const here = new Map(own.map((each) => [each.bike.id, each]));
  return brought.map(({ bike, entries }) => {
    const there = here.get(bike.id);
    const known = new Map(there?.entries.map((entry) => [entry.id, entry]));
    const isOther = there !== undefined && there.bike.unit !== bike.unit;
    const fresh = isOther ? [] : entries.filter(({ id }) => !known.has(id));
    const changed = isOther ? [] : entries.filter(({ id, changed: when }) => when > (known.get(id)?.changed ?? Infinity));
    return { bike: there?.bike ?? bike, isNew: !there, isOther, fresh, changed, known: entries.length - fresh.length - changed.length };
  });
}
