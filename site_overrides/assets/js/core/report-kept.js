/**
 * What a device keeps of reports: what is being written, what was sent, what the bikes are called there. Whatever a browser
 * had stored comes through `cleanKept`. Pure.
 */

import { distance, inKm, isDay } from "./report-clean.js";

const MOST_DRAFTS = 20;
const MOST_SENT = 50;
const MOST_FIELDS = 120;
const LONGEST = 12_000;
/** Days after which it is asked whether it held, where no later odometer is known. Common practice, no source. */
export const DAYS_TO_ASK = 42;
const LETTERS = "bcdfghjkmnpqrstvwxz";

/** @param {unknown} value @returns {value is Record<string, unknown>} */
function isRecord(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** @param {unknown} value @returns {Filled} */
export function cleanFilled(value) {
  /** @type {Filled} */
  const filled = {};
  for (const [key, texts] of isRecord(value) ? Object.entries(value).slice(0, MOST_FIELDS) : []) {
    if (Array.isArray(texts) && key !== "__proto__") {
      filled[key] = texts.filter((each) => typeof each === "string" && each.length <= LONGEST).slice(0, MOST_FIELDS);
    }
  }
  return filled;
}

/** @param {unknown} value */
function text(value) {
  return typeof value === "string" ? value.slice(0, 300) : "";
}

/** @param {unknown} stored @returns {Record<string, string>} */
function cleanBikes(stored) {
  const rows = isRecord(stored) ? Object.entries(stored).slice(0, MOST_SENT) : [];
  return Object.fromEntries(rows.flatMap(([of, id]) => (typeof id === "string" && /^bike-[a-z]{8}$/u.test(id) ? [[of, id]] : [])));
}

/** @param {unknown} stored @returns {KeptReports} */
export function cleanKept(stored) {
  const kept = isRecord(stored) ? stored : {};
  const drafts = Array.isArray(kept.drafts) ? kept.drafts.filter(isRecord) : [];
  const sent = Array.isArray(kept.sent) ? kept.sent.filter(isRecord) : [];
  return {
    drafts: drafts.slice(0, MOST_DRAFTS).map((each) => ({ key: text(each.key), title: text(each.title), address: text(each.address), ready: each.ready === true, filled: cleanFilled(each.filled) })),
    sent: sent.slice(0, MOST_SENT).map((each) => ({ key: text(each.key), title: text(each.title), address: text(each.address), on: text(each.on), asked: each.asked === true, far: typeof each.far === "number" && each.far >= 0 ? each.far : 500, filled: cleanFilled(each.filled) })),
    bikes: cleanBikes(kept.bikes),
  };
}

/** @param {KeptReports} kept @param {Draft} draft @returns {KeptReports} */
export function withDraft(kept, draft) {
  const others = kept.drafts.filter(({ key }) => key !== draft.key);
  return { ...kept, drafts: [draft, ...others].slice(0, MOST_DRAFTS) };
}

/** @param {KeptReports} kept @param {string} key @returns {KeptReports} */
export function withoutDraft(kept, key) {
  return { ...kept, drafts: kept.drafts.filter((each) => each.key !== key) };
}

/** @param {KeptReports} kept @param {Sent} sent @returns {KeptReports} */
export function withSent(kept, sent) {
  const others = kept.sent.filter(({ key, filled }) => key !== sent.key || filled.seen?.[0] !== sent.filled.seen?.[0]);
  return { ...withoutDraft(kept, sent.key), sent: [sent, ...others].slice(0, MOST_SENT) };
}

/** A made-up name of the bike, of letters that make no word. @param {Uint8Array} chance eight numbers */
export function bikeId(chance) {
  return `bike-${Array.from(chance, (each) => LETTERS[each % LETTERS.length]).join("")}`;
}

/**
 * The report of which it is time to ask whether the mending held: once, and only of those that did not count yet.
 * @param {KeptReports} kept @param {(sent: Sent) => ?number} odometer km that are known of its bike now
 * @param {string} today @returns {?Sent}
 */
export function toAsk(kept, odometer, today) {
  return kept.sent.find((sent) => isDue(sent, odometer(sent), today)) ?? null;
}

/** @param {Sent} sent @param {?number} now @param {string} today */
function isDue({ filled, asked, on, far }, now, today) {
  const unit = filled.unit?.[0] === "mi" ? "mi" : "km";
  const [at, after] = [filled.odometer, filled.after].map((each) => distance(each?.[0] ?? "", unit));
  const counted = filled.verified?.[0] === "yes" || (after !== null && inKm(after) >= far);
  if (asked || counted || filled.state?.[0] !== "solved") {
    return false;
  }
  return now !== null && at !== null ? now - inKm(at) >= far : isDay(on) && daysBetween(on, today) >= DAYS_TO_ASK;
}

/** @param {string} from @param {string} to days */
function daysBetween(from, to) {
  return dayNumber(to) - dayNumber(from);
}

/** Days since the first of March of the year 0, so that a leap day is the last of its year. @param {string} day */
function dayNumber(day) {
  const [year, month, date] = day.split("-").map(Number);
  const [y, m] = month > 2 ? [year, month - 3] : [year - 1, month + 9];
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + Math.floor((153 * m + 2) / 5) + date - 1;
}
