/**
 * What was asked in words: the telling ones, in the terms that the index has for them and for several of them together.
 * Pure: no document, no network.
 *
 * A phrase is a term in two ways. Words in a row are written together (`side stand` is `sidestand`). Two or three words
 * near each other, in whatever order, stand in the order of the alphabet with a sign between them (`clutch+slip`), which
 * is how `kbtools/browser_data/finder/kin.py` writes what the vocabulary has. And what was asked as a
 * whole may be what an entry says in a clause of its own: such a term begins with a sign.
 *
 * @typedef {{words: string[], stems: string[], year: ?number}} Asked
 */

import { stem, wordsOf } from "./words.js";

/** Words of a phrase that the index may have as one term. */
export const LONGEST_PHRASE = 4;
/** Words of a query that are looked at; more would be a story. */
const MOST_WORDS = 16;
/** Other words that may stand between those of a phrase. */
const LOOSE_GAP = 2;
/** What a phrase loses for each of them. */
const LOOSE = 0.9;
/** A phrase explains all of its words. */
const PHRASE_POWER = -0.2;
/** In other scripts one sign may be a word. */
const LAST_LATIN = "\u024f";
/** A reading of voltage is one word, in whole volts: how owners say it, and what the vocabulary has. */
const VOLTS = /(?<![\p{L}\p{N}.,])(\d{1,2})(?:[.,]\d+)?\s*v(?:olts?)?(?![\p{L}\p{N}])/giu;

/**
 * The words of a text without those that say nothing, unless there are no others; a year apart.
 * @param {string} text @param {FinderRoot} root @returns {Asked}
 */
export function cut(text, root) {
  const stops = new Set(root.stop_words);
  const all = wordsOf(text.replace(VOLTS, "$1v volts")).flatMap((word) => word.match(/^(\p{L}{3,})(\p{N}{2,})$/u)?.slice(1) ?? [word]);
  const telling = all.filter((word) => !stops.has(word));
  /** @param {string} word */
  const isYear = (word) => /^(?:19|20)[0-9]{2}$/.test(word);
  // A letter or a figure by itself names nothing: "E-37" is not about whatever has an E.
  const long = telling.filter((word) => word.length > 1 || word > LAST_LATIN);
  const words = (long.length ? long : telling.length ? telling : all).filter((word) => !isYear(word)).slice(0, MOST_WORDS);
  return { words, stems: words.map(stem), year: Number(telling.find(isYear)) || null };
}

/**
 * What was asked, as terms: each word, and runs of words as one. `own` leaves out what stands only before a lamp's name
 * and so belongs to it: who has "no brake light" has brakes.
 * @param {Asked} query @param {string[]} mended what misspelt words may mean @param {FinderRoot} root
 */
export function askedTerms(query, mended, { lamps }) {
  const all = runs(query, LONGEST_PHRASE);
  /** @param {number} at */
  const namesLamp = (at) => lamps.includes(query.stems[at]) && !query.words[at - 1].endsWith("s");
  const own = all.filter(([, from, length]) => !namesLamp(from + length));
  const [terms, ownTerms] = [all, own].map((some) => [...new Set([...some.map(([term]) => term), ...mended])]);
  return { all: terms, own: ownTerms };
}

/**
 * What was asked as a whole, as the term of an entry's whole clause.
 * @param {Asked} query
 */
export function wholeOf({ stems }) {
  return `=${[...new Set(stems)].sort().join("+")}`;
}

/**
 * Every run of the query's words as one term: [term, where it begins, number of words, as it is written together].
 * @param {Pick<Asked, "stems" | "words">} query @param {number} longest
 * @returns {[term: string, from: number, length: number, written: string][]}
 */
export function runs({ stems, words }, longest) {
  return stems.flatMap((_, from) =>
    Array.from({ length: Math.min(longest, stems.length - from) }, (__, more) => [
      stems.slice(from, from + more + 1).join(""),
      from,
      more + 1,
      stem(words.slice(from, from + more + 1).join("")),
    ]),
  );
}

/**
 * The phrases of the query that the word at a place belongs to, as terms, and how near each is.
 * @param {Asked} query @param {number} at @returns {[term: string, near: number][]}
 */
export function phrasesAt(query, at) {
  const found = looseAt(query.stems, at);
  for (const [term, from, length, written] of runs(query, LONGEST_PHRASE)) {
    if (length > 1 && from <= at && at < from + length) {
      const near = length ** -PHRASE_POWER;
      found.push([term, near], [written, near]);
    }
  }
  return found;
}

/**
 * Every two and three words near each other of which one stands at a place, in whatever order, as one term.
 * @param {string[]} stems @param {number} at @returns {[term: string, near: number][]}
 */
function looseAt(stems, at) {
  /** @type {[term: string, near: number][]} */
  const found = [];
  /** @param {number[]} places */
  const take = (...places) => {
    const last = places[places.length - 1];
    const words = places.map((place) => stems[place]);
    const left = stems.slice(places[0], last).filter((_, step) => !places.includes(places[0] + step));
    if (places.includes(at) && new Set(words).size === places.length && stems[last] !== "not" && !left.includes("not")) {
      const between = last - places[0] + 1 - places.length;
      found.push([words.sort().join("+"), places.length ** -PHRASE_POWER * LOOSE ** between]);
    }
  };
  const span = 3 + LOOSE_GAP;
  for (let one = Math.max(0, at - span); one <= at; one += 1) {
    for (let two = one + 1; two < Math.min(stems.length, one + 2 + LOOSE_GAP); two += 1) {
      take(one, two);
      for (let three = two + 1; three < Math.min(stems.length, one + 3 + LOOSE_GAP); three += 1) {
        take(one, two, three);
      }
    }
  }
  return found;
}
