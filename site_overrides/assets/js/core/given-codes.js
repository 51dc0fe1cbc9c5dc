/**
 * The codes that an owner read, as a link brings them to a fault's page (`?codes=P0562,4-2`), and what the entry says about
 * riding with them. The same as `words_of_codes` in `kbtools/checkplan/beside.py`; a page of one fault knows no formats, so
 * a failure type is told by the standard's own form (SAE J2012: four hexadecimal digits, then two).
 */

import { existsOn } from "./evidence.js";

const MOST = 30;
const FAILURE_TYPE = /^([PCBU][0-9A-F]{4})-[0-9A-F]{2}$/;
/** Whoever made the link may have written anything: what has not the look of a code is none. */
const CODE = /^[A-Za-z0-9][A-Za-z0-9 ._:-]{0,31}$/;

/** @param {string} text with commas */
export function readCodes(text) {
  const found = text.split(",").map((each) => each.trim());
  return [...new Set(found.filter((each) => CODE.test(each)))].slice(0, MOST);
}

/** @param {string} code @param {CodeTriple} listed */
function isAbout(code, [, text, base]) {
  const given = code.toUpperCase();
  const own = text.toUpperCase();
  return given === own || given === base.toUpperCase() || given.match(FAILURE_TYPE)?.[1] === own;
}

/**
 * The ride advice of the rows about these codes, in the order of the codes.
 * @param {JointRow[]} rows @param {string[]} codes as `readCodes` gives them @param {Bike} bike @returns {RideWord[]}
 */
export function wordsOf(rows, codes, bike) {
  return codes.flatMap((code) =>
    rows.flatMap(({ word, code: listed, fits }) =>
      word !== null && isAbout(code, listed) && existsOn({ applies: fits }, bike) ? [{ ...word, from: `code:${listed[1]}` }] : [],
    ),
  );
}
