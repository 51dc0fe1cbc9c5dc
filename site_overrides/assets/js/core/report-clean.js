/** What an owner types, made fit for a case file: texts without unseen signs, distances, days, money. Pure. */

// What `_UNSEEN` in kbtools/text/markup.py has, and what no file may hold.
const UNSEEN = /[\p{C}\p{Default_Ignorable_Code_Point}\p{Zl}\p{Zp}]/gu;

export const KM_PER_MILE = 1.609344;
export const LONGEST_LINE = 300;
export const LONGEST_TEXT = 10_000;
export const MOST_ROWS = 100;

/** Without what is not seen; one line. @param {string} text */
export function line(text) {
  return text.replace(/[\r\n\t\x85\u2028\u2029]/gu, " ").replace(UNSEEN, "").replace(/\s+/gu, " ").trim();
}

/** The same with line ends, and no more than one empty line. @param {string} text */
export function paragraphs(text) {
  const lines = text.replace(/\r\n?|[\x85\u2028\u2029]/gu, "\n").split("\n").map(line);
  return lines.join("\n").replace(/\n{3,}/gu, "\n\n").trim();
}

/** What stands in several lines, or between commas, each once. @param {string} text @param {RegExp} between */
export function rows(text, between = /\n/u) {
  return [...new Set(text.split(between).map(line).filter((each) => /\p{L}|\p{N}/u.test(each)))].slice(0, MOST_ROWS);
}

/**
 * A whole distance as owners write it, `61 200`, `61,200 km` or `38000 miles`; null where it is none.
 * @param {string} text @param {DistanceUnit} unit where none stands there @returns {?Distance}
 */
export function distance(text, unit) {
  const found = /^([0-9]{1,7}|[0-9]{1,3}(?:[ .,'’\u00a0\u202f][0-9]{3}){1,2}) ?(km|kms|kilometers|kilometres|mi|mile|miles)?$/iu.exec(line(text));
  if (!found) {
    return null;
  }
  const value = Number(found[1].replace(/[^0-9]/gu, ""));
  const word = (found[2] ?? unit).toLowerCase();
  return value <= 9_999_999 ? { value, unit: word.startsWith("mi") ? "mi" : "km" } : null;
}

/** @param {Distance} distance */
export function distanceText({ value, unit }) {
  return `${value} ${unit}`;
}

/** @param {Distance} distance */
export function inKm({ value, unit }) {
  return unit === "km" ? value : value * KM_PER_MILE;
}

/** Whether a text is a day of the calendar from 1885 on, YYYY-MM-DD. @param {string} text */
export function isDay(text) {
  const found = /^(188[5-9]|189[0-9]|19[0-9]{2}|20[0-9]{2})-([0-9]{2})-([0-9]{2})$/u.exec(text);
  if (!found) {
    return false;
  }
  const [year, month, day] = found.slice(1).map(Number);
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
  return day >= 1 && day <= days;
}

/** An amount as owners write it, `14`, `7,50` or `1 200.00 EUR`; null where it is none. @param {string} text @returns {?number} */
export function money(text) {
  const plain = line(text).replace(/^(?:[A-Z]{3}|[€$£]) ?|(?: ?[A-Z]{3}| ?[€$£])$/gu, "");
  const found = /^([0-9]{1,7}|[0-9]{1,3}(?:[ .,'’\u00a0\u202f][0-9]{3}){1,2})(?:[.,]([0-9]{1,2}))?$/u.exec(plain);
  return found ? Number(`${found[1].replace(/[^0-9]/gu, "")}.${found[2] ?? "0"}`) : null;
}

/** What the rules of the knowledge base take for HTML or for a link that may not stand in a text. @param {string} text */
export function hasMarkup(text) {
  return /<[A-Za-z/!?]|\]\(|\]:|javascript:|data:|vbscript:/iu.test(text);
}
