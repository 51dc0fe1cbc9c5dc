/**
 * What an owner has answered about one fault, and the owner that `core/plan.js` reckons with.
 *
 * @typedef {object} Answers
 * @property {Answer[]} list in the order in which they were given, each check and each fix at most once
 * @property {boolean} absent the fault is not there now
 * @property {string[]} opened ids of access jobs that are done
 * @property {boolean} any reckon with any bike, although this browser remembers one
 *
 * @typedef {{check: string, result: string, value: ?number}|{fix: string, result: "no-change"|"helped"}} Answer
 *
 * What holds for every fault is kept apart from it:
 *
 * @typedef {object} Means
 * @property {"home"|"experienced"|"workshop"} skill
 * @property {?number} hour what an hour of the own time counts for; null: what the club says
 * @property {string[]} has ids of tools at hand besides the usual ones
 * @property {string[]} lacks ids of usual tools that are not
 */

import { sideOf } from "./plan.js";

export const SKILLS = ["home", "experienced", "workshop"];
export const NO_ANSWERS = Object.freeze({ list: [], absent: false, opened: [], any: false });
export const NO_MEANS = Object.freeze({ skill: "home", hour: null, has: [], lacks: [] });

const MOST_IDS = 200;
const MOST_HOUR = 10_000;

function isRecord(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function ids(value) {
  const list = Array.isArray(value) ? value : [];
  return [...new Set(list.filter((each) => typeof each === "string" && each.length <= 100))].slice(0, MOST_IDS);
}

/** What can come out of a check besides `unclear`, the side below good first. */
export function resultsOf(check) {
  return Object.hasOwn(check.outcomes, "bad") ? ["good", "bad"] : ["low", "good", "high"];
}

/** Of whatever a browser had stored, or another build had written, that part which this problem can use. */
export function cleanAnswers(stored, problem) {
  if (!isRecord(stored)) {
    return NO_ANSWERS;
  }
  const checks = new Map(problem.checks.map((check) => [check.id, check]));
  const fixes = new Set(problem.fixes.map((fix) => fix.id));
  const jobs = new Set(problem.access.map((job) => job.id));
  let list = [];
  for (const each of Array.isArray(stored.list) ? stored.list.filter(isRecord) : []) {
    const answer = checks.has(each.check) ? cleanCheck(each, checks.get(each.check)) : cleanFix(each, fixes);
    list = answer ? withAnswer({ list }, answer).list : list;
  }
  return {
    list,
    absent: stored.absent === true,
    opened: ids(stored.opened).filter((job) => jobs.has(job)),
    any: stored.any === true,
  };
}

function cleanCheck({ check: id, result, value }, check) {
  if (!["unclear", ...resultsOf(check)].includes(result)) {
    return null;
  }
  // The good range may have moved since: a reading counts where it falls today.
  const isReading = Number.isFinite(value) && check.good !== null;
  return isReading ? { check: id, result: sideOf(check, value), value } : { check: id, result, value: null };
}

function cleanFix({ fix, result }, fixes) {
  return fixes.has(fix) && ["no-change", "helped"].includes(result) ? { fix, result } : null;
}

export function cleanMeans(stored) {
  if (!isRecord(stored)) {
    return NO_MEANS;
  }
  const { skill, hour } = stored;
  return {
    skill: SKILLS.includes(skill) ? skill : NO_MEANS.skill,
    hour: Number.isFinite(hour) && hour >= 0 && hour <= MOST_HOUR ? hour : null,
    has: ids(stored.has),
    lacks: ids(stored.lacks),
  };
}

function isAbout(answer, other) {
  return answer.check === other.check && answer.fix === other.fix;
}

/** With one more answer, which takes the place of an earlier one about the same. */
export function withAnswer(answers, answer) {
  return { ...answers, list: [...answers.list.filter((each) => !isAbout(each, answer)), answer] };
}

export function withoutAnswer(answers, answer) {
  return { ...answers, list: answers.list.filter((each) => !isAbout(each, answer)) };
}

/** The cause whose fix helped; null while none has. */
export function mended(answers) {
  return answers.list.find((answer) => answer.result === "helped")?.fix ?? null;
}

/**
 * The problem and the owner to reckon with. A fix that was tried in vain rules its cause out, as a good result of a
 * perfect check for it alone would, so it goes in as one; a space in its id keeps it apart from every real one.
 *
 * @param {?[string, number]} bike one that the fault concerns, or null
 */
export function reckoned(problem, answers, means, bike) {
  const tried = answers.list.filter((answer) => answer.result === "no-change").map((answer) => answer.fix);
  const results = answers.list.filter((answer) => answer.check).map(({ check, result }) => [check, result]);
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
      results: Object.fromEntries([...results, ...tried.map((cause) => [`fix ${cause}`, "good"])]),
    },
  };
}

function triedCheck(cause) {
  return {
    id: `fix ${cause}`,
    outcomes: { bad: [cause] },
    good: null,
    finds: 1,
    only_while_present: false,
    minutes: 0,
    cost: 0,
    skill: 0,
    tools: [],
    access: [],
  };
}

/** A number as people type it, with a point or a comma; null where it is none. */
export function typedNumber(text) {
  const plain = text
    .trim()
    .replace(/\u2212/g, "-")
    .replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}
