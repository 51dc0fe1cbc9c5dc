/**
 * What stands beside the cost of a plan: may it be ridden now, what comes before riding, what may be free. The same as
 * `kbtools/checkplan/beside.py`; a `beside` is what `beside_record` there gives.
 */

import { isSecond, startOf, tableOf } from "./plan-table.js";

const LEVELS = ["do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction"];
/** From this share on the advice of a cause itself counts; so much below a half is a half. */
export const LIKELY = 0.5 - 1e-9;

/** How mild a word is; that nobody has said is milder than all. @param {RideWord} word */
function mildness({ level }) {
  return level === null ? LEVELS.length : LEVELS.indexOf(level);
}

/**
 * The strictest ride advice that applies now; of equal ones the fault's, then a cause's, then a code's.
 * @param {PlanBeside} beside @param {Plan["chances"]} chances after the results @param {RideWord[]} codes of those given
 * @param {string[]} bad ids of the checks before riding that came out bad @returns {RideWord}
 */
export function rideAdvice(beside, chances, codes, bad) {
  const likely = Object.entries(beside.causes).filter(([cause]) => Object.hasOwn(chances, cause) && chances[cause] >= LIKELY);
  /** @type {RideWord[]} */
  const again = bad.map((check) => ({ level: "do-not-ride", why: null, from: `check:${check}` }));
  return strictest([beside.advice, ...likely.map(([, word]) => word), ...codes, ...again]);
}

/** The strictest of several words, the first of equal ones. @param {RideWord[]} words @returns {RideWord} */
export function strictest(words) {
  return words.reduce((found, each) => (mildness(each) < mildness(found) ? each : found));
}

/** @param {Owner} owner @param {string} check */
const resultOf = (owner, check) => (Object.hasOwn(owner.results, check) ? owner.results[check] : "unclear");

/** Ids of the checks to be done before riding that were not done, whoever can. @param {PlanProblem} problem @param {Owner} owner */
export function beforeRiding(problem, owner) {
  return problem.checks.filter((each) => each.before_riding && resultOf(owner, each.id) === "unclear").map(({ id }) => id);
}

/** Ids of those that were done and are not good. @param {PlanProblem} problem @param {Owner} owner */
export function badBeforeRiding(problem, owner) {
  const bad = problem.checks.filter((each) => each.before_riding && !["unclear", "good"].includes(resultOf(owner, each.id)));
  return bad.map(({ id }) => id);
}

/**
 * A check before riding that was bad after the cause was found, and the causes that it means: mend both.
 * @param {PlanProblem} problem @param {Owner} owner @returns {[check: string, causes: string[]][]}
 */
export function secondFaults(problem, owner) {
  const table = tableOf(problem, owner);
  const [possible] = startOf(table, owner.results);
  return table.checks.flatMap((check) => {
    const place = check.names.indexOf(resultOf(owner, check.id));
    const means = place < 0 ? 0 : check.sets[place];
    const second = place >= 0 && isSecond(check, possible, means);
    return second ? [[check.id, table.causes.filter((_cause, bit) => (means >> bit) & 1)]] : [];
  });
}

/** The recalls and bulletins that cover a bike; all of them, where none is named. @param {PlanBeside} beside @param {Bike} bike */
export function mayBeFree(beside, bike) {
  return beside.free.filter(({ applies }) => {
    const runs = bike === null || !Object.hasOwn(applies, bike[0]) ? [] : applies[bike[0]];
    return bike === null || runs.some(([first, last]) => first <= bike[1] && bike[1] <= last);
  });
}
