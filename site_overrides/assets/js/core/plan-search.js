/**
 * The cheapest plan, exactly: dynamic programming over the states that can be reached. The same as
 * `kbtools/checkplan/search.py`, which says why it is done so; figures are weighted with the state's own weight here too.
 *
 * @typedef {[cost: number, choice: number]} Choice
 * @typedef {[minutes: number, steps: number]} Effort
 * @typedef {ReturnType<typeof moveOf>} Move
 * @typedef {{good: number, access: number, moves: Move[], trials: number[]}} Near
 */

import { openedAfter } from "./plan-table.js";

const TIE = 1e-9;
const SLACK = 1 / (1 - TIE);
const MOST_STATES = 100_000;

/** Choices beside checks and, from the number of checks on, trial fixes. */
export const HAND_OVER = -1;
export const HOME = -2;
export const WORKSHOP = -3;

/** Whether a figure counts as the same as one that is not larger. @param {number} figure @param {number} least */
export function tied(figure, least) {
  return figure - least <= TIE * figure;
}

/** Places of the causes in a set, rising. @param {number} possible */
export function causesIn(possible) {
  const found = [];
  for (let bit = 0; possible >> bit; bit += 1) {
    if ((possible >> bit) & 1) {
      found.push(bit);
    }
  }
  return found;
}

/** The plan has more states than anyone would wait for. */
export class TooLargeError extends RangeError {}

export class Search {
  /** @param {Table} table @param {number} [most] states that may be solved */
  constructor(table, most = MOST_STATES) {
    this.table = table;
    this.most = most;
    this.last = table.causes.length - 1;
    this.repairs = [...table.fixes.map((fix) => fix.workshop), table.unlistedRepair];
    this.goodAt = 2 ** table.causes.length;
    this.openedAt = this.goodAt * 2 ** table.checks.length;
    /** @type {Map<number, Choice>} */
    this.plans = new Map();
    /** @type {Map<number, Near>} */
    this.nearby = new Map();
    /** @type {Map<number, number>} */
    this.minutesOf = new Map();
    this.weightsOf = new Map([[0, table.weights]]);
    /** @type {Map<number, [weight: number, handOver: number, floor: number]>} */
    this.weighedOf = new Map();
    /** @type {Map<number, Effort>} */
    this.effortOf = new Map();
    const everything = 2 ** table.access.length - 1;
    /** Of each cause the least that ends it, with all open that its fix could use. */
    this.least = table.fixes.map((fix, cause) => Math.min(this.end(cause, everything)[0], table.handOver + fix.workshop));
    this.least.push(table.handOver + table.unlistedRepair);
    const worth = table.checks.map((_check, place) => this.worth(place));
    this.order = worth.map((_each, place) => place).sort((one, other) => worth[one] - worth[other]);
  }

  /**
   * `[weighted expected cost, choice]` of the cheapest plan from a state on; at least one cause must be possible.
   * @param {number} possible @param {number} good @param {number} opened @returns {Choice}
   */
  solved(possible, good, opened) {
    if ((possible & (possible - 1)) === 0) {
      return this.known(possible, good, opened);
    }
    const near = this.near(possible);
    const nearGood = good & near.good;
    const nearOpened = opened & near.access;
    const key = possible + nearGood * this.goodAt + nearOpened * this.openedAt;
    let found = this.plans.get(key);
    if (found === undefined) {
      found = this.solve(near, possible, nearGood, nearOpened);
      this.plans.set(key, found);
    }
    return found;
  }

  /** @param {Near} near @param {number} possible @param {number} good @param {number} opened @returns {Choice} */
  solve(near, possible, good, opened) {
    if (this.plans.size > this.most) {
      throw new TooLargeError("The entry is too large for a plan.");
    }
    const [weight, handOver, floor] = this.weighed(possible, good);
    /** @type {Choice[]} */
    const options = [[handOver, HAND_OVER]];
    let best = handOver;
    /** @param {number} cost @param {number} choice */
    const add = (cost, choice) => {
      options.push([cost, choice]);
      best = Math.min(best, cost);
    };
    for (const move of near.moves) {
      if (!(good & move.bit)) {
        const cost = this.afterCheck(move, [weight, floor], good, opened, best * SLACK);
        if (cost < Infinity) {
          add(cost, move.place);
        }
      }
    }
    for (const cause of near.trials) {
      const cost = weight * this.homeCost(cause, opened);
      if (cost + this.weighed(possible ^ (1 << cause), good)[2] <= best * SLACK) {
        add(cost + this.solved(possible ^ (1 << cause), good, opened)[0], this.table.checks.length + cause);
      }
    }
    const left = options.filter(([cost]) => tied(cost, best));
    return left.length === 1 ? left[0] : this.first(left, [possible, good, opened]);
  }

