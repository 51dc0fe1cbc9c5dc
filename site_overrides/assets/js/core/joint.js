/**
 * One plan for several faults: they become one problem, which `makePlan` solves as that of one fault. The same as
 * `kbtools/checkplan/joint.py`, which says why; a part is a fault, a joint cause is called `fault/cause`.
 *
 * @typedef {[fault: string, id: string]} Member
 * @typedef {{member: Member, weight: number}} Weighed
 */

import { byFallingShare, intervals, means, total, UNLISTED } from "./evidence.js";
import { badBeforeRiding, beforeRiding, LIKELY, mayBeFree, strictest } from "./plan-beside.js";
import { makePlan } from "./plan.js";
import { tied } from "./plan-search.js";

/** @param {number[]} numbers */
const sum = (numbers) => numbers.reduce((so, each) => so + each, 0);

/** @param {Member} member */
const nameOf = ([fault, id]) => `${fault}/${id}`;

/** All counted cases of a cause, or of `unlisted`. @param {PlanProblem} problem @param {string} cause */
function countedCases({ evidence }, cause) {
  if (cause === UNLISTED) {
    return total(evidence.unlisted);
  }
  return sum(evidence.causes.filter(({ id }) => id === cause).map(({ cases }) => total(cases)));
}

/** The cases with this cause that speak for its fault. @param {JointPart} part @param {string} cause */
function speaking({ problem, cases }, cause) {
  return cases === null ? countedCases(problem, cause) : Object.hasOwn(cases, cause) ? cases[cause] : 0;
}

/**
 * Several faults as one problem.
 * @param {JointPart[]} parts in file order, at least one @param {Bike} bike
 * @param {number} withoutFault solved cases with one of the codes that are about no fault
 * @returns {Joint}
 */
export function jointOf(parts, bike = null, withoutFault = 0) {
  const inside = parts.map(({ problem }) => means(problem.evidence, bike));
  const { prior_strength: strength, unlisted_share: outside } = parts[0].problem.evidence;
  const counts = parts.map((part, place) => sum(inside[place].map(([cause]) => speaking(part, cause))));
  const alphas = [
    ...counts.map((cases) => cases + (strength * (1 - outside)) / parts.length),
    withoutFault + strength * outside,
  ];
  const whole = sum(alphas);
  /** @type {Weighed[]} */
  const weighed = parts.flatMap(({ problem }, place) =>
    inside[place].map(([cause, share]) => ({ member: [problem.fault, cause], weight: (alphas[place] / whole) * share })),
  );
  const groups = groupsOf(parts, weighed);
  const joint = [...groups].map(([name, group]) => ({ name, weight: sum(group.map(({ weight }) => weight)) }));
  const unlisted =
    alphas[parts.length] / whole + sum(weighed.filter(({ member }) => member[1] === UNLISTED).map(({ weight }) => weight));
  const { checks, uses } = checksOf(parts, groups);
  const ends = intervals(alphas);
  const ids = [...parts.map(({ problem }) => problem.fault), UNLISTED];
  return {
    problem: {
      ...parts[0].problem,
      fault: "",
      transport: Math.max(...parts.map(({ problem }) => problem.transport)),
      evidence: evidenceOf(joint, unlisted),
      access: [...new Map(parts.flatMap(({ problem }) => problem.access).map((job) => [job.id, job])).values()],
      tools: Object.assign({}, ...parts.map(({ problem }) => problem.tools)),
      fixes: [...groups.keys()].map((name) => fixOf(parts, name)),
      checks,
    },
    parts,
    faults: byFallingShare(
      alphas.map((alpha, place) => ({
        id: ids[place],
        share: alpha / whole,
        low: ends[place][0],
        high: ends[place][1],
        cases: [...counts, withoutFault][place],
        yours: 0,
      })),
    ),
    causes: causesOf(parts, joint, unlisted),
    members: new Map([...groups].map(([name, group]) => [name, group.map(({ member }) => member)])),
    uses,
  };
}

