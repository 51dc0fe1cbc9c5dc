/** What an owner has answered about one fault, and the owner that `core/plan.js` reckons with. */

import { sideOf } from "./plan.js";

/** @type {Skill[]} */
export const SKILLS = ["home", "experienced", "workshop"];
/** @type {Answers} */
export const NO_ANSWERS = Object.freeze({ list: [], absent: false, opened: [], covered: [], any: false });
/** @type {Means} */
export const NO_MEANS = Object.freeze({ skill: "home", hour: null, has: [], lacks: [] });

const MOST_IDS = 200;
const MOST_HOUR = 10_000;

/** @param {unknown} value @returns {value is Record<string, unknown>} */
function isRecord(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** @template T @param {readonly T[]} known @param {unknown} value */
function oneOf(known, value) {
  return known.find((each) => each === value);
}

/** @param {unknown} value */
function ids(value) {
  const list = Array.isArray(value) ? value : [];
  return [...new Set(list.filter((each) => typeof each === "string" && each.length <= 100))].slice(0, MOST_IDS);
}

/**
 * What can come out of a check besides `unclear`, the side below good first.
 * @param {PlanCheck} check @returns {Result[]}
 */
export function resultsOf(check) {
  return Object.hasOwn(check.outcomes, "bad") ? ["good", "bad"] : ["low", "good", "high"];
}

/**
 * Of whatever a browser had stored, or another build had written, that part which this problem can use.
 * @param {unknown} stored @param {PlanProblem} problem @returns {Answers}
 */
export function cleanAnswers(stored, problem) {
  if (!isRecord(stored)) {
    return NO_ANSWERS;
  }
  /** @type {Map<unknown, PlanCheck>} */
  const checks = new Map(problem.checks.map((check) => [check.id, check]));
  const fixes = new Set(problem.fixes.map((fix) => fix.id));
  const jobs = new Set(problem.access.map((job) => job.id));
  /** @type {Answer[]} */
  let list = [];
  for (const each of Array.isArray(stored.list) ? stored.list.filter(isRecord) : []) {
    const check = checks.get(each.check);
    const answer = check ? cleanCheck(each, check) : cleanFix(each, fixes);
    list = answer ? withAnswer({ list }, answer).list : list;
  }
  return {
    list,
    absent: stored.absent === true,
    opened: ids(stored.opened).filter((job) => jobs.has(job)),
    covered: ids(stored.covered).filter((cause) => fixes.has(cause)),
    any: stored.any === true,
  };
}

/** @param {Record<string, unknown>} stored @param {PlanCheck} check @returns {?CheckAnswer} */
function cleanCheck({ result: stored, value }, check) {
  const { id } = check;
  const result = oneOf(/** @type {Result[]} */ (["unclear", ...resultsOf(check)]), stored);
  if (!result) {
    return null;
  }
  // The good range may have moved since: a reading counts where it falls today.
  const isReading = typeof value === "number" && Number.isFinite(value) && check.good !== null;
  return isReading ? { check: id, result: sideOf(check, value), value } : { check: id, result, value: null };
}

/** @param {Record<string, unknown>} stored @param {Set<string>} fixes @returns {?FixAnswer} */
function cleanFix({ fix, result: stored }, fixes) {
  const result = oneOf(/** @type {const} */ (["no-change", "helped"]), stored);
  return typeof fix === "string" && fixes.has(fix) && result ? { fix, result } : null;
}

/** @param {unknown} stored @returns {Means} */
export function cleanMeans(stored) {
  if (!isRecord(stored)) {
    return NO_MEANS;
  }
  const { hour } = stored;
  return {
    skill: oneOf(SKILLS, stored.skill) ?? NO_MEANS.skill,
    hour: typeof hour === "number" && hour >= 0 && hour <= MOST_HOUR ? hour : null,
    has: ids(stored.has),
    lacks: ids(stored.lacks),
  };
}

/** @param {Answer} answer @param {Answer} other */
function isAbout(answer, other) {
  return answer.check === other.check && answer.fix === other.fix;
}

/**
 * With one more answer, which takes the place of an earlier one about the same.
 * @template {Pick<Answers, "list">} A @param {A} answers @param {Answer} answer
 */
export function withAnswer(answers, answer) {
  return { ...answers, list: [...answers.list.filter((each) => !isAbout(each, answer)), answer] };
}

/** @param {Answers} answers @param {Answer} answer */
export function withoutAnswer(answers, answer) {
  return { ...answers, list: answers.list.filter((each) => !isAbout(each, answer)) };
}

/** The cause whose fix helped; null while none has. @param {Answers} answers */
export function mended(answers) {
  return answers.list.find((answer) => answer.result === "helped")?.fix ?? null;
}

/**
 * The problem and the owner to reckon with. A fix that was tried in vain rules its cause out, as a good result of a
 * perfect check for it alone would, so it goes in as one; a space in its id keeps it apart from every real one.
 *
 * @param {Bike} bike one that the fault concerns, or null
 * @param {PlanProblem} problem @param {Answers} answers @param {Means} means
 */
export function reckoned(problem, answers, means, bike) {
  const tried = answers.list.flatMap((answer) => (answer.result === "no-change" ? [answer.fix] : []));
  /** @type {[check: string, result: Result][]} */
  const results = answers.list.flatMap((answer) => (answer.check ? [[answer.check, answer.result]] : []));
  return {
    problem: { ...problem, checks: [...problem.checks, ...tried.map(triedCheck)] },
    owner: {
      bike,
      skill: means.skill,
      own_time_value: means.hour,
      has: means.has,
      lacks: means.lacks,
      absent: answers.absent,
      opened: answers.opened,
      covered: answers.covered,
      results: Object.fromEntries([...results, ...tried.map((cause) => [`fix ${cause}`, "good"])]),
    },
  };
}

/** @param {string} cause @returns {PlanCheck} */
function triedCheck(cause) {
  return {
    id: `fix ${cause}`,
    outcomes: { bad: [cause] },
    good: null,
    finds: 1,
    only_while_present: false,
    before_riding: false,
    bike: 0,
    minutes: 0,
    cost: 0,
    skill: 0,
    tools: [],
    access: [],
  };
}

/** A number as people type it, with a point or a comma; null where it is none. @param {string} text */
export function typedNumber(text) {
  const plain = text
    .trim()
    .replace(/\u2212/g, "-")
    .replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}
