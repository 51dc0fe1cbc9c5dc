/**
 * From what an owner types to the answers, best first. Pure: no document, no network.
 *
 * The order, one group after the other, each entry once:
 *   1. exact   the code that was typed, then each fault that has it: those it is the root code of before those that
 *              only have it as a consequence
 *   2. failure the same code with another failure type or none, then its faults. Two different failure types never
 *              meet, but a reader that shows none and an entry that names one must
 *   3. unknown the text is a code, but no entry has it: it is told as such, and leads to the list of all codes
 *   4. near    then the codes that one slip of the thumb turns it into, those with another failure type among them,
 *              and the way to contribute
 *   5. part    the text is part of a code: codes that begin with it, then codes that hold it
 *   6. words   the score of `core/words.js`
 * 5 and 6 only where the text is no code. Where nothing is found, the list of all codes and the way to contribute.
 *
 * @typedef {{kind: string, address: string, title: string, ride: ?string, system: ?string, models: string[][],
 *            words: Object<string, string[]>, format?: string, faults?: [number, boolean][]}} Entry
 * @typedef {{why: string, entry: Entry, matched: string[]}} Answer
 */

import { readCode, structure } from "./codes.js";
import { findByWords, lettersAmiss, sameMeanings, wordIndex, wordsOf } from "./words.js";

/** Answers that are shown; more would not be read at the bike. */
export const MOST_ANSWERS = 12;

const MOST_NEAR = 4;

/** What `finder_data` gave, made ready for searching once. */
export function prepare(data) {
  const codes = data.entries.filter((entry) => entry.kind === "code");
  return {
    data,
    codes,
    byCode: new Map(codes.map((entry) => [key(entry.format, entry.title), entry])),
    words: wordIndex(data.entries),
    meanings: sameMeanings(data.words),
  };
}

/**
 * The answers to a text.
 *
 * Returns {codes: what the text was read as, told by its structure; known: whether any entry answers it;
 * answers: best first, at most `most`, never none; more: how many were left off}.
 */
export function find(text, index, most = MOST_ANSWERS) {
  const { data } = index;
  const codes = readCode(text, data.formats, data.tables).matches.map((code) => ({
    code,
    parts: structure(code, data.formats, data.tables),
  }));
  const found = once(codes.length ? answersToCodes(codes, index) : answersToText(text, index));
  const answers = found.length ? found : [leadOn(data.pages.codes, "All codes that entries have"), ...contribute(index)];
  return {
    codes,
    known: found.some(({ why }) => why !== "unknown" && why !== "near"),
    answers: answers.slice(0, most),
    more: Math.max(0, answers.length - most),
  };
}

function answersToCodes(codes, index) {
  const exact = codes.flatMap(({ code }) => withFaults(index.byCode.get(key(code.format, code.text)), "exact", index));
  const failure = codes.flatMap((each) => otherFailureTypes(each, index));
  if (exact.length || failure.length) {
    return [...exact, ...failure];
  }
  return [
    ...codes.map((each) => unknown(each, index)),
    ...codes.flatMap(({ code }) => nearCodes(code, index)),
    ...contribute(index),
  ];
}

function otherFailureTypes({ code, parts }, index) {
  if (parts.system === null) {
    return [];
  }
  const found = parts.failure_type
    ? [index.byCode.get(key(code.format, parts.base.text))]
    : index.codes.filter((entry) => entry.format === code.format && entry.title.startsWith(`${code.text}-`));
  return found.flatMap((entry) => withFaults(entry, "failure", index));
}

function withFaults(entry, why, index) {
  if (!entry) {
    return [];
  }
  const faults = entry.faults.map(([place]) => index.data.entries[place]);
  return [entry, ...faults].map((each) => ({ why, entry: each, matched: [entry.title] }));
}

/** An answer for a code that no entry has: never silence, and never "no restriction". */
function unknown({ code, parts }, { data }) {
  const told = [
    parts.system && `System: ${parts.system}`,
    parts.controlled_by && `Meaning given by ${data.controls[parts.controlled_by]}`,
    parts.failure_type?.meaning && `Failure type ${parts.failure_type.code}: ${parts.failure_type.meaning}`,
  ].filter(Boolean);
  const entry = {
    kind: "none",
    address: data.pages.codes,
    title: `${code.text}: no entry has this code`,
    ride: "unknown",
    system: null,
    models: [],
    words: { told },
  };
  return { why: "unknown", entry, matched: [] };
}

function contribute({ data }) {
  return data.pages.contribute ? [leadOn(data.pages.contribute, "You know what it was? Tell the club")] : [];
}

function leadOn(address, title) {
  const entry = { kind: "page", address, title, ride: null, system: null, models: [], words: {} };
  return { why: "unknown", entry, matched: [] };
}

function nearCodes(code, index) {
  const base = code.text.split("-")[0];
  const slips = (entry) =>
    Math.min(lettersAmiss(code.text, entry.title, 1), lettersAmiss(base, entry.title.split("-")[0], 1));
  return index.codes
    .filter((entry) => entry.format === code.format && base.length > 3 && slips(entry) <= 1)
    .slice(0, MOST_NEAR)
    .map((entry) => ({ why: "near", entry, matched: [entry.title] }));
}

function answersToText(text, index) {
  return [
    ...partsOfCodes(text, index),
    ...findByWords(text, index.words, index.meanings).map(({ place, matched }) => ({
      why: "words",
      entry: index.data.entries[place],
      matched,
    })),
  ];
}

/** Codes of which the text is a part: a digit must be in it, or any word would do. */
function partsOfCodes(text, { codes }) {
  const part = wordsOf(text).join("").toUpperCase();
  const plain = (entry) => entry.title.replaceAll("-", "");
  const answer = (entry) => ({ why: "part", entry, matched: [entry.title] });
  if (!/[0-9]/.test(part) || part.length < 2) {
    return [];
  }
  const begins = codes.filter((entry) => plain(entry).startsWith(part));
  const holds = part.length < 3 ? [] : codes.filter((entry) => plain(entry).includes(part));
  return [...begins, ...holds].map(answer);
}

function once(answers) {
  const seen = new Set();
  return answers.filter(({ entry }) => !seen.has(entry) && seen.add(entry));
}

function key(format, text) {
  return JSON.stringify([format, text]);
}