/**
 * Joint cause to its members. It is called by the likeliest of them, and stands where the first of them stands.
 * @param {JointPart[]} parts @param {Weighed[]} weighed
 */
function groupsOf(parts, weighed) {
  const same = new Map(parts.map((part) => [part.problem.fault, part.same]));
  /** @type {Map<string, Weighed[]>} */
  const found = new Map();
  for (const each of weighed.filter(({ member }) => member[1] !== UNLISTED)) {
    const [fault, cause] = each.member;
    const joined = same.get(fault) ?? {};
    const key = Object.hasOwn(joined, cause) ? `one ${joined[cause]}` : nameOf(each.member);
    found.set(key, [...(found.get(key) ?? []), each]);
  }
  return new Map([...found.values()].map((group) => [nameOf(likeliest(group)), group]));
}

/** @param {Weighed[]} group */
function likeliest(group) {
  const most = Math.max(...group.map(({ weight }) => weight));
  const first = group.find(({ weight }) => tied(most, weight));
  return /** @type {Weighed} */ (first).member;
}

/**
 * Evidence whose means are these shares: a judgement, and no case beside it.
 * @param {{name: string, weight: number}[]} joint @param {number} unlisted @returns {Evidence}
 */
function evidenceOf(joint, unlisted) {
  const causes = joint.map(({ name, weight }) => ({ id: name, component: null, weight, applies: null, cases: {} }));
  return { prior_strength: 1, unlisted_share: unlisted, causes, unlisted: {} };
}

/** @param {JointPart[]} parts @param {string} name @returns {PlanFix} */
function fixOf(parts, name) {
  for (const { problem } of parts) {
    for (const fix of problem.fixes) {
      if (nameOf([problem.fault, fix.id]) === name) {
        return { ...fix, id: name };
      }
    }
  }
  throw new RangeError(`There is no fix for ${name}.`);
}

/**
 * The checks, a shared one where it is used first, and the uses of each.
 * @param {JointPart[]} parts @param {Map<string, Weighed[]>} groups
 */
function checksOf(parts, groups) {
  const called = new Map([...groups].flatMap(([name, group]) => group.map(({ member }) => [nameOf(member), name])));
  /** @type {Map<string, PlanCheck>} */
  const found = new Map();
  /** @type {Map<string, Member[]>} */
  const uses = new Map();
  for (const { problem, shared } of parts) {
    for (const check of problem.checks) {
      const name = Object.hasOwn(shared, check.id) ? shared[check.id] : nameOf([problem.fault, check.id]);
      const before = found.get(name);
      const meant = Object.entries(check.outcomes).map(([side, causes]) => [
        side,
        causes.flatMap((/** @type {string} */ cause) => called.get(nameOf([problem.fault, cause])) ?? []),
      ]);
      found.set(name, {
        ...(before ?? check),
        id: name,
        outcomes: /** @type {any} */ (united(before?.outcomes ?? {}, Object.fromEntries(meant))),
        finds: Math.min(before?.finds ?? 1, check.finds),
        before_riding: check.before_riding || (before?.before_riding ?? false),
      });
      uses.set(name, [...(uses.get(name) ?? []), [problem.fault, check.id]]);
    }
  }
  return { checks: [...found.values()], uses };
}

/**
 * What the results mean in one use and in another. The two sides of a reading never mean the same cause: the side that
 * was named first holds.
 * @param {Record<string, string[]>} before @param {Record<string, string[]>} more
 */
function united(before, more) {
  /** @type {Record<string, string[]>} */
  const sides = Object.fromEntries(Object.keys(more).map((side) => [side, [...(before[side] ?? [])]]));
  for (const [side, causes] of Object.entries(more)) {
    for (const cause of causes) {
      if (!Object.values(sides).some((each) => each.includes(cause))) {
        sides[side].push(cause);
      }
    }
  }
  return sides;
}

