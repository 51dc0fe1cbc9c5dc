/** Which words of a text are those that were found. Pure: no document, no network. */

import { stem, wordsOf } from "./words.js";

const WORDS = /[\p{L}\p{M}\p{N}]+(?:[-‐‑][\p{L}\p{M}\p{N}]+)*/gu;

/**
 * The text cut where marked and unmarked words meet: [[text, is marked], …]; together they are the whole text.
 * @param {string} text @param {string[]} terms
 */
export function marked(text, terms) {
  const wanted = new Set(terms);
  /** @type {[text: string, isMarked: boolean][]} */
  const pieces = [];
  /** @param {string} piece @param {boolean} isMarked */
  const put = (piece, isMarked) => {
    const last = pieces.at(-1);
    if (piece && last?.[1] === isMarked) {
      last[0] += piece;
    } else if (piece) {
      pieces.push([piece, isMarked]);
    }
  };
  let end = 0;
  for (const match of text.matchAll(WORDS)) {
    put(text.slice(end, match.index), false);
    const own = wordsOf(match[0]);
    const isWhole = own.length > 1 && wanted.has(stem(own.join("")));
    for (const piece of isWhole ? [match[0]] : match[0].split(/([-‐‑])/)) {
      put(piece, isWhole || wordsOf(piece).some((word) => wanted.has(stem(word))));
    }
    end = match.index + match[0].length;
  }
  put(text.slice(end), false);
  return pieces;
}

/**
 * The text in which most of the terms stand that do not stand in the title; null where none does.
 * @param {string[]} texts @param {string} title @param {string[]} terms
 */
export function tellingText(texts, title, terms) {
  const inTitle = new Set(wordsOf(title).map(stem));
  const wanted = new Set(terms);
  let best = null;
  let most = 0;
  for (const text of texts) {
    const found = new Set(wordsOf(text).map(stem).filter((term) => wanted.has(term)));
    const weight = [...found].reduce((sum, term) => sum + (inTitle.has(term) ? 0.1 : 1), 0);
    if (weight > most && text !== title) {
      [best, most] = [text, weight];
    }
  }
  return best;
}
