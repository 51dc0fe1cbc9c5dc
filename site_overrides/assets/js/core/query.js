/**
 * What an owner typed: codes in any notation, alone, among words or in a pasted report; lamp codes told in words; part
 * of a code; words. Held to `tests/vectors/finder_queries.json`. Pure: no document, no network.
 *
 * A code is looked for in three ways, the first that finds any wins:
 *   1. the whole text, a single line, by `readCodes` with all that it forgives (`told.js`)
 *   2. a lamp code in words: two or more numbers with nothing between them but words such as long, short, then and
 *      flashes, at least one of which must be there ("4 long 2 short", "blinks four then two")
 *   3. the text cut at blanks and signs: each piece that is a code by itself, or together with the next ones if it can
 *      only be the beginning of one ("P0 562"). A club's own code must be written as such there, for "2 3" in a
 *      sentence is no code, unless a word such as code or flash stands before it
 */

import { readCode } from "./codes.js";
import { BLINK, counted, LONG, readCodes, SHORTER, toldCodes } from "./told.js";

/** More would be no question. */
export const LONGEST_TEXT = 4000;

/** From so many words on a text was pasted, not typed: its words are mostly a report's own. */
const TYPED_WORDS = 14;

const BETWEEN = /^(?:then|and|plus|pause|gap|followed|by|after|a|an|of|times?|x|ones?|,|;|\+)$/;
const ANNOUNCES = /^(?:codes?|dtcs?|errors?|flash|flashcode|blink|lamp)$/i;
const NOISE =
  /^(?:codes?|dtcs?|errors?|faults?|faultcodes?|flash|flashes|blinks?|stored|present|pending|intermittent|status|and|or|with|i|have|got|shows?)$/i;
