/**
 * How the causes of a fault share, and how sure that is: the same as `kbtools/evidence/shares.py`.
 *
 * Evidence is what `evidence_record` in Python describes.
 */

import { betaQuantile } from "./beta.js";

export const UNLISTED = "unlisted";

/** From so many counted cases on numbers come before words. */
export const FEW_CASES = 5;

/**
 * Whether a cause can be the one on a bike; on an unnamed one every cause can.
 * @param {{applies: Spans | null}} cause @param {Bike} bike
 */
export function existsOn(cause, bike) {
  if (!bike || cause.applies === null) {
    return true;
  }
  const [model, year] = bike;
  const runs = Object.hasOwn(cause.applies, model) ? cause.applies[model] : [];
  return runs.some(([first, last]) => first <= year && year <= last);
}

/** How many cases these are. @param {CaseCounts} cases */
export function total(cases) {
  return sum(Object.values(cases).flatMap((years) => Object.values(years)));
}

/** @param {number[]} numbers */
function sum(numbers) {
  return numbers.reduce((so, each) => so + each, 0);
}

/** @param {CaseCounts} cases @param {Bike} bike */
function onBike(cases, bike) {
  return bike && Object.hasOwn(cases, bike[0]) ? (cases[bike[0]][bike[1]] ?? 0) : 0;
}

/**
 * The causes that exist on a bike, `unlisted` the last, each with its Dirichlet parameter and its counted cases.
 * @param {Evidence} evidence @param {Bike} bike
 */
function rows(evidence, bike) {
  const causes = evidence.causes.filter((cause) => existsOn(cause, bike));
  const weights = causes.map((cause) => cause.weight ?? 1);
  const whole = sum(weights);
  const unlisted = causes.length ? evidence.unlisted_share : 1;
  const strength = evidence.prior_strength;
  const listed = causes.map(({ id, cases }, place) => ({
    id,
    alpha: (strength * (1 - unlisted) * weights[place]) / whole + total(cases),
    cases: total(cases),
    yours: onBike(cases, bike),
  }));
  const others = evidence.unlisted;
  const last = { alpha: strength * unlisted + total(others), cases: total(others), yours: onBike(others, bike) };
  return [...listed, { id: UNLISTED, ...last }];
}

/**
 * Posterior mean shares, `[id, share]`: the causes that exist on the bike in file order, then `unlisted`.
 * @param {Evidence} evidence @param {Bike} bike @returns {[id: string, share: number][]}
 */
export function means(evidence, bike) {
  const found = rows(evidence, bike);
  const whole = sum(found.map((row) => row.alpha));
  return found.map((row) => [row.id, row.alpha / whole]);
}

/**
 * The shares with their central 90 % intervals, in the same order; `yours` counts the cases on the bike's model year.
 *
 * @returns {Share[]}
 * @param {Evidence} evidence @param {Bike} bike
 */
export function shares(evidence, bike) {
  const found = rows(evidence, bike);
  const whole = sum(found.map((row) => row.alpha));
  const ends = intervals(found.map((row) => row.alpha));
  return found.map(({ id, alpha, cases, yours }, place) => ({
    id,
    share: alpha / whole,
    low: ends[place][0],
    high: ends[place][1],
    cases,
    yours,
  }));
}

/**
 * The central 90 % intervals of the marginals of a Dirichlet distribution. A single share is 1 for sure.
 * @param {number[]} alphas @returns {[low: number, high: number][]}
 */
export function intervals(alphas) {
  const whole = sum(alphas);
  /** @param {number} alpha @param {number} p */
  const end = (alpha, p) => (alphas.length === 1 ? 1 : betaQuantile(alpha, whole - alpha, p));
  return alphas.map((alpha) => [end(alpha, 0.05), end(alpha, 0.95)]);
}

/** The largest share first; equal ones stay in their order. @param {Share[]} found */
export function byFallingShare(found) {
  return [...found].sort((one, other) => other.share - one.share);
}

/** `judgement` where no case counts for the fault, `few` under five, else `counted`. @param {number} cases */
export function sureness(cases) {
  return cases === 0 ? "judgement" : cases < FEW_CASES ? "few" : "counted";
}

/**
 * `3 of 7 cases, 1 of them on yours`; `yours` is null where no bike is named.
 * @param {number} cases @param {number} of @param {?number} yours
 */
export function casesWords(cases, of, yours = null) {
  if (of === 0) {
    return "curator's judgement only";
  }
  const text = `${cases} of ${of} case${of === 1 ? "" : "s"}`;
  return yours === null || cases === 0 ? text : `${text}, ${yours} of them on yours`;
}
