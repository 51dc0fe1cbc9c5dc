/** What this browser remembers of plans. Nothing of it leaves the browser; where storage fails, it holds for the page. */

import { cleanAnswers, cleanMeans } from "./core/plan-answers.js";

const MEANS = "plan-means";

/** @param {string} key */
function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key) ?? "null");
  } catch {
    // Forbidden, or what another page wrote.
    return null;
  }
}

/** @param {string} key @param {unknown} value */
function write(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // Forbidden or full.
  }
}

// By the fault's id or the codes alone, so that a new build of the site keeps what was answered.
/** @param {string} of @param {PlanProblem} problem */
export function storedAnswers(of, problem) {
  return cleanAnswers(read(`plan:${of}`), problem);
}

/** @param {string} of @param {Answers} answers */
export function keepAnswers(of, answers) {
  write(`plan:${of}`, answers);
}

export function storedMeans() {
  return cleanMeans(read(MEANS));
}

/** @param {Means} means */
export function keepMeans(means) {
  write(MEANS, means);
}