const CUT = /[\s,;|/()[\]{}<>"'`=+*#&!?]+/;

/**
 * Reads a text.
 * @param {string} text @param {CodeFormat[]} formats @param {CodeTables} tables @returns {Query}
 */
export function readQuery(text, formats, tables) {
  const typed = text.slice(0, LONGEST_TEXT).trim();
  const lines = typed.split(/[\r\n]+/);
  const pasted = lines.length > 1 || typed.split(/\s+/).length > TYPED_WORDS;
  /** @param {FaultCode[][]} codes @param {string} words */
  const found = (codes, words) => ({ codes: distinct(codes), part: null, words, pasted });
  const whole = lines.length === 1 ? wholeText(typed, formats, tables) : [];
  if (whole.length) {
    return found(whole, "");
  }
  const told = pasted ? null : lampCode(typed, formats, tables);
  if (told) {
    return found([told.matches], told.rest);
  }
  const scanned = lines.map((line) => scan(line, formats, tables));
  const codes = scanned.flatMap((line) => line.codes);
  if (codes.length) {
    const rest = scanned.flatMap((line) => line.rest);
    return found(codes, rest.filter((word) => !NOISE.test(word)).join(" "));
  }
  return { codes: [], part: pasted || !isOneCode(typed) ? null : partOfCode(typed, tables), words: typed, pasted };
}

/** @param {string} typed @param {CodeFormat[]} formats @param {CodeTables} tables @returns {FaultCode[][]} */
function wholeText(typed, formats, tables) {
  if (isOneCode(typed)) {
    return readCodes(typed, formats, tables);
  }
  return scan(typed, formats, tables).codes.length ? [] : toldCodes(typed, formats, tables);
}

/** A word with a number behind it ("coil 1") is no code, though `readCode` forgives as much. @param {string} typed */
function isOneCode(typed) {
  const [first, ...rest] = typed.split(/\s+/);
  return rest.length === 0 || !/^\p{L}{2,}$/u.test(first) || opensCode(first);
}

/** @param {string} piece */
function opensCode(piece) {
  return /^[PCBU](?:[OIL]|[0-3OIL][0-9A-FOIL]*[0-9][0-9A-FOIL]*|[0-3])?$/i.test(piece);
}

/** @param {FaultCode[][]} codes */
function distinct(codes) {
  const seen = new Set();
  return codes.filter((matches) => {
    const key = JSON.stringify(matches);
    return !seen.has(key) && seen.add(key);
  });
}

/**
 * A lamp code told in words, and the other words; null where there is none.
 * @param {string} typed @param {CodeFormat[]} formats @param {CodeTables} tables
 */
function lampCode(typed, formats, tables) {
  const pieces = typed.match(/[\p{L}\p{N}.]+(?:-[\p{L}\p{N}.]+)*|[,;+]/gu) ?? [];
  const low = pieces.map((piece) => piece.toLowerCase());
  const numbers = low.map(counted);
  /** @param {number} at */
  const isFiller = (at) => [LONG, SHORTER, BLINK, BETWEEN].some((kind) => kind.test(low[at] ?? " "));
  /** @param {number} at */
  const isHint = (at) => [LONG, SHORTER].some((kind) => kind.test(low[at] ?? "")) || BLINK.test(low[at] ?? "");
  for (let start = 0; start < pieces.length; start += 1) {
    const run = numbers[start] === null ? [] : runFrom(start, numbers, isFiller);
    if (run.length > 1) {
      let [from, to] = [start, /** @type {number} */ (run.at(-1)) + 1];
      while (isFiller(to)) to += 1;
      while (from > 0 && (isFiller(from - 1) || ANNOUNCES.test(low[from - 1]))) from -= 1;
      const hinted = Array.from({ length: to - from }, (_, step) => from + step).some(isHint);
      const own = formats.filter((format) => format.standard === null);
      const { matches } = readCode(run.map((at) => numbers[at]).join("-"), own, tables);
      if (hinted && matches.length) {
        const rest = pieces.filter((piece, at) => (at < from || at >= to) && !/^[,;+]$/.test(piece));
        return { matches, rest: rest.filter((word) => !NOISE.test(word)).join(" ") };
      }
    }
  }
  return null;
}

/**
 * Places of the numbers from `start` on that have nothing but fillers between them.
 * @param {number} start @param {(string | null)[]} numbers @param {(at: number) => boolean} isFiller
 */
function runFrom(start, numbers, isFiller) {
  const run = [start];
  let at = start + 1;
  while (at < numbers.length && (numbers[at] !== null || isFiller(at))) {
    if (numbers[at] !== null) {
      run.push(at);
    }
    at += 1;
  }
  return run;
}

/** @param {string} line @param {CodeFormat[]} formats @param {CodeTables} tables */
function scan(line, formats, tables) {
  const pieces = line.split(CUT).filter(Boolean);
  const codes = [];
  const rest = [];
  for (let at = 0; at < pieces.length; ) {
    const { matches, length } = codeAt(pieces, at, formats, tables);
    if (length) {
      codes.push(...matches);
    } else {
      rest.push(pieces[at]);
    }
    at += Math.max(1, length);
  }
  return { codes, rest };
}

/** @param {string[]} pieces @param {number} at @param {CodeFormat[]} formats @param {CodeTables} tables */
function codeAt(pieces, at, formats, tables) {
  const standard = formats.filter((format) => format.standard !== null);
  const piece = pieces[at];
  const announced = at > 0 && ANNOUNCES.test(pieces[at - 1]);
  const alone = readCode(piece, formats, tables).matches.filter(
    (code) => announced || standard.some(({ id }) => id === code.format) || isWritten(piece, code),
  );
  if (alone.length) {
    return { matches: [alone], length: 1 };
  }
  const within = piece
    .split(/[:_.]+/)
    .map((each) => readCode(each, standard, tables).matches)
    .filter((each) => each.length);
  if (within.length) {
    return { matches: within, length: 1 };
  }
  for (let length = 2; opensCode(piece) && length <= 5 && at + length <= pieces.length; length += 1) {
    const { matches } = readCode(pieces.slice(at, at + length).join(""), standard, tables);
    if (matches.length) {
      return { matches: [matches], length };
    }
  }
  return { matches: [], length: 0 };
}

/**
 * Whether a club's code stands there as the club writes it, but for case, kinds of hyphen and what is around it.
 * @param {string} piece @param {FaultCode} code
 */
function isWritten(piece, code) {
  const bare = piece.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, "").replace(/[‐-―−]/g, "-");
  return bare.toUpperCase() === code.text;
}

/**
 * A digit must be in it, or any word would do; letters that are typed for digits are read as such.
 * @param {string} typed @param {CodeTables} tables
 */
function partOfCode(typed, tables) {
  const bare = typed.replace(/[\s._:-]+/g, "").toUpperCase();
  if (!/^[0-9A-Z]{2,7}$/.test(bare) || !/[0-9]/.test(bare)) {
    return null;
  }
  /** @param {string} text */
  const digits = (text) => Array.from(text, (char) => tables.look_alikes[char] ?? char).join("");
  return /^[PCBU]/.test(bare) ? bare[0] + digits(bare.slice(1)) : digits(bare);
}
