/** What the entries of one bike say of its codes: which came back and after how far, which come and go. Pure. */

import { daysBetween, distanceBetween, inOrder } from "./history.js";

/** Codes read so many days ago are still on the owner's mind. */
const LATELY = 45;

/** The codes that an entry closes: cleared or mended. @param {HistoryEntry} entry @param {Map<string, CodeTrail>} trails */
function closedBy({ codes, cleared, mended, fault }, trails) {
  if (cleared === null && !mended) {
    return [];
  }
  if (codes.length) {
    return codes.map(({ code }) => code);
  }
  // "All cleared" names no code, and what was mended may have been read before, for the same fault.
  const open = [...trails].filter(([, { seen }]) => cleared !== null || (fault && seen.some((entry) => entry.fault?.id === fault.id)));
  return open.map(([code]) => code);
}

/** Twice on one day is once, unless the odometer says otherwise. @param {HistoryEntry[]} seen @param {HistoryEntry} entry */
function isAnew(seen, entry) {
  const last = seen.at(-1);
  return !last || last.day !== entry.day || (entry.odometer !== null && last.odometer !== null && entry.odometer !== last.odometer);
}

/** @param {HistoryEntry[]} entries of one bike @returns {Map<string, CodeTrail>} by code */
function trailsOf(entries) {
  /** @type {Map<string, CodeTrail>} */
  const trails = new Map();
  for (const entry of inOrder(entries)) {
    for (const { code } of entry.codes) {
      const trail = trails.get(code) ?? { seen: [], closed: null, mended: false, returns: [], closings: [] };
      trails.set(code, trail);
      if (trail.closed) {
        trail.returns.push({ from: trail.closed, to: entry, mended: trail.mended });
        trail.seen = trail.mended ? [] : trail.seen;
        trail.closed = null;
      }
      if (isAnew(trail.seen, entry)) {
        trail.seen.push(entry);
      }
    }
    for (const code of closedBy(entry, trails)) {
      const trail = trails.get(code);
      if (trail) {
        trail.mended = entry.mended || (trail.closed !== null && trail.mended);
        trail.closed = entry;
        trail.closings.push(entry);
      }
    }
  }
  return trails;
}

/**
 * By code the entries that cleared or mended it, also those that do not name it.
 * @param {HistoryEntry[]} entries of one bike
 */
export function closingsOf(entries) {
  return new Map([...trailsOf(entries)].map(([code, { closings }]) => [code, closings]));
}

/**
 * Each time that a code came back after it was cleared or its cause mended. The distance is what lies between the two
 * odometers, else what the owner wrote; days count from the day of clearing. Null: not known. An entry that says itself
 * after how far it came back, without a later one, is one too; then `to` is null.
 * @param {HistoryEntry[]} entries of one bike @returns {CodeReturn[]} the newest first
 */
export function returnsOf(entries) {
  /** @type {CodeReturn[]} */
  const found = [];
  for (const [code, { returns, closed, mended }] of trailsOf(entries)) {
    for (const { from, to, mended: wasMended } of returns) {
      const days = daysBetween(from.cleared ?? from.day, to.day);
      found.push({ code, from: from.id, to: to.id, distance: distanceBetween(from, to) ?? from.back, days: days < 0 ? null : days, mended: wasMended });
    }
    if (closed && closed.back !== null) {
      found.push({ code, from: closed.id, to: null, distance: closed.back, days: null, mended });
    }
  }
  const places = new Map(inOrder(entries).map(({ id }, at) => [id, at]));
  /** @param {CodeReturn} each */
  const place = ({ from, to }) => Number(places.get(to ?? from)) + (to === null ? 0.5 : 0);
  return found.sort((one, other) => place(other) - place(one));
}

/**
 * How often each code was seen since it was last mended, and over how far, from the first to the last time: "3 times in
 * 1,200 km". Only codes that were seen twice or more; the most often seen first.
 * @param {HistoryEntry[]} entries of one bike @returns {CodePattern[]}
 */
export function patternsOf(entries) {
  return [...trailsOf(entries)]
    .filter(([, { seen }]) => seen.length > 1)
    .map(([code, { seen, closed, mended }]) => ({
      code,
      times: seen.length,
      distance: distanceBetween(seen[0], seen[seen.length - 1]),
      days: daysBetween(seen[0].day, seen[seen.length - 1].day),
      over: closed !== null && mended,
    }))
    .sort((one, other) => other.times - one.times || (one.code < other.code ? -1 : 1));
}

/**
 * The codes that were read lately and whose cause was not mended since, the last read first.
 * @param {HistoryEntry[]} entries of one bike @param {string} today @param {number} most @returns {RecentCode[]}
 */
export function recentCodes(entries, today, most = 5) {
  /** @type {RecentCode[]} */
  const found = [];
  for (const [code, { seen, closed, mended }] of trailsOf(entries)) {
    const last = seen[seen.length - 1];
    const ago = daysBetween(last.day, today);
    if (ago >= -1 && ago <= LATELY && !(closed && mended)) {
      const status = last.codes.find((each) => each.code === code)?.status ?? null;
      found.push({ code, day: last.day, status, odometer: last.odometer, cleared: closed?.cleared ?? null });
    }
  }
  // The sort is stable, so of one day they stand as they were read.
  return found.sort((one, other) => daysBetween(one.day, other.day)).slice(0, most);
}

/**
 * What does not fit: a day that is still to come, an odometer that shows less than before.
 * @param {HistoryEntry[]} entries of one bike @param {string} today @returns {Oddity[]}
 */
export function odditiesOf(entries, today) {
  /** @type {Oddity[]} */
  const found = [];
  /** @type {?HistoryEntry} */
  let before = null;
  for (const entry of inOrder(entries)) {
    if (daysBetween(today, entry.day) > 0) {
      found.push({ id: entry.id, what: "future", before: null });
    }
    if (entry.odometer !== null) {
      if (before?.odometer && entry.odometer < before.odometer) {
        found.push({ id: entry.id, what: "backwards", before: { day: before.day, odometer: before.odometer } });
      }
      before = entry;
    }
  }
  return found;
}
