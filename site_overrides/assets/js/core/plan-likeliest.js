/**
 * Going after the likeliest cause first: the baseline `likeliest_first`, as in `kbtools/checkplan/likeliest.py`.
 *
 * @typedef {import("./plan-search.js").Search} Search
 * @typedef {import("./plan-search.js").Choice} Choice
 */

import { causesIn, HAND_OVER, tied } from "./plan-search.js";
import { openedAfter } from "./plan-table.js";

export class Follower {
  /** @param {Search} search */
  constructor(search) {
    this.search = search;
    /** @type {Map<string, Choice>} */
    this.known = new Map();
  }

  /**
   * What it costs from a state on, weighted, and what is done in it.
   * @param {number} possible @param {number} good @param {number} opened @returns {Choice}
   */
  solved(possible, good, opened) {
    const key = `${possible} ${good} ${opened}`;
    let found = this.known.get(key);
    if (found === undefined) {
      found = this.next(possible, good, opened);
      this.known.set(key, found);
    }
    return found;
  }

  /** @param {number} possible @param {number} good @param {number} opened @returns {Choice} */
  next(possible, good, opened) {
    const { search } = this;
    if ((possible & (possible - 1)) === 0) {
      return search.known(possible, good, opened);
    }
    const [weight, handOver] = search.weighed(possible, good);
    for (const cause of byFallingWeight(search, possible, good)) {
      const place = cheapestCheck(search, cause, possible, good, opened);
      if (place !== null) {
        return [this.afterCheck(place, weight, possible, good, opened), place];
      }
      if (search.table.fixes[cause].trial) {
        const [then] = this.solved(possible ^ (1 << cause), good, opened);
        return [weight * search.homeCost(cause, opened) + then, search.table.checks.length + cause];
      }
    }
    return [handOver, HAND_OVER];
  }

  /**
   * @param {number} place @param {number} weight @param {number} possible @param {number} good @param {number} opened
   */
  afterCheck(place, weight, possible, good, opened) {
    const { search } = this;
    const check = search.table.checks[place];
    const after = openedAfter(check, opened);
    let total = weight * search.checkCost(place, opened);
    for (const each of check.sets) {
      total += each & possible ? check.finds * this.solved(each & possible, good, after)[0] : 0;
    }
    const [rest, then] = search.afterGood(place, possible, good);
    return rest ? total + this.solved(rest, then, after)[0] : total;
  }
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
