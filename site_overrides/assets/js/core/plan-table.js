/**
 * A plan problem and an owner as numbers: causes, checks and access jobs become bits. The same as
 * `kbtools/checkplan/table.py`, which says more about each field.
 *
 * @typedef {ReturnType<typeof abilities>} Able
 * @typedef {Pick<PlanFix | PlanCheck, "skill" | "tools" | "access">} Work
 */

import { means } from "./evidence.js";

const SKILLS = ["home", "experienced", "workshop"];
/** A state is kept under one number, which is exact up to so many bits; no set of bits may be longer than the other. */
const MOST_BITS = 52;
const LONGEST = 30;

/** An owner who says nothing: the usual tools, home skill, any bike. @type {Owner} */
export const NOBODY = Object.freeze({
  bike: null,
  skill: "home",
  own_time_value: null,
  has: [],
  lacks: [],
  absent: false,
  opened: [],
  covered: [],
  results: {},
});

/** What the owner can do, and why not. @param {PlanProblem} problem @param {Owner} owner */
export function abilities(problem, owner) {
  const skill = SKILLS.indexOf(owner.skill);
  const jobs = new Map(problem.access.map((job) => [job.id, job]));
  const usual = Object.keys(problem.tools).filter((tool) => problem.tools[tool]);
  const tools = new Set([...usual, ...owner.has].filter((tool) => !owner.lacks.includes(tool)));

  /** These access jobs and all that they need. @param {string[]} wanted */
  function closed(wanted) {
    /** @type {Set<string>} */
    const found = new Set();
    const waiting = [...wanted];
    for (let job = waiting.pop(); job !== undefined; job = waiting.pop()) {
      if (!found.has(job)) {
        found.add(job);
        waiting.push(...(jobs.get(job)?.needs ?? []));
      }
    }
    return [...found];
  }

  /**
   * What keeps the owner from a check or a fix: `skill`, `tools`, `access` (jobs beyond the owner's skill).
   * @param {Work} work
   */
  function lacking(work) {
    return {
      skill: work.skill > skill,
      tools: work.tools.filter((tool) => !tools.has(tool)),
      access: closed(work.access).filter((job) => (jobs.get(job)?.skill ?? Infinity) > skill),
    };
  }

  /** @param {Work} work */
  function allows(work) {
    const { skill: beyond, tools: missing, access } = lacking(work);
    return !beyond && missing.length === 0 && access.length === 0;
  }

  const bits = new Map([...jobs.keys()].map((job, bit) => [job, 1 << bit]));
  /** @param {string[]} wanted */
  const mask = (wanted) => closed(wanted).reduce((sum, job) => sum | (bits.get(job) ?? 0), 0);

  /**
   * The access jobs that may stay open while the bike does this, as bits: they and all that they need allow it.
   * @param {number} bike
   */
  function keeps(bike) {
    /** @param {string} job */
    const forbids = (job) => (jobs.get(job)?.allows ?? bike) < bike;
    const kept = [...jobs.keys()].filter((job) => !closed([job]).some(forbids));
    return kept.reduce((sum, job) => sum | (bits.get(job) ?? 0), 0);
  }

  return { allows, lacking, mask, keeps };
}

/** The numbers of the plan of one problem for one owner. @param {PlanProblem} problem @param {Owner} owner */
export function tableOf(problem, owner) {
  const shares = means(problem.evidence, owner.bike);
  const lengths = [shares.length, problem.checks.length, problem.access.length];
  if (Math.max(...lengths) > LONGEST || lengths.reduce((sum, each) => sum + each) > MOST_BITS) {
    throw new RangeError("The entry is too large for a plan.");
  }
  const bitOf = new Map(shares.map(([cause], bit) => [cause, 1 << bit]));
  const able = abilities(problem, owner);
  return {
    causes: shares.map(([cause]) => cause),
    weights: shares.map(([, share]) => share),
    fixes: problem.fixes
      .filter((fix) => bitOf.has(fix.id))
      .map((fix) => (owner.covered.includes(fix.id) ? coveredRow(problem) : fixRow(fix, problem, able))),
    unlistedRepair: problem.unlisted_repair,
    handOver: problem.diagnosis_hours * problem.labour_rate + problem.transport,
    rate: (owner.own_time_value ?? problem.own_time_value) / 60,
    checks: problem.checks.map((check) => checkRow(check, bitOf, able, owner)),
    access: problem.access.map((job) => job.id),
    accessMinutes: problem.access.map((job) => job.minutes),
    opened: able.mask(owner.opened),
  };
}

