/**
 * What of the faults behind some codes goes into one plan: those that concern the bike, no more than a browser can reckon
 * with, and what is said of the others.
 */

import { existsOn } from "./evidence.js";
import { jointOf } from "./joint.js";
import { partFor } from "./joint-parts.js";
import { tableOf } from "./plan-table.js";
import { NOBODY } from "./plan.js";

/** As `MOST_FAULTS` in `kbtools/checkplan/parts.py`. */
export const MOST_FAULTS = 8;

/**
 * Whether one machine can have all of them; an entry that does not say whom it concerns rules nothing out.
 * @param {{applies: Spans}[]} faults
 */
export function shareAMachine(faults) {
  const told = faults.filter(({ applies }) => Object.keys(applies).length > 0);
  if (told.length === 0) {
    return true;
  }
  const [first, ...others] = told;
  return Object.entries(first.applies).some(([model, runs]) =>
    runs.some(([from, to]) => {
      // Runs of years: where all hold one year, they hold the first year of one of them.
      const starts = told.flatMap(({ applies }) => (applies[model] ?? []).map(([start]) => start));
      return starts.some((year) => from <= year && year <= to && others.every((each) => existsOn(each, [model, year])));
    }),
  );
}

/**
 * The faults that may be behind the codes on the bike, as parts of a plan, in file order.
 * @template {JointFault} F @param {F[]} faults @param {GivenCode[]} given @param {Bike} bike
 * @returns {{fault: F, part: JointPart}[]}
 */
export function partsFor(faults, given, bike) {
  const sorted = [...faults].sort((one, other) => (one.problem.fault < other.problem.fault ? -1 : 1));
  return sorted.flatMap((fault) => {
    const part = partFor(fault, given, bike);
    return part === null ? [] : [{ fault, part }];
  });
}

/**
 * Why there is no plan, as the name of a sentence in `kbtools/wording/joint.py`; null: there is one.
 * @param {{fault: JointFault}[]} planned as `partsFor` gives them @param {JointFault[]} faults all that were asked for
 * @param {{given: GivenCode[], bike: Bike, isWhole: boolean}} asked `isWhole`: the data of every fault came
 */
export function obstacleTo(planned, faults, { given, bike, isWhole }) {
  if (planned.length === 0) {
    const isElsewhere = bike !== null && partsFor(faults, given, null).length > 0;
    return isWhole ? (isElsewhere ? "none_here" : "follows") : "not_here";
  }
  if (planned.length > MOST_FAULTS) {
    return "too_many";
  }
  return bike === null && !shareAMachine(planned.map(({ fault }) => fault.joint)) ? "no_machine" : null;
}

/**
 * One problem of as many of the faults as fit into the numbers of a browser, the least likely left out first. The cases of
 * those left out speak for "a fault not described here", since the plan does not find them either.
 * @param {JointPart[]} parts at least one @param {Bike} bike @param {number} withoutFault
 * @returns {{joint: Joint, faults: Share[], left: string[]}} `faults` are the shares of all of them
 */
export function fitting(parts, bike, withoutFault) {
  const whole = jointOf(parts, bike, withoutFault);
  const order = whole.faults.map(({ id }) => id).filter((id) => parts.some(({ problem }) => problem.fault === id));
  let joint = whole;
  /** @type {string[]} */
  const left = [];
  while (order.length > 1 && !fits(joint.problem)) {
    left.push(/** @type {string} */ (order.pop()));
    const kept = parts.filter(({ problem }) => order.includes(problem.fault));
    const more = whole.faults.filter(({ id }) => left.includes(id)).reduce((sum, { cases }) => sum + cases, 0);
    joint = jointOf(kept, bike, withoutFault + more);
  }
  return { joint, faults: whole.faults, left };
}

/** @param {PlanProblem} problem */
function fits(problem) {
  try {
    tableOf(problem, NOBODY);
    return true;
  } catch (error) {
    if (error instanceof RangeError) {
      return false;
    }
    throw error;
  }
}

/**
 * How many of the counted cases that speak for a fault were on a model, those of causes that exist on the bike.
 * @param {JointFault} fault @param {GivenCode[]} given @param {Bike} bike
 */
export function casesOnModel(fault, given, bike) {
  if (bike === null) {
    return 0;
  }
  const own = { ...fault, joint: { ...fault.joint, cases: fault.joint.cases.filter(([, , model]) => model === bike[0]) } };
  const part = partFor(own, given, bike);
  const causes = new Map(fault.problem.evidence.causes.map((cause) => [cause.id, cause]));
  return Object.entries(part?.cases ?? {}).reduce((sum, [id, count]) => {
    const cause = causes.get(id);
    return !cause || existsOn(cause, bike) ? sum + count : sum;
  }, 0);
}
