/**
 * A good plan where the best one has too many states, and a bound: the same as `kbtools/checkplan/bounded.py`, which says
 * why they hold.
 *
 * @typedef {import("./plan-search.js").Near} Near
 * @typedef {import("./plan-search.js").Choice} Choice
 */

import { Follower } from "./plan-likeliest.js";
import { HAND_OVER, Search, TooLargeError } from "./plan-search.js";

const WIDTHS = [3, 2, 1];
const NARROW_STATES = 20_000;
const DEPTH = 2;

/** The search with a few options in each state: those that are likely to pay first. */
class Narrow extends Search {
  /** @param {Search} search @param {number} width */
  constructor(search, width) {
    super(search.table, Math.min(NARROW_STATES, search.most));
    this.width = width;
  }

  /**
   * @override
   * @param {Near} near @param {number} possible @param {number} good @param {number} opened @returns {Choice}
   */
  solve(near, possible, good, opened) {
    const moves = near.moves.filter(({ bit }) => !(good & bit)).slice(0, this.width);
    return super.solve({ ...near, moves, trials: near.trials.slice(0, this.width) }, possible, good, opened);
  }
}

/**
 * The cheapest policy that is found in bounded time: no dearer than handing over or the likeliest first.
 * @param {Search} search @param {State} start @returns {Policy}
 */
export function goodPolicy(search, start) {
  /** @type {Policy} */
  const handOver = {
    solved: (possible, good, opened) =>
      possible & (possible - 1) ? [search.weighed(possible, good)[1], HAND_OVER] : search.known(possible, good, opened),
  };
  const policies = [...narrow(search, start), new Follower(search), handOver];
  return policies.reduce((best, each) => (each.solved(...start)[0] < best.solved(...start)[0] ? each : best));
}

/** @param {Search} search @param {State} start @returns {Policy[]} */
function narrow(search, start) {
  for (const width of WIDTHS) {
    const policy = new Narrow(search, width);
    try {
      policy.solved(...start);
      return [policy];
    } catch (error) {
      if (!(error instanceof TooLargeError)) {
        throw error;
      }
    }
  }
  return [];
}

/**
 * What every plan from a state on is expected to cost at least, weighted with the state's weight.
 * @param {Search} search @param {State} start
 */
export function atLeast(search, start) {
  /** @param {State} state @param {number} depth @returns {number} */
  function bound([possible, good, opened], depth) {
    if ((possible & (possible - 1)) === 0) {
      return search.known(possible, good, opened)[0];
    }
    const [weight, handOver, floor] = search.weighed(possible, good);
    if (depth === 0) {
      return floor;
    }
    const near = search.near(possible);
    /** @param {number} cost @param {number} choice */
    const option = (cost, choice) =>
      search
        .following(choice, [possible, good, opened])
        .reduce((sum, [chance, then]) => sum + chance * bound(then, depth - 1), weight * cost);
    const checks = near.moves
      .filter(({ bit }) => !(good & bit))
      .map(({ place }) => option(search.checkCost(place, opened), place));
    const trials = near.trials.map((cause) => option(search.homeCost(cause, opened), search.table.checks.length + cause));
    return Math.max(floor, Math.min(handOver, ...checks, ...trials));
  }

  return bound(start, DEPTH);
}
