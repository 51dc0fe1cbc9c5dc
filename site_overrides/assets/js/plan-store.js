/**
 * What this browser remembers of plans, for whoever wants to read it: the plan itself, the form for a report, the history of
 * a bike. While a shared state is looked at, that one (see `memory.js`).
 *
 * Under `plan:ID` stand the answers about the fault ID, under `plan:codes P0562 U0121` those to one plan for these codes, as
 * `Answers` (`values.d.ts`) in JSON: `list` in the order of the answers, of checks `{check, result, value}` (`value` is a
 * reading or null), of fixes `{fix, result}` (`helped`, `no-change`); `absent`, `opened`, `covered`, `any`. Under `plan-means` stand
 * skill, tools and the worth of an own hour, as `Means`, for all plans.
 */

import { cleanAnswers, cleanMeans } from "./core/plan-answers.js";
import { remember, remembered } from "./memory.js";

/** Where the means are remembered. */
export const MEANS = "plan-means";

/**
 * Where the answers to a plan are remembered. By the fault's id or the codes alone, so that a new build of the site keeps
 * what was answered.
 * @param {string} of the fault's id, or `codesKey(codes)`
 */
export function answersKey(of) {
  return `plan:${of}`;
}

/** What a plan for codes is called. @param {string[]} codes as the owner reads them */
export function codesKey(codes) {
  return `codes ${codes.join(" ")}`;
}

/**
 * The answers to a plan, of which this problem can use each; none: `NO_ANSWERS`.
 * @param {string} of the fault's id, or `codesKey(codes)` @param {PlanProblem} problem @returns {Answers}
 */
export function storedAnswers(of, problem) {
  return cleanAnswers(remembered(answersKey(of)), problem);
}

/** @param {string} of as for `storedAnswers` @param {Answers} answers */
export function keepAnswers(of, answers) {
  remember(answersKey(of), answers);
}

/** Skill, tools and the worth of an own hour; those of an owner who says nothing where none are kept. @returns {Means} */
export function storedMeans() {
  return cleanMeans(remembered(MEANS));
}

/** @param {Means} means */
export function keepMeans(means) {
  remember(MEANS, means);
}
