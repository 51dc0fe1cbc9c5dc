/**
 * The check plan of a fault, for the owner at hand: the same as `plan_of` in `kbtools/checkplan/steps.py`.
 *
 * A problem is what `problem_record` in `kbtools/checkplan/problem.py` gives; an owner is `NOBODY` with changes.
 */

import { byFallingShare, shares } from "./evidence.js";
import { abilities, NOBODY, openedAfter, shownBy, startOf, tableOf } from "./plan-table.js";
import { atLeast, goodPolicy } from "./plan-bounded.js";
import { Follower } from "./plan-likeliest.js";
import { causesIn, HAND_OVER, HOME, Search, TooLargeError } from "./plan-search.js";

export { NOBODY };

/**
 * The cheapest plan. `expected_cost`, both baselines and `minutes` are null, and `steps` empty, where the results
 * contradict each other. `causes` are the shares by cases alone, the largest first; `chances` those after the results,
 * `{id: probability}` of the causes that are not ruled out. Where it has more states than `mostStates` it is a good one, no
 * dearer than either baseline, and `at_least` says what any plan costs at least. Throws a RangeError where an entry does not
 * fit into the numbers of a browser.
 * @param {PlanProblem} problem @param {Owner} owner @param {number} [mostStates] @returns {Plan}
 */
export function makePlan(problem, owner = NOBODY, mostStates) {
  const search = new Search(tableOf(problem, owner), mostStates);
  const start = startOf(search.table, owner.results);
  const causes = byFallingShare(shares(problem.evidence, owner.bike));
  const found = { fault: problem.fault, currency: problem.currency, minutes: null, steps: [], chances: {}, causes };
  const [possible, good] = start;
  if (!possible) {
    return { ...found, exact: true, expected_cost: null, baselines: { hand_over: null, likeliest_first: null } };
  }
  const [weight, handOver] = search.weighed(possible, good);
  const weights = search.weights(good);
  const { policy, bound } = policyFor(search, start);
  const steps = new Tree(search, policy, weight).steps(start, shownBy(search.table, owner.results, possible), 1);
  return {
    ...found,
    exact: bound === null,
    ...(bound === null ? {} : { at_least: bound / weight }),
    expected_cost: policy.solved(...start)[0] / weight,
    baselines: { hand_over: handOver / weight, likeliest_first: new Follower(search).solved(...start)[0] / weight },
    minutes: expectedMinutes(steps),
    steps,
    chances: Object.fromEntries(causesIn(possible).map((bit) => [search.table.causes[bit], weights[bit] / weight])),
  };
}

/**
 * The search itself, or a good policy and a bound where that is too large.
 * @param {Search} search @param {State} start @returns {{policy: Policy, bound: number | null}}
 */
function policyFor(search, start) {
  try {
    search.solved(...start);
    return { policy: search, bound: null };
  } catch (error) {
    if (!(error instanceof TooLargeError)) {
      throw error;
    }
    return { policy: goodPolicy(search, start), bound: atLeast(search, start) };
  }
}

/** The owner's own minutes over all steps of a tree, each as likely as it is reached. @param {Step[]} steps @returns {number} */
function expectedMinutes(steps) {
  return steps.reduce((sum, step) => {
    const then = Object.values(step.outcomes).map(expectedMinutes);
    return then.reduce((all, each) => all + each, sum + step.reach * step.minutes);
  }, 0);
}

class Tree {
  /** @param {Search} search @param {Policy} policy @param {number} whole */
  constructor(search, policy, whole) {
    this.search = search;
    this.policy = policy;
    this.whole = whole;
  }

  /** @param {State} start @param {number} shown @param {number} chance @returns {Step[]} */
  steps(start, shown, chance) {
    const { checks } = this.search.table;
    const found = [];
    let state = start;
    while (state[0]) {
      const [possible, good, opened] = state;
      const [, choice] = this.policy.solved(...state);
      const reach = (this.search.weighed(possible, good)[0] * chance) / this.whole;
      if (choice < 0) {
        found.push(this.end(choice, state, reach, shown));
        break;
      }
      if (choice < checks.length) {
        found.push(this.check(choice, state, reach, shown, chance));
        state = [...this.search.afterGood(choice, possible, good), openedAfter(checks[choice], opened)];
      } else {
        const cause = choice - checks.length;
        found.push(this.atHome("trial_fix", cause, opened, reach));
        state = [possible ^ (1 << cause), good, opened];
      }
    }
    return found;
  }

