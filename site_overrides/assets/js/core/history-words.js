/** The history in words. Plain text: whoever shows it sets it as text. Pure. */

import { daysBetween } from "./history.js";
import { listText } from "./plan-words.js";

const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
/** @type {Record<string, string>} */
const STATUS = { present: "present", stored: "stored", pending: "pending", intermittent: "comes and goes" };
/** @type {Record<string, string>} */
const RESULT = {
  bad: "not good",
  good: "good",
  low: "too low",
  high: "too high",
  unclear: "could not tell",
  helped: "helped",
  "no-change": "did not help",
};

/** `61 200 km`, as `Distance.text` in Python. @param {number} distance @param {string} unit */
export function distanceText(distance, unit) {
  return `${String(distance).replace(/\B(?=(\d{3})+$)/g, "\u202f")}\u00a0${unit}`;
}

/** `14 March 2026`. @param {string} day */
export function dayText(day) {
  const [year, month, number] = day.split("-").map(Number);
  return `${number} ${MONTHS[month - 1]} ${year}`;
}

/** @param {number} days */
function daysText(days) {
  return days === 1 ? "1 day" : `${days} days`;
}

/** `today`, `yesterday`, `5 days ago`, `on 14 March 2026`. @param {string} day @param {string} today */
export function agoText(day, today) {
  const ago = daysBetween(day, today);
  if (ago < 0 || ago > 30) {
    return `on ${dayText(day)}`;
  }
  return ago > 1 ? `${ago} days ago` : ago ? "yesterday" : "today";
}

/** `P0562 (stored)`. @param {SeenCode} seen */
export function codeText({ code, status }) {
  return status === null ? code : `${code} (${statusText(status)})`;
}

/** @param {string} status */
export function statusText(status) {
  return STATUS[status] ?? status;
}

/** `P0562 came back after 300 km, 11 days after it was cleared`. @param {CodeReturn} back @param {string} unit */
export function returnText({ code, distance, days, mended }, unit) {
  const what = mended ? "was taken to be mended" : "was cleared";
  if (distance !== null && days !== null) {
    return `${code} came back after ${distanceText(distance, unit)}, ${daysText(days)} after it ${what}.`;
  }
  if (distance !== null) {
    return `${code} came back ${distanceText(distance, unit)} after it ${what}.`;
  }
  return days === null ? `${code} came back after it ${what}.` : `${code} came back ${daysText(days)} after it ${what}.`;
}

/** `P0562: 3 times in 1 200 km`. @param {CodePattern} pattern @param {string} unit */
export function patternText({ code, times, distance, days }, unit) {
  const often = times === 2 ? "twice" : `${times} times`;
  return `${code}: ${often} in ${distance === null ? daysText(Math.max(days, 1)) : distanceText(distance, unit)}`;
}

/** What does not fit about an entry. @param {Oddity} oddity @param {string} unit */
export function oddText({ before }, unit) {
  return before
    ? `The odometer shows less than on ${dayText(before.day)} (${distanceText(before.odometer, unit)}): a slip, or another instrument.`
    : "This day is still to come.";
}

/** What the plan had checked and tried, result by result. @param {TriedStep[]} tried */
export function triedTexts(tried) {
  return tried.map(({ title, result }) => `${title}: ${RESULT[result] ?? result}`);
}

/** What an entry says was done, in one line; empty where it says nothing of that. @param {HistoryEntry} entry */
export function doneText({ done, tried, fault, cause, mended }) {
  const what = cause && fault ? `${fault.title}: ${cause.title}` : mended && fault ? fault.title : "";
  const texts = [what && `${mended ? "Mended" : "Found"}: ${what}`, done.replace(/\s+/g, " "), ...triedTexts(tried)];
  return texts.filter(Boolean).join("; ");
}

/** What a bike is called. @param {OwnBike} bike */
export function bikeText({ call, name, year }) {
  return call ? `${call} (${name}, ${year})` : `${name}, ${year}`;
}

/** How much would come in from a file, for one bike. @param {Arrival} arrival */
export function arrivalText({ bike, isNew, isOther, fresh, changed, known }) {
  if (isOther) {
    return `${bikeText(bike)}: left out, its odometer counts in other units here.`;
  }
  /** @param {number} count @param {string} what */
  const some = (count, what) => (count ? [`${count} ${count === 1 ? "entry" : "entries"} ${what}`] : []);
  const parts = [...some(fresh.length, "new"), ...some(changed.length, "newer than here"), ...some(known, "here already")];
  return `${bikeText(bike)}${isNew ? ", a bike that is not here yet" : ""}: ${listText(parts) || "no entries"}.`;
}
