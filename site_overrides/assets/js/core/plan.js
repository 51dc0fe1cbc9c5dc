/**
 * The check plan of a fault, for the owner at hand: the same as `plan_of` in `kbtools/checkplan/steps.py`.
 *
 * A problem is what `problem_record` in `kbtools/checkplan/problem.py` gives; an owner is `NOBODY` with changes.
 */

import { byFallingShare, shares } from "./evidence.js";
import { abilities, NOBODY, shownBy, startOf, tableOf } from "./plan-table.js";
import { causesIn, HAND_OVER, HOME, Search, tied } from "./plan-search.js";

export { NOBODY };

/**
 * The cheapest plan. `expected_cost`, both baselines and `minutes` are null, and `steps` empty, where the results
 * contradict each other. `causes` are the shares by cases alone, the largest first; `chances` those after the results,
 * `{id: probability}` of the causes that are not ruled out. Throws a RangeError where an entry is so large that nobody would
 * wait for its plan (`MOST_STATES` in `plan-search.js`).
 * @param {PlanProblem} problem @param {Owner} owner @returns {Plan}
 */
export function makePlan(problem, owner = NOBODY) {
  const search = new Search(tableOf(problem, owner));
  const start = startOf(search.table, owner.results);
  const causes = byFallingShare(shares(problem.evidence, owner.bike));
  const found = { fault: problem.fault, currency: problem.currency, minutes: null, steps: [], chances: {}, causes };
  const [possible, good] = start;
  if (!possible) {
    return { ...found, expected_cost: null, baselines: { hand_over: null, likeliest_first: null } };
  }
  const [weight, handOver] = search.weighed(possible, good);
  const weights = search.weights(good);
  return {
    ...found,
    expected_cost: search.solved(...start)[0] / weight,
    baselines: { hand_over: handOver / weight, likeliest_first: likeliestFirst(search, start) / weight },
    minutes: search.effort(start)[0] / weight,
    steps: new Tree(search, weight).steps(start, shownBy(search.table, owner.results), 1),
    chances: Object.fromEntries(causesIn(possible).map((bit) => [search.table.causes[bit], weights[bit] / weight])),
  };
}

class Tree {
  /** @param {Search} search @param {number} whole */
  constructor(search, whole) {
    this.search = search;
    this.whole = whole;
  }

  /** @param {State} start @param {number} shown @param {number} chance @returns {Step[]} */
  steps(start, shown, chance) {
    const { checks } = this.search.table;
    const found = [];
    let state = start;
    while (state[0]) {
      const [possible, good, opened] = state;
      const [, choice] = this.search.solved(...state);
      const reach = (this.search.weighed(possible, good)[0] * chance) / this.whole;
      if (choice < 0) {
        found.push(this.end(choice, state, reach, shown));
        break;
      }
      if (choice < checks.length) {
        found.push(this.check(choice, state, reach, shown, chance));
        state = [...this.search.afterGood(choice, possible, good), opened | checks[choice].access];
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
    const { known } = this.search.table.fixes[cause];
    return { kind: "fix", id: this.search.table.causes[cause], cost: known, ...step, where: "workshop", inferred };
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
    const after = opened | check.access;
    const now = check.access & ~opened;
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
 * The weighted expected cost of going after the likeliest cause first: the baseline `likeliest_first`.
 * @param {Search} search @param {State} start
 */
function likeliestFirst(search, start) {
  const { table } = search;
  /** @type {Map<string, number>} */
  const costs = new Map();

  /** @param {number} possible @param {number} good @param {number} opened @returns {number} */
  function cost(possible, good, opened) {
    const key = `${possible} ${good} ${opened}`;
    let found = costs.get(key);
    if (found === undefined) {
      found = next(possible, good, opened);
      costs.set(key, found);
    }
    return found;
  }

  /** @param {number} possible @param {number} good @param {number} opened */
  function next(possible, good, opened) {
    if ((possible & (possible - 1)) === 0) {
      return search.known(possible, good, opened)[0];
    }
    const [weight, handOver] = search.weighed(possible, good);
    for (const cause of byFallingWeight(search, possible, good)) {
      const place = cheapestCheck(search, cause, possible, good, opened);
      if (place !== null) {
        return afterCheck(place, weight, possible, good, opened);
      }
      if (table.fixes[cause].trial) {
        return weight * search.homeCost(cause, opened) + cost(possible ^ (1 << cause), good, opened);
      }
    }
    return handOver;
  }

  /**
   * @param {number} place @param {number} weight @param {number} possible @param {number} good @param {number} opened
   */
  function afterCheck(place, weight, possible, good, opened) {
    const { sets, access, finds } = table.checks[place];
    const after = opened | access;
    const [rest, then] = search.afterGood(place, possible, good);
    const found = sets.filter((each) => each & possible).map((each) => finds * cost(each & possible, good, after));
    const all = [weight * search.checkCost(place, opened), ...found, rest ? cost(rest, then, after) : 0];
    return all.reduce((sum, each) => sum + each, 0);
  }

  return cost(...start);
}

/** @param {Search} search @param {number} possible @param {number} good */
function byFallingWeight(search, possible, good) {
  const weights = search.weights(good);
  let left = causesIn(possible).filter((cause) => cause !== search.last);
  const ordered = [];
  while (left.length) {
    const most = Math.max(...left.map((cause) => weights[cause]));
    const first = /** @type {number} */ (left.find((cause) => tied(most, weights[cause])));
    ordered.push(first);
    left = left.filter((cause) => cause !== first);
  }
  return ordered;
}

/** @param {Search} search @param {number} cause @param {number} possible @param {number} good @param {number} opened */
function cheapestCheck(search, cause, possible, good, opened) {
  const costs = search
    .near(possible)
    .moves.filter(({ bit, place }) => !(good & bit) && (search.table.checks[place].union >> cause) & 1)
    .map(({ place }) => [search.checkCost(place, opened), place]);
  const least = Math.min(...costs.map(([each]) => each));
  const places = costs.filter(([each]) => tied(each, least)).map(([, place]) => place);
  return places.length ? Math.min(...places) : null;
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
    return bit >= 0 && (possible >> bit) & 1 && !able.allows(fix);
  });
  return [
    ...checks.map((check) => ({ kind: /** @type {const} */ ("check"), id: check.id, absent: owner.absent && check.only_while_present, ...able.lacking(check) })),
    ...fixes.map((fix) => ({ kind: /** @type {const} */ ("fix"), id: fix.id, absent: false, ...able.lacking(fix) })),
  ];
}