  /**
   * What a state costs that goes on with a check; infinite where that is above the limit.
   * @param {Move} move @param {[weight: number, floor: number]} state @param {number} good @param {number} opened
   * @param {number} limit
   */
  afterCheck({ place, finds, found, rest, then }, [weight, floor], good, opened, limit) {
    const after = openedAfter(this.table.checks[place], opened);
    let cost = weight * this.checkCost(place, opened);
    // Whatever comes out, the bike is mended in the end: what is too dear for that is looked no further into.
    if (cost + floor > limit) {
      return Infinity;
    }
    for (const each of found) {
      cost += finds * this.solved(each, good, after)[0];
    }
    if (rest && cost + this.weighed(rest, good | then)[2] > limit) {
      return Infinity;
    }
    return rest ? cost + this.solved(rest, good | then, after)[0] : cost;
  }

  /**
   * Of options that cost the same, that with fewer own minutes, then with fewer steps, then the first.
   * @param {Choice[]} options @param {State} state
   */
  first(options, state) {
    /** @type {[Choice, Effort][]} */
    let left = options.map((option) => [option, this.effortAfter(option[1], state)]);
    for (const column of [0, 1]) {
      const least = Math.min(...left.map(([, effort]) => effort[column]));
      left = left.filter(([, effort]) => tied(effort[column], least));
    }
    /** @param {Choice} option */
    const place = ([, choice]) => (choice < 0 ? Infinity : choice);
    return left.map(([option]) => option).reduce((first, each) => (place(each) < place(first) ? each : first));
  }

  /**
   * The only cause left: its fix, at home or in a workshop; handing over, where it is not listed.
   * @param {number} possible @param {number} good @param {number} opened @returns {Choice}
   */
  known(possible, good, opened) {
    const cause = 31 - Math.clz32(possible);
    const weight = this.weights(good)[cause];
    if (cause === this.last) {
      return [weight * (this.table.handOver + this.table.unlistedRepair), HAND_OVER];
    }
    const [cost, choice] = this.end(cause, opened);
    return [weight * cost, choice];
  }

  /**
   * What the bike costs once this listed cause is known, not weighted; and where it is mended.
   * @param {number} cause @param {number} opened @returns {Choice}
   */
  end(cause, opened) {
    const { known, possible } = this.table.fixes[cause];
    if (possible) {
      const home = this.homeCost(cause, opened);
      const equal = tied(Math.max(home, known), Math.min(home, known));
      if (equal ? this.homeMinutes(cause, opened) === 0 : home < known) {
        return [home, HOME];
      }
    }
    return [known, WORKSHOP];
  }

  /**
   * What can still matter with some causes possible. It only shrinks from state to state.
   * @param {number} possible @returns {Near}
   */
  near(possible) {
    let found = this.nearby.get(possible);
    if (found === undefined) {
      found = this.findNear(possible);
      this.nearby.set(possible, found);
    }
    return found;
  }

  /** @param {number} possible */
  findNear(possible) {
    /** @type {Near} */
    const near = { good: 0, access: 0, moves: [], trials: [] };
    for (const place of this.order) {
      const check = this.table.checks[place];
      if (check.union & possible) {
        near.good |= 1 << place;
        if (check.possible && !check.sets.some((each) => (each & possible) === possible)) {
          near.moves.push(moveOf(place, check, possible));
          near.access |= check.access;
        }
      }
    }
    this.table.fixes.forEach((fix, cause) => {
      if ((possible >> cause) & 1 && fix.possible) {
        near.access |= fix.access;
        if (fix.trial) {
          near.trials.push(cause);
        }
      }
    });
    return near;
  }

  /**
   * Price for each chance of finding something: the order in which checks are looked into, no more than that.
   * @param {number} place
   */
  worth(place) {
    const check = this.table.checks[place];
    const chance = causesIn(check.union).reduce((sum, cause) => sum + this.table.weights[cause], 0);
    return chance ? this.checkCost(place, 0) / (check.finds * chance) : Number.MAX_VALUE;
  }

  /**
   * The weight of each cause after some imperfect checks have come out good.
   * @param {number} good @returns {number[]}
   */
  weights(good) {
    let found = this.weightsOf.get(good);
    if (found === undefined) {
      const place = 31 - Math.clz32(good);
      const { union, finds } = this.table.checks[place];
      const left = 1 - finds;
      found = this.weights(good ^ (1 << place)).map((weight, bit) => ((union >> bit) & 1 ? weight * left : weight));
      this.weightsOf.set(good, found);
    }
    return found;
  }

