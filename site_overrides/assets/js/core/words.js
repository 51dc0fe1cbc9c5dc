/**
 * Texts cut into terms, as `kbtools/browser_data/finder/terms.py` cuts them: both are held to `tests/vectors/finder_words.json`.
 *
 * Pure: no document, no network.
 */

import { stem as withoutEnding } from "./stem.js";

/** Every negation is one term. */
const NOT = /^(?:no|not|never|none|nothing|without|cannot|aint|neither|nor|dosnt|dosent|doesent|(?:ca|wo|do|does|did|is|was|are|were|has|have|had|would|could|should)nt)$/;

/** The term of a word: without its ending, all negations one. @param {string} word */
export function stem(word) {
  return NOT.test(word) ? "not" : withoutEnding(word);
}

/** The words of a text: lower case, without accents, letters and digits only; `won't` is one word. @param {string} text */
export function wordsOf(text) {
  return (
    text
      .replace(/(?<=[\p{L}\p{N}])['’ʼ`´](?=[\p{L}\p{N}])/gu, "")
      .normalize("NFD")
      .replace(/\p{M}+/gu, "")
      .toLowerCase()
      .match(/[\p{L}\p{N}]+/gu) ?? []
  );
}

/**
 * The number of letters that were left out, added, changed or swapped with their neighbour; Infinity above `limit`.
 * The restricted kind: no letter is touched twice.
 * @param {string} left @param {string} right @param {number} limit
 */
export function lettersAmiss(left, right, limit) {
  if (Math.abs(left.length - right.length) > limit) {
    return Infinity;
  }
  /** @type {number[]} */
  let before = [];
  let row = Array.from({ length: right.length + 1 }, (_, at) => at);
  for (let i = 1; i <= left.length; i += 1) {
    const next = [i];
    let least = i;
    for (let j = 1; j <= right.length; j += 1) {
      const changed = row[j - 1] + (left[i - 1] === right[j - 1] ? 0 : 1);
      next[j] = Math.min(changed, row[j] + 1, next[j - 1] + 1);
      if (i > 1 && j > 1 && left[i - 1] === right[j - 2] && left[i - 2] === right[j - 1]) {
        next[j] = Math.min(next[j], before[j - 2] + 1);
      }
      least = Math.min(least, next[j]);
    }
    if (least > limit) {
      return Infinity;
    }
    [before, row] = [row, next];
  }
  return row[right.length] <= limit ? row[right.length] : Infinity;
}

/** How many letters may be amiss in a word of that length. @param {number} length */
export function lettersForgiven(length) {
  return length < 4 ? 0 : length < 8 ? 1 : 2;
}
