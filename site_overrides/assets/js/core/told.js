/**
 * Codes in other notations than their own: told in words, as a reader's raw answer, announced, or short of a zero. The
 * same as `kbtools/model/code_told.py`, where the sources stand; both are held to `tests/vectors/codes_told.json`.
 *
 * Pure: no document, no network.
 */

import { codeFromBytes, readCode } from "./codes.js";

/** No longer text is looked at. */
const LONGEST = 256;

const REPLY = /^(?:(?:0x)?[0-9a-f]{2}[ ,]*){3,}$/i;
const BYTES =
  /^(?:(?:fault|error|trouble) ?)?(?:codes?|dtcs?|errors?|hex|bytes?|raw)[ :=]+(?:0x)?([0-9a-f]{2}) ?(?:0x)?([0-9a-f]{2})(?: ?(?:0x)?([0-9a-f]{2}))?$/i;
/** Not what begins a reply: `43 00` says that there are no codes. */
const PAIR = /^(?!43|47|4a|59)([0-9a-f]{2}) ([0-9a-f]{2})$/i;
/** Where the second character cannot be what was typed there, a zero before it was left out. */
const SHORT = /^([pcbu])(?:([4-9a-f][0-9a-f]{2})|[ .-]+([1-9a-f][0-9a-f]{2}))$/i;

/** @type {Map<string, string>} */
const NUMBERS = new Map(
  "one two three four five six seven eight nine".split(" ").map((word, at) => [word, String(at + 1)]),
);
NUMBERS.set("once", "1").set("twice", "2").set("thrice", "3");

export const LONG = /^(?:long|slow|big)(?:s|er|ones?)?$/;
export const SHORTER = /^(?:short|quick|fast|brief)(?:s|er|ones?)?$/;
export const BLINK = /^(?:flash|blink|pulse|wink)(?:s|es|ed|ing)?$/;
const BETWEEN =
  /^(?:then|and|plus|pause|gap|followed|by|after|a|an|of|times?|x|ones?|again|lamp|light|codes?|it|the|[,;+])$/;

/**
 * The codes that a text tells by these notations: of each what it may be; none where it tells none.
 * @param {string} text @param {CodeFormat[]} formats @param {CodeTables} tables @returns {FaultCode[][]}
 */
export function toldCodes(text, formats, tables) {
  const told = text.trim();
  if (told.length > LONGEST) {
    return [];
  }
  const standard = formats.find((format) => format.standard !== null)?.id;
  const replied = standard === undefined ? [] : reply(told, standard, tables);
  if (replied.length) {
    return replied.map((code) => [code]);
  }
  const announced = standard === undefined ? null : announcedCode(told, standard, tables);
  if (announced) {
    return [[announced]];
  }
  const lamp = lampCounts(told);
  const own = formats.filter((format) => format.standard === null);
  const { matches } = lamp === null ? { matches: [] } : readCode(lamp, own, tables);
  return matches.length ? [matches] : [];
}

/**
 * The codes that a text is, in any notation: as `read_codes` in Python.
 * @param {string} text @param {CodeFormat[]} formats @param {CodeTables} tables @returns {FaultCode[][]}
 */
export function readCodes(text, formats, tables) {
  const replied = isReply(text.trim()) ? toldCodes(text, formats, tables) : [];
  if (replied.length) {
    return replied;
  }
  const { matches } = readCode(text, formats, tables);
  return matches.length ? [matches] : toldCodes(text, formats, tables);
}

/** @param {string} told */
function isReply(told) {
  return told.length <= LONGEST && REPLY.test(told) && /^(?:0x)?(?:43|47|4a|59)/i.test(told);
}

/**
 * The codes in a control unit's raw answer; what pads it is none.
 * @param {string} told @param {string} standard @param {CodeTables} tables @returns {FaultCode[]}
 */
function reply(told, standard, tables) {
  if (!isReply(told)) {
    return [];
  }
  const bytes = (told.replace(/0x/gi, "").match(/[0-9a-f]{2}/gi) ?? []).map((byte) => Number.parseInt(byte, 16));
  const isService = bytes[0] === 0x59;
  if (isService && bytes[1] !== 0x02) {
    return [];
  }
  // On CAN the number of codes comes first, so that the whole has an even number of bytes.
  const rest = bytes.slice(isService ? 3 : 2 - (bytes.length % 2));
  const [width, step] = isService ? [3, 4] : [2, 2];
  /** @type {Map<string, FaultCode>} */
  const found = new Map();
  for (let at = 0; at + width <= rest.length; at += step) {
    const code = rest.slice(at, at + width);
    if (code.some(Boolean)) {
      const each = codeFromBytes(code, standard, tables);
      found.set(each.text, each);
    }
  }
  return [...found.values()];
}

/** @param {string} told @param {string} standard @param {CodeTables} tables @returns {?FaultCode} */
function announcedCode(told, standard, tables) {
  const bare = told.replace(/^[ ?!.]+|[ ?!.]+$/g, "");
  const bytes = BYTES.exec(bare) ?? PAIR.exec(bare);
  if (bytes) {
    const given = bytes.slice(1).filter(Boolean);
    return codeFromBytes(given.map((byte) => Number.parseInt(byte, 16)), standard, tables);
  }
  const short = SHORT.exec(bare);
  return short && { format: standard, text: `${short[1]}0${short[2] ?? short[3]}`.toUpperCase() };
}

/** The number that a piece of a text counts; null where it counts none. @param {string} piece */
export function counted(piece) {
  const digit = /^(?:([1-9])x?|x([1-9]))$/.exec(piece);
  return NUMBERS.get(piece) ?? digit?.[1] ?? digit?.[2] ?? null;
}

/**
 * Counted blinks as numbers with hyphens, where the whole text counts blinks.
 * @param {string} told
 */
function lampCounts(told) {
  const pieces = told.toLowerCase().match(/[\p{L}\p{N}]+|[,;+]/gu) ?? [];
  const counts = pieces.map(counted);
  const kinds = pieces.map((piece) => (LONG.test(piece) ? "l" : SHORTER.test(piece) ? "s" : ""));
  if (!pieces.every((piece, at) => counts[at] ?? (kinds[at] || BLINK.test(piece) || BETWEEN.test(piece)))) {
    return null;
  }
  const numbers = counts.filter((count) => count !== null);
  const row = kinds.join("");
  if (numbers.length > 1) {
    return row || pieces.some((piece) => BLINK.test(piece)) ? numbers.join("-") : null;
  }
  const runs = /^(l+)(s+)$/.exec(row);
  return !numbers.length && runs ? `${runs[1].length}-${runs[2].length}` : null;
}
