/**
 * Which faults may be behind codes, and what of them goes into one plan: the same as `kbtools/index/together.py`, from what
 * `kbtools/browser_data/joint.py` writes. A code is `{code: [format, text, base], unit}`, the unit null where it is not known.
 */

import { existsOn } from "./evidence.js";
import { forBike } from "./plan-shared.js";

/** Whether two codes are the same, or one of them is the other without its failure type. @param {CodeTriple} one @param {CodeTriple} other */
function meets([format, text, base], [otherFormat, otherText, otherBase]) {
  return format === otherFormat && (text === otherText || text === otherBase || base === otherText);
}

/** Whether an owner with this code means a row. @param {JointRow} row @param {GivenCode} given */
function isAbout(row, { code, unit }) {
  return meets(row.code, code) && (unit === null || row.unit === null || row.unit === unit);
}

/** @param {JointRow} row @param {Bike} bike */
const fitted = (row, bike) => existsOn({ applies: row.fits }, bike);

/**
 * The fault as a part of the plan for these codes; null where it cannot be behind them on this bike. Without codes all of
 * its cases count.
 * @param {JointFault} fault @param {GivenCode[] | null} given @param {Bike} bike @returns {JointPart | null}
 */
export function partFor({ problem, beside, joint }, given, bike) {
  if (!existsOn(joint, bike)) {
    return null;
  }
  const part = { problem: forBike(problem, joint.good_for, bike), beside, same: joint.same, shared: joint.shared };
  if (given === null) {
    return { ...part, cases: null };
  }
  const roots = joint.rows.filter((row) => !row.follow_on);
  const seen = given.map(({ code }) => code);
  /** @param {JointRow} row */
  const together = (row) => row.with.every((each) => each !== null && seen.some((code) => meets(code, each)));
  const behind = roots.some((row) => fitted(row, bike) && together(row) && given.some((each) => isAbout(row, each)));
  if (!behind) {
    return null;
  }
  const rooted = given.filter((each) => roots.some((row) => isAbout(row, each)));
  /** @type {Record<string, number>} */
  const cases = {};
  for (const [cause, codes] of joint.cases) {
    if (codes.some((code) => rooted.some((each) => meets(code, each.code)))) {
      cases[cause] = (cases[cause] ?? 0) + 1;
    }
  }
  return { ...part, cases };
}

/**
 * The ride advice of the codes given, in the order of the codes, then of the faults.
 * @param {JointFault[]} faults those that are planned @param {GivenCode[]} given @param {Bike} bike @returns {RideWord[]}
 */
export function wordsOfCodes(faults, given, bike) {
  return given.flatMap((each) =>
    faults.flatMap(({ joint }) =>
      joint.rows.flatMap((row) => {
        const meant = row.word !== null && isAbout(row, each) && fitted(row, bike);
        const label = each.unit === null ? each.code[1] : `${each.unit}:${each.code[1]}`;
        return meant ? [{ .../** @type {RideWord} */ (row.word), from: `code:${label}` }] : [];
      }),
    ),
  );
}

/**
 * How many of the solved cases about no fault show one of the codes; `fits` says on which machines a code's unit is.
 * @param {CaseWithoutFault[]} cases @param {GivenCode[]} given @param {Record<string, Spans>} fits by unit
 */
export function withoutFault(cases, given, fits = {}) {
  return cases.filter(({ bike, codes }) =>
    given.some(
      ({ code, unit }) =>
        codes.some((each) => meets(each, code)) && existsOn({ applies: unit === null ? null : (fits[unit] ?? {}) }, bike),
    ),
  ).length;
}
