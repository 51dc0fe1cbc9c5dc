/** Shared checks in a plan: what is good on the bike at hand, and what was looked at before any plan. */

import { cleanAnswers, withAnswer, withoutAnswer } from "./plan-answers.js";

/**
 * The problem with the ranges that are good on a bike; the first row that fits holds.
 * @param {PlanProblem} problem @param {Shared} shared @param {Bike} bike
 */
export function forBike(problem, shared, bike) {
  /** @param {PlanCheck} check @returns {PlanCheck} */
  const fitted = (check) => {
    const rows = Object.hasOwn(shared, check.id) ? shared[check.id] : [];
    const row = bike && rows.find(([model, years]) => model === bike[0] && years.includes(bike[1]));
    return row && check.good ? { ...check, good: row[2] } : check;
  };
  return { ...problem, checks: problem.checks.map(fitted) };
}

/**
 * The answers with what was found at the checks that come first, where the plan uses one and has no answer of its own.
 * @param {Answers} answers @param {Looks} looks @param {PlanProblem} problem @param {Shared} shared
 */
export function withLooks(answers, looks, problem, shared) {
  return Object.entries(looks).reduce((all, [check, result]) => withLook(all, check, result, problem, shared, false), answers);
}

/**
 * The answers after one more look; null: it was taken back.
 * @param {Answers} answers @param {string} check @param {?string} result @param {PlanProblem} problem
 * @param {Shared} shared @param {boolean} isNew what the owner says now counts more than what was answered before
 */
export function withLook(answers, check, result, problem, shared, isNew = true) {
  const isAnswered = answers.list.some((answer) => answer.check === check);
  if (!Object.hasOwn(shared, check) || (isAnswered && !isNew)) {
    return answers;
  }
  if (result === null) {
    return withoutAnswer(answers, /** @type {Answer} */ ({ check }));
  }
  const [answer] = cleanAnswers({ list: [{ check, result }] }, problem).list;
  return answer ? withAnswer(answers, answer) : answers;
}
