/** What this browser remembers of plans. Nothing of it leaves the browser; where storage fails, it holds for the page. */

import { cleanAnswers, cleanMeans } from "./core/plan-answers.js";

const MEANS = "plan-means";

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    // Forbidden, or what another page wrote.
    return null;
  }
}

function write(key, value) {
  try {
    localStorage.setItem(key, JSON.stringify(value));
  } catch {
    // Forbidden or full.
  }
}

// By the fault's id alone, so that a new build of the site keeps what was answered.
function keyOf(problem) {
  return `plan:${problem.fault}`;
}

export function storedAnswers(problem) {
  return cleanAnswers(read(keyOf(problem)), problem);
}

export function keepAnswers(problem, answers) {
  write(keyOf(problem), answers);
}

export function storedMeans() {
  return cleanMeans(read(MEANS));
}

export function keepMeans(means) {
  write(MEANS, means);
}
