/**
 * Figures and sentences of a plan in words: the same as `kbtools/wording/plan.py`, whose sentences come with the
 * page as `words`. Plain text: whoever shows it sets it as text.
 */

const MINUTES_SHOWN = 100;
const NUMBERS = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

/**
 * One of the page's sentences, filled in. What is filled in is not looked into again.
 * @param {PlanWords} words @param {string} name @param {Record<string, string>} values
 */
export function say(words, name, values = {}) {
  const text = Object.hasOwn(words, name) ? words[name] : "";
  return text.replace(/\{(\w+)\}/g, (whole, key) => (Object.hasOwn(values, key) ? values[key] : whole));
}

/** The nearest whole number; of two that are as near the even one, as Python does. @param {number} value */
export function rounded(value) {
  const up = Math.round(value);
  return up - value === 0.5 && up % 2 !== 0 ? up - 1 : up;
}

/** A number without a needless point: `1`, `0.5`, `13.5`. @param {number} value */
export function numberText(value) {
  return String(Number(value.toPrecision(10)));
}

/**
 * A reckoned amount, two figures of it: `530 EUR`. `digits` has the currency behind its point.
 * @param {number} amount @param {string} currency @param {number} digits
 */
export function amountText(amount, currency, digits) {
  const size = amount === 0 ? 0 : Math.floor(Math.log10(Math.abs(amount)));
  const places = size >= 1 ? 1 - size : digits;
  const near = places <= 0 ? rounded(amount / 10 ** -places) * 10 ** -places : Number(amount.toFixed(places));
  const [whole, rest] = (Number.isInteger(near) ? String(near) : near.toFixed(digits)).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, "\u202f");
  const figure = rest ? `${grouped}.${rest}` : grouped;
  return `${figure}\u00a0${currency}`;
}

/** `about 36 EUR`. @param {number} amount @param {Pick<PlanPage, "words" | "currency" | "digits">} page */
export function moneyText(amount, { words, currency, digits }) {
  return say(words, "about", { money: amountText(amount, currency, digits) });
}

/**
 * Whether the plan saves less than a tenth against going after the likeliest cause first: no more than a guess.
 * @param {number} expected @param {number} likeliestFirst
 */
export function makesNoDifference(expected, likeliestFirst) {
  return likeliestFirst - expected < likeliestFirst / 10;
}

/** `8 min`, `1.9 h`. @param {number} minutes @param {PlanWords} words */
export function minutesText(minutes, words) {
  const whole = rounded(minutes);
  return whole < MINUTES_SHOWN
    ? say(words, "minutes", { n: String(whole) })
    : say(words, "hours", { n: String(rounded(minutes / 6) / 10) });
}

/** `42 %`; a share that is not nothing never reads as 0. @param {number} part @param {PlanWords} words */
export function percentText(part, words) {
  const whole = rounded(100 * part);
  return whole || !part ? say(words, "percent", { n: String(whole) }) : say(words, "percent_under");
}

/** `the two causes`, `the one cause`; from thirteen on in figures. @param {number} count @param {string} word */
export function countText(count, word) {
  return `${NUMBERS[count] ?? count} ${word}${count === 1 ? "" : "s"}`;
}

/** `a`, `a and b`, `a, b and c`. @param {string[]} texts */
export function listText(texts) {
  return texts.length < 2 ? texts.join("") : `${texts.slice(0, -1).join(", ")} and ${texts.at(-1)}`;
}

/** A sentence's first letter made a capital one. @param {string} text */
export function sentence(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A text with a full stop at its end, unless it ends with one, or was cut short there. @param {string} text */
export function stopped(text) {
  return /[.…!?]$/u.test(text) ? text : `${text}.`;
}