/**
 * @param {JointPart[]} parts @param {{name: string, weight: number}[]} joint @param {number} unlisted
 * @returns {JointCause[]}
 */
function causesOf(parts, joint, unlisted) {
  const rows = joint.map(({ name, weight }) => {
    const [fault, cause] = name.split("/");
    const own = parts.filter(({ problem }) => problem.fault === fault);
    return { id: name, share: weight, cases: sum(own.map(({ problem }) => countedCases(problem, cause))) };
  });
  const others = sum(parts.map(({ problem }) => countedCases(problem, UNLISTED)));
  return [...rows, { id: UNLISTED, share: unlisted, cases: others }].sort((one, other) => other.share - one.share);
}

/**
 * The strictest ride advice that applies now; of equal ones a fault's, then a cause's, then a code's. A fault's applies
 * while one of its causes is possible, or one that is not listed; where the results contradict each other, all faults'.
 * @param {Joint} joint @param {Plan["chances"]} chances @param {RideWord[]} codes @param {string[]} bad @returns {RideWord}
 */
export function jointAdvice(joint, chances, codes, bad) {
  const left = Object.keys(chances);
  const possible = new Set(left.flatMap((cause) => (joint.members.get(cause) ?? []).map(([fault]) => fault)));
  const every = !left.length || Object.hasOwn(chances, UNLISTED);
  const faults = joint.parts.filter(({ problem }) => every || possible.has(problem.fault)).map(({ beside }) => beside.advice);
  const causesOfFault = new Map(joint.parts.map(({ problem, beside }) => [problem.fault, beside.causes]));
  const likely = [...joint.members].flatMap(([name, members]) => {
    const own = members.flatMap(([fault, cause]) => {
      const words = causesOfFault.get(fault) ?? {};
      return Object.hasOwn(words, cause) ? [words[cause]] : [];
    });
    const counts = own.length && Object.hasOwn(chances, name) && chances[name] >= LIKELY;
    return counts ? [{ ...strictest(own), from: `cause:${name}` }] : [];
  });
  /** @type {RideWord[]} */
  const again = bad.map((check) => ({ level: "do-not-ride", why: null, from: `check:${check}` }));
  return strictest([...faults, ...likely, ...codes, ...again]);
}

/** The recalls and bulletins that cover a bike, recalls first; `covers` has joint causes. @param {Joint} joint @param {Bike} bike */
export function jointFree(joint, bike) {
  const called = new Map([...joint.members].flatMap(([name, members]) => members.map((each) => [nameOf(each), name])));
  const found = joint.parts.flatMap(({ problem, beside }) =>
    mayBeFree(beside, bike).map((work) => ({
      ...work,
      covers: [...new Set(work.covers.flatMap((cause) => called.get(nameOf([problem.fault, cause])) ?? []))],
    })),
  );
  return [...found.filter(({ kind }) => kind === "recall"), ...found.filter(({ kind }) => kind !== "recall")];
}

/**
 * All that a page says about several faults at once: how often it is which, the causes over all of them, the plan with the
 * next step, and what stands beside it. The owner's results and covered causes go by the ids of the joint plan.
 * @param {JointPart[]} parts @param {Owner} owner
 * @param {{withoutFault?: number, codes?: RideWord[], mostStates?: number}} [more] `codes` are the words of the codes given
 * @returns {JointPlan}
 */
export function planSeveral(parts, owner, { withoutFault = 0, codes = [], mostStates } = {}) {
  const joint = jointOf(parts, owner.bike, withoutFault);
  const plan = makePlan(joint.problem, owner, mostStates);
  return {
    joint,
    plan,
    faults: joint.faults,
    causes: joint.causes,
    next: plan.steps.length ? plan.steps[0] : null,
    before_riding: beforeRiding(joint.problem, owner),
    ride_advice: jointAdvice(joint, plan.chances, codes, badBeforeRiding(joint.problem, owner)),
    may_be_free: jointFree(joint, owner.bike),
  };
}