  /**
   * `[weight, weighted cost of handing over, the least that any plan costs, weighted]` of a state.
   * @param {number} possible @param {number} good @returns {[weight: number, handOver: number, floor: number]}
   */
  weighed(possible, good) {
    const key = possible + good * this.goodAt;
    let found = this.weighedOf.get(key);
    if (found === undefined) {
      const weights = this.weights(good);
      let weight = 0;
      let repair = 0;
      let least = 0;
      for (const cause of causesIn(possible)) {
        weight += weights[cause];
        repair += weights[cause] * this.repairs[cause];
        least += weights[cause] * this.least[cause];
      }
      found = [weight, repair + weight * this.table.handOver, least];
      this.weighedOf.set(key, found);
    }
    return found;
  }

  /** Minutes that access jobs take together. @param {number} jobs */
  opening(jobs) {
    let found = this.minutesOf.get(jobs);
    if (found === undefined) {
      found = this.table.accessMinutes.reduce((sum, each, bit) => ((jobs >> bit) & 1 ? sum + each : sum), 0);
      this.minutesOf.set(jobs, found);
    }
    return found;
  }

  /** The owner's minutes for a check, opening what is not open yet. @param {number} place @param {number} opened */
  checkMinutes(place, opened) {
    const check = this.table.checks[place];
    return check.minutes + this.opening(check.access & ~(opened & check.keeps));
  }

  /** @param {number} place @param {number} opened */
  checkCost(place, opened) {
    return this.checkMinutes(place, opened) * this.table.rate + this.table.checks[place].money;
  }

  /** The owner's minutes for a fix at home, less what is open already. @param {number} cause @param {number} opened */
  homeMinutes(cause, opened) {
    const fix = this.table.fixes[cause];
    return Math.max(0, fix.minutes - this.opening(fix.access & opened));
  }

  /** @param {number} cause @param {number} opened */
  homeCost(cause, opened) {
    return this.table.fixes[cause].parts + this.homeMinutes(cause, opened) * this.table.rate;
  }

  /**
   * Causes and imperfect checks after a good result: a perfect check rules out, another only speaks against.
   * @param {number} place @param {number} possible @param {number} good @returns {[possible: number, good: number]}
   */
  afterGood(place, possible, good) {
    const check = this.table.checks[place];
    return check.finds === 1 ? [possible & ~check.union, good] : [possible, good | (1 << place)];
  }

  /**
   * `[expected own minutes, expected steps]`, weighted, of the cheapest plan from a state on.
   * @param {State} state @returns {Effort}
   */
  effort(state) {
    const key = state[0] + state[1] * this.goodAt + state[2] * this.openedAt;
    let found = this.effortOf.get(key);
    if (found === undefined) {
      found = this.effortAfter(this.solved(...state)[1], state);
      this.effortOf.set(key, found);
    }
    return found;
  }

  /** @param {number} choice @param {State} state @returns {Effort} */
  effortAfter(choice, state) {
    const [weight] = this.weighed(state[0], state[1]);
    let minutes = weight * this.ownMinutes(choice, state);
    let steps = weight;
    for (const [chance, then] of this.following(choice, state)) {
      const more = this.effort(then);
      minutes += chance * more[0];
      steps += chance * more[1];
    }
    return [minutes, steps];
  }

  /** @param {number} choice @param {State} state @returns {[chance: number, then: State][]} */
  following(choice, [possible, good, opened]) {
    if (choice < 0) {
      return [];
    }
    const { checks } = this.table;
    if (choice >= checks.length) {
      return [[1, [possible ^ (1 << (choice - checks.length)), good, opened]]];
    }
    const { sets, finds } = checks[choice];
    const after = openedAfter(checks[choice], opened);
    /** @type {[number, State][]} */
    const then = sets.map((each) => [finds, [each & possible, good, after]]);
    then.push([1, [...this.afterGood(choice, possible, good), after]]);
    return then.filter(([, state]) => state[0]);
  }

  /** @param {number} choice @param {State} state */
  ownMinutes(choice, [possible, , opened]) {
    const count = this.table.checks.length;
    if (choice === HAND_OVER || choice === WORKSHOP) {
      return 0;
    }
    if (choice === HOME) {
      return this.homeMinutes(31 - Math.clz32(possible), opened);
    }
    return choice < count ? this.checkMinutes(choice, opened) : this.homeMinutes(choice - count, opened);
  }
}

/** @param {number} place @param {Table["checks"][number]} check @param {number} possible */
function moveOf(place, check, possible) {
  const perfect = check.finds === 1;
  return {
    place,
    bit: 1 << place,
    finds: check.finds,
    found: check.sets.map((each) => each & possible).filter(Boolean),
    rest: perfect ? possible & ~check.union : possible,
    then: perfect ? 0 : 1 << place,
  };
}
