/**
 * The history of the owner's own bike: what was read, done and cleared, by day and odometer, and what follows from it.
 *
 * Pure: what was kept, typed or brought in a file goes through `cleanBike` and `cleanEntry` first, and what is not sound
 * does not come out of them. A day is `2026-03-14` by the owner's clock. The shapes, `OwnBike` and `HistoryEntry`, stand in
 * `.ci/browser-code/values.d.ts`. Nothing of it ever leaves the browser by itself.
 */

/** What a control unit says of a code, as the case format has it. */
export const STATUSES = ["present", "stored", "pending", "intermittent"];
const RESULTS = ["bad", "good", "low", "high", "unclear", "helped", "no-change"];

/** Longest texts and lists; what a form takes is no longer either. */
export const MOST = { text: 2000, name: 200, word: 60, codes: 30, conditions: 20, tried: 60 };
const MOST_ODOMETER = 9_999_999;

const BIKE_ID = /^b[0-9a-z]{6}$/;
const ENTRY_ID = /^e[0-9a-z]{14}$/;
const ID = /^[a-z0-9-]{1,100}$/;
const CODE = /^[!-~](?:[ -~]{0,30}[!-~])?$/;
/** Control characters but the line break, and signs that turn the direction of a text. */
const UNSEEN = /[^\P{Cc}\n]|[\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;
const HALF_SIGN = /[\uD800-\uDBFF]$/;

/** @param {unknown} value @returns {value is Record<string, unknown>} */
export function isRecord(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** A text without what is not seen, and not too long. @param {unknown} value @param {number} longest */
function textOf(value, longest) {
  return typeof value === "string" ? value.replace(/\r\n?/g, "\n").replace(UNSEEN, "").trim().slice(0, longest).replace(HALF_SIGN, "").trim() : "";
}

/** @param {unknown} value @param {number} longest */
function lineOf(value, longest) {
  return textOf(typeof value === "string" ? value.replace(/\s+/g, " ") : value, longest);
}

/** @param {unknown} value @returns {unknown[]} */
function listOf(value) {
  return Array.isArray(value) ? value : [];
}

/** A whole distance that an odometer may show. @param {unknown} value */
function distanceOf(value) {
  return typeof value === "number" && value >= 0 && value <= MOST_ODOMETER ? Math.round(value) : null;
}

/** @param {number} year */
function isLeap(year) {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** Days since the first one of year 1 of the calendar, as Python's `date.toordinal`; null where there is no such day. @param {unknown} value */
export function dayNumber(value) {
  const found = typeof value === "string" ? /^(\d{4})-(\d{2})-(\d{2})$/.exec(value) : null;
  if (!found) {
    return null;
  }
  const [year, month, day] = found.slice(1).map(Number);
  const months = [31, isLeap(year) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  if (year < 1 || month < 1 || month > 12 || day < 1 || day > months[month - 1]) {
    return null;
  }
  const before = year - 1;
  const years = before * 365 + Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  return years + months.slice(0, month - 1).reduce((sum, each) => sum + each, 0) + day;
}

/** @param {unknown} value @returns {?string} */
function dayOf(value) {
  return dayNumber(value) === null ? null : /** @type {string} */ (value);
}

/**
 * @template {string} T @param {readonly T[]} known @param {unknown} value @returns {?T}
 */
function oneOf(known, value) {
  return known.find((each) => each === value) ?? null;
}

/** Something of the club's base, and what it was called. @param {unknown} value @returns {?Named} */
function namedOf(value) {
  if (!isRecord(value) || typeof value.id !== "string" || !ID.test(value.id)) {
    return null;
  }
  return { id: value.id, title: lineOf(value.title, MOST.name) || value.id };
}

/** @param {unknown} value @returns {SeenCode[]} */
function codesOf(value) {
  /** @type {Map<string, SeenCode>} */
  const found = new Map();
  for (const each of listOf(value).filter(isRecord)) {
    if (typeof each.code === "string" && CODE.test(each.code)) {
      found.set(each.code, { code: each.code, status: oneOf(STATUSES, each.status) });
    }
  }
  return [...found.values()].slice(0, MOST.codes);
}

/** @param {unknown} value @returns {TriedStep[]} */
function triedOf(value) {
  return listOf(value)
    .filter(isRecord)
    .flatMap(({ kind, result, ...rest }) => {
      const named = namedOf(rest);
      const came = oneOf(RESULTS, result);
      const sort = oneOf(/** @type {const} */ (["check", "fix"]), kind);
      return named && came && sort ? [{ kind: sort, ...named, result: came }] : [];
    })
    .slice(0, MOST.tried);
}

/** @param {unknown} value @returns {?SentReport} */
function reportOf(value) {
  const sent = isRecord(value) ? dayOf(value.sent) : null;
  if (!isRecord(value) || sent === null) {
    return null;
  }
  const { solved } = value;
  return { sent, way: lineOf(value.way, MOST.word), solved: typeof solved === "boolean" ? solved : lineOf(solved, MOST.word) || null };
}

/** @param {unknown} value whatever a browser had stored, or a file had @returns {?OwnBike} null where it is none */
export function cleanBike(value) {
  if (!isRecord(value)) {
    return null;
  }
  const { id, model, year, unit } = value;
  const isSound = typeof id === "string" && BIKE_ID.test(id) && typeof model === "string" && ID.test(model);
  if (!isSound || typeof year !== "number" || !Number.isInteger(year) || year < 1885 || year > 2199) {
    return null;
  }
  return {
    id,
    model,
    year,
    name: lineOf(value.name, MOST.name) || model,
    call: lineOf(value.call, MOST.word),
    unit: unit === "mi" ? "mi" : "km",
  };
}

/**
 * @param {unknown} value whatever a browser had stored, or a file had
 * @returns {?HistoryEntry} null where it has no sound id or day
 */
export function cleanEntry(value) {
  if (!isRecord(value)) {
    return null;
  }
  const { id, changed } = value;
  const day = dayOf(value.day);
  if (typeof id !== "string" || !ENTRY_ID.test(id) || day === null) {
    return null;
  }
  const conditions = listOf(value.conditions).map((each) => lineOf(each, MOST.word));
  const fault = namedOf(value.fault);
  return {
    id,
    day,
    odometer: distanceOf(value.odometer),
    codes: codesOf(value.codes),
    conditions: [...new Set(conditions.filter(Boolean))].slice(0, MOST.conditions),
    done: textOf(value.done, MOST.text),
    tried: triedOf(value.tried),
    fault,
    cause: fault && namedOf(value.cause),
    mended: value.mended === true,
    cleared: dayOf(value.cleared),
    back: distanceOf(value.back),
    report: reportOf(value.report),
    changed: typeof changed === "number" && Number.isSafeInteger(changed) && changed >= 0 ? changed : 0,
  };
}

/** Whether an entry says anything but its day. @param {Omit<HistoryEntry, "id" | "changed">} entry */
export function saysSomething({ odometer, codes, done, tried, fault, mended, cleared }) {
  return fault !== null || odometer !== null || codes.length > 0 || done !== "" || tried.length > 0 || mended || cleared !== null;
}

/** @param {string} one @param {string} other */
function byText(one, other) {
  return one < other ? -1 : Number(one > other);
}

/**
 * Of one day: as they were made, but those with an odometer rise by it, each in a place that one of them has.
 * @param {HistoryEntry[]} entries
 */
function ofOneDay(entries) {
  const made = [...entries].sort((one, other) => byText(one.id, other.id));
  const rising = made.filter(({ odometer }) => odometer !== null).sort((one, other) => Number(one.odometer) - Number(other.odometer));
  return made.map((entry) => (entry.odometer === null ? entry : /** @type {HistoryEntry} */ (rising.shift())));
}

/** As they came about, the oldest first. @param {HistoryEntry[]} entries */
export function inOrder(entries) {
  /** @type {Map<string, HistoryEntry[]>} */
  const days = new Map();
  for (const entry of entries) {
    const there = days.get(entry.day);
    if (there) {
      there.push(entry);
    } else {
      days.set(entry.day, [entry]);
    }
  }
  return [...days.keys()].sort(byText).flatMap((day) => ofOneDay(days.get(day) ?? []));
}

/** @param {HistoryEntry[]} entries */
export function newestFirst(entries) {
  return inOrder(entries).reverse();
}

/** From one to the other; null where one is not known, or the odometer ran backwards. @param {HistoryEntry} from @param {HistoryEntry} to */
export function distanceBetween(from, to) {
  return from.odometer === null || to.odometer === null || to.odometer < from.odometer ? null : to.odometer - from.odometer;
}

/** @param {string} from @param {string} to */
export function daysBetween(from, to) {
  return Number(dayNumber(to)) - Number(dayNumber(from));
}