/** @param {PlanFix} fix @param {PlanProblem} problem @param {Able} able */
function fixRow(fix, problem, able) {
  const possible = able.allows(fix);
  const workshop = fix.parts + fix.hours * problem.labour_rate;
  return {
    possible,
    parts: fix.parts,
    minutes: fix.hours * problem.home_time_factor * 60,
    access: able.mask(fix.access),
    workshop,
    known: workshop + problem.confirm_hours * problem.labour_rate + problem.transport,
    trial: fix.trial && possible,
    covered: false,
  };
}

/** The maker mends it, and nobody tries it at home. @param {PlanProblem} problem */
function coveredRow(problem) {
  const known = problem.transport;
  return { possible: false, parts: 0, minutes: 0, access: 0, workshop: 0, known, trial: false, covered: true };
}

/** @param {PlanCheck} check @param {Map<string, number>} bitOf @param {Able} able @param {Owner} owner */
function checkRow(check, bitOf, able, owner) {
  /** @type {Record<string, string[]>} */
  const outcomes = check.outcomes;
  const names = ["bad", "low", "high"].filter((name) => Object.hasOwn(outcomes, name));
  const sets = names.map((name) => outcomes[name].reduce((found, cause) => found | (bitOf.get(cause) ?? 0), 0));
  const done = Object.hasOwn(owner.results, check.id);
  const silent = check.only_while_present && owner.absent;
  return {
    id: check.id,
    names,
    sets,
    union: sets.reduce((found, each) => found | each, 0),
    finds: check.finds,
    minutes: check.minutes,
    money: check.cost,
    access: able.mask(check.access),
    keeps: able.keeps(check.bike),
    beforeRiding: check.before_riding,
    possible: !done && !silent && able.allows(check),
  };
}

/**
 * The state after the owner's results, `[causes possible, imperfect checks good, access jobs open]`, each as bits.
 * @param {Table} table @param {Owner["results"]} results @returns {State}
 */
export function startOf(table, results) {
  let possible = 2 ** table.causes.length - 1;
  let good = 0;
  let opened = table.opened;
  for (const [id, result] of Object.entries(results)) {
    const bit = table.checks.findIndex((each) => each.id === id);
    if (bit < 0 || result === "unclear") {
      continue;
    }
    const check = table.checks[bit];
    opened = openedAfter(check, opened);
    if (result !== "good") {
      const told = check.sets[check.names.indexOf(result)];
      possible = isSecond(check, possible, told) ? possible : possible & told;
    } else if (check.finds < 1) {
      good |= 1 << bit;
    } else {
      possible &= ~check.union;
    }
  }
  return [possible, good, opened];
}

/**
 * Whether a result that means these causes tells of a second fault beside the one that was found.
 * @param {Table["checks"][number]} check @param {number} possible @param {number} told
 */
export function isSecond(check, possible, told) {
  return check.beforeRiding && possible !== 0 && (possible & (possible - 1)) === 0 && !(possible & told);
}

/** What is open after a check, as bits. @param {Pick<Table["checks"][number], "keeps" | "access">} check @param {number} opened */
export function openedAfter(check, opened) {
  return (opened & check.keeps) | check.access;
}

/**
 * The causes that all bad, low and high results together mean, as bits; one that means none of the possible ones tells of a
 * second fault.
 * @param {Table} table @param {Owner["results"]} results @param {number} possible
 */
export function shownBy(table, results, possible) {
  return table.checks.reduce((shown, check) => {
    const place = check.names.indexOf(Object.hasOwn(results, check.id) ? results[check.id] : "");
    return place < 0 || !(check.sets[place] & possible) ? shown : shown & check.sets[place];
  }, 2 ** table.causes.length - 1);
}