  /** @param {number} choice @param {State} state @param {number} reach @param {number} shown @returns {Step} */
  end(choice, [possible, good, opened], reach, shown) {
    const step = { minutes: 0, reach, access: [], outcomes: {} };
    if (choice === HAND_OVER) {
      const [weight, cost] = this.search.weighed(possible, good);
      return { kind: "hand_over", id: null, cost: cost / weight, ...step };
    }
    const cause = 31 - Math.clz32(possible);
    const inferred = shown !== possible;
    if (choice === HOME) {
      return { ...this.atHome("fix", cause, opened, reach), where: "home", inferred };
    }
    const { known, covered } = this.search.table.fixes[cause];
    const where = covered ? "maker" : "workshop";
    return { kind: "fix", id: this.search.table.causes[cause], cost: known, ...step, where, inferred };
  }

  /**
   * @template {"fix" | "trial_fix"} K @param {K} kind @param {number} cause @param {number} opened
   * @param {number} reach
   */
  atHome(kind, cause, opened, reach) {
    return {
      kind,
      id: this.search.table.causes[cause],
      cost: this.search.homeCost(cause, opened),
      minutes: this.search.homeMinutes(cause, opened),
      reach,
      access: [],
      outcomes: {},
    };
  }

  /**
   * @param {number} place @param {State} state @param {number} reach @param {number} shown @param {number} chance
   * @returns {Step}
   */
  check(place, [possible, good, opened], reach, shown, chance) {
    const { access } = this.search.table;
    const check = this.search.table.checks[place];
    const after = openedAfter(check, opened);
    const now = check.access & ~(opened & check.keeps);
    /** @type {Record<string, Step[]>} */
    const outcomes = {};
    check.names.forEach((name, at) => {
      const each = check.sets[at];
      outcomes[name] = this.steps([possible & each, good, after], shown & each, chance * check.finds);
    });
    return {
      kind: "check",
      id: check.id,
      cost: this.search.checkCost(place, opened),
      minutes: this.search.checkMinutes(place, opened),
      reach,
      access: access.filter((_job, bit) => (now >> bit) & 1),
      outcomes,
    };
  }
}

/**
 * On which side of a check's good range a reading falls: `low`, `good` or `high`; both limits are good.
 * @param {Pick<PlanReading, "good">} check @param {number} value
 */
export function sideOf(check, value) {
  const [low, high] = check.good;
  return value < low ? "low" : value > high ? "high" : "good";
}

/**
 * What stands between the owner and a cheaper end: the checks that could still tell possible causes apart, and the fixes
 * of possible causes, that the owner cannot do. `absent`: the check says nothing while the fault is not there.
 *
 * @returns {Obstacle[]}
 * @param {PlanProblem} problem @param {Owner} owner
 */
export function obstacles(problem, owner = NOBODY) {
  const table = tableOf(problem, owner);
  const [possible] = startOf(table, owner.results);
  const able = abilities(problem, owner);
  const checks = problem.checks.filter((check, place) => {
    const { sets, union, possible: can } = table.checks[place];
    const tells = union & possible && !sets.some((each) => (each & possible) === possible);
    return !can && tells && !Object.hasOwn(owner.results, check.id);
  });
  const fixes = problem.fixes.filter((fix) => {
    const bit = table.causes.indexOf(fix.id);
    return bit >= 0 && (possible >> bit) & 1 && !able.allows(fix) && !owner.covered.includes(fix.id);
  });
  return [
    ...checks.map((check) => ({ kind: /** @type {const} */ ("check"), id: check.id, absent: owner.absent && check.only_while_present, ...able.lacking(check) })),
    ...fixes.map((fix) => ({ kind: /** @type {const} */ ("fix"), id: fix.id, absent: false, ...able.lacking(fix) })),
  ];
}
