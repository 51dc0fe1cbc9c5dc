/**
 * Entries by words, best first. Pure but for the files that `shelves` fetches.
 *
 * Each typed word stands for the terms that it may mean, and each of them has a nearness:
 *   1            the term itself
 *   above 1      a phrase that it is a word of, the more the longer, less for each other word between (`asked.js`), and
 *                a clause of an entry that is all that was asked
 *   0.6 to 0.95  a term that begins with the word, the nearer the longer; of the last word, which may be half typed,
 *                from two letters on, of others from three and only where the term itself is not there
 *   0.7, 0.45    one and two letters amiss, where nothing else fits: none of three letters, one up to seven, two from
 *                eight on
 * An entry's score is the sum over the typed words of the greatest nearness × BM25 weight (`finder/bm25.py`), times
 * the root of the share of the query that the entry accounts for, each word by its rarity, and by 4 or 1.6 if it is a
 * model, system or component of whose name all or one end was typed, and nothing else. Entries that account for less than
 * a third of the query, or have less than a fifth of the best score, are left out: a query must not find everything.
 * Scores that differ by less than some three in a hundred count as equal; then the entry with more case reports comes first.
 *
 * @typedef {import("./asked.js").Asked} Asked
 * @typedef {{term: string, near: number, places: number[], weights: number[]}} Term
 * @typedef {{rare: number, terms: Term[]}} Weighed
 * @typedef {Weighed & {mended: string[]}} Position
 */

import { askedTerms, cut, phrasesAt, runs, wholeOf } from "./asked.js";
import { risen } from "./shelves.js";
import { lettersAmiss, lettersForgiven, stem } from "./words.js";

const AMISS = [1, 0.7, 0.45];
const NAMED = 4;
const HALF_NAMED = 1.6;
/** Of a name's beginning or end. */
const LEAST_NAME = 4;
const OTHER_MACHINE = 0.6;
const SHARE_POWER = 0.5;
/** Of the one word that a misspelt one may mean, once it is read as that. */
const MENDED = 0.85;
const LEAST_SHARE = 0.33;
const LEAST_OF_BEST = 0.2;
const STEP = Math.log(1.03);
const MOST_BEGINNINGS = 16;
const MOST_NEAR = 6;
const MOST_FILES = 2;
/** What a word counts for that says little by itself. */
const LIGHT = 0.3;
/** What a word counts for that no entry has, beside one that few have. */
const UNKNOWN = 0.55;
const LONGEST_NAME = 5;

/**
 * Entries by words.
 *
 * Returns {found: places, best first; matched: place → the terms by which it was found; machine: {model, year, alone}
 * where a model's name was typed, perhaps with a year, and whether nothing else was; else null}.
 * @param {string} text @param {Shelves} shelves
 */
export async function findByWords(text, shelves) {
  const query = cut(text, shelves.root);
  const typed = await Promise.all(query.words.map((_, at) => termsAt(query, at, shelves)));
  const mended = { ...query, stems: query.stems.map((stemmed, at) => meantBy(stemmed, typed[at])) };
  const positions = await asMeant(query, mended, typed, shelves);
  const machine = machineOf(mended, shelves.root);
  const { scores, shares, fits: fit, found } = summed(positions, shelves.root);
  const named = namesIn(mended, shelves.root);
  const fits = machine?.year ? await shelves.bike({ model: machine.model.id, year: machine.year }) : null;
  const ranked = [];
  for (const place of found) {
    if (shares[place] >= LEAST_SHARE) {
      const other = fits && place < shelves.root.concerned && !fits.has(place) ? OTHER_MACHINE : 1;
      const score = scores[place] * shares[place] ** SHARE_POWER * (named.get(place) ?? 1) * other;
      ranked.push({ place, score, share: shares[place], fit: fit[place], named: named.get(place) ?? 1, step: Math.round(Math.log(score) / STEP) });
    }
  }
  const least = LEAST_OF_BEST * ranked.reduce((most, { score }) => Math.max(most, score), 0);
  ranked.sort((left, right) => right.step - left.step || left.place - right.place);
  return {
    found: ranked.filter(({ score }) => score >= least),
    machine,
    asked: askedTerms(query, positions.flatMap((position) => position.mended), shelves.root),
    /** @param {number} place */
    matched: (place) => matched(place, positions, shelves.root),
  };
}

/**
 * What the words may mean once those that are misspelt are read as the one that each may mean: `turn signel` is a phrase.
 * @param {Asked} query @param {Asked} mended @param {Position[]} typed @param {Shelves} shelves
 * @returns {Promise<Position[]>}
 */
async function asMeant(query, mended, typed, shelves) {
  const wasMended = typed.map((_, at) => query.stems[at] !== mended.stems[at]);
  if (!wasMended.includes(true)) {
    return typed;
  }
  const words = query.words.map((word, at) => (wasMended[at] ? mended.stems[at] : word));
  const again = await Promise.all(words.map((_, at) => termsAt({ ...mended, words }, at, shelves)));
  return again.map((position, at) =>
    wasMended[at]
      ? { ...position, terms: position.terms.map((term) => ({ ...term, near: MENDED * term.near })), mended: typed[at].mended }
      : position,
  );
}

/** The one term that a misspelt word may mean, else its own. @param {string} stemmed @param {Position} position */
function meantBy(stemmed, { mended }) {
  return mended.length === 1 ? mended[0] : stemmed;
}

/**
 * Place → by how much the score of a model, system or component rises whose name was typed and nothing else.
 * @param {Asked} query @param {FinderRoot} root
 */
function namesIn({ stems }, root) {
  const typed = stems.join("");
  /** @param {string} name */
  const isHalf = (name) => typed.length >= LEAST_NAME && (name.startsWith(typed) || name.endsWith(typed));
  /** @type {Map<number, number>} */
  const found = new Map();
  for (const [name, place] of root.names) {
    const rise = name === typed ? NAMED : isHalf(name) ? HALF_NAMED : 1;
    found.set(place, Math.max(found.get(place) ?? 1, rise));
  }
  return found;
}

/** @param {Asked} query @param {FinderRoot} root */
function machineOf(query, root) {
  const models = new Map(root.models.map((model) => [model.place, model]));
  const called = new Map(root.names.filter(([, place]) => models.has(place)));
  /** @type {?{model: FinderModel, length: number}} */
  let best = null;
  for (const [name, , length] of runs(query, LONGEST_NAME)) {
    const model = models.get(called.get(name) ?? -1);
    if (model && length > (best?.length ?? 0)) {
      best = { model, length };
    }
  }
  if (best === null) {
    return null;
  }
  const { first, last } = best.model;
  const year = query.year && query.year >= first && query.year <= last ? query.year : null;
  return { model: best.model, year, alone: best.length === query.words.length };
}

/**
 * What the word at a place may mean, and the terms that it is one slip away from where it is none itself.
 * @param {Asked} query @param {number} at @param {Shelves} shelves
 */
async function termsAt(query, at, shelves) {
  /** @type {Map<string, number>} */
  const near = new Map();
  /** @param {string} term @param {number} value */
  const put = (term, value) => near.set(term, Math.max(near.get(term) ?? 0, value));
  const word = query.stems[at];
  const isLast = at === query.words.length - 1;
  put(word, 1);
  for (const [term, value] of phrasesAt(query, at)) {
    put(term, value);
  }
  put(wholeOf(query), 1);
  const typed = query.words[at];
  if (shelves.root.light_words.includes(word)) {
    near.set(word, LIGHT);
  }
  const terms = await postings(near, shelves);
  const isKnown = terms.some(({ term }) => term === word);
  // A whole word is what was meant; only the last one may be half typed.
  const begun = isKnown || typed.length < (isLast ? 2 : 3) ? [] : await beginnings(typed, shelves);
  terms.push(...begun);
  const slips = isKnown || begun.length ? { words: [], terms: [] } : await misspelt(query, at, shelves);
  terms.push(...slips.terms);
  const isLight = shelves.root.light_words.includes(word);
  const rare = (isLight ? LIGHT : 1) * rarityOf(terms, word, shelves.root);
  return { rare: terms.length ? rare : typed.length <= 2 ? 0 : UNKNOWN * rare, terms, mended: slips.words };
}

/**
 * A word that no entry has counts as much as one that one entry in a hundred has.
 * @param {Term[]} terms @param {string} word @param {FinderRoot} root
 */
function rarityOf(terms, word, { size }) {
  const best = terms.find(({ term }) => term === word) ?? [...terms].sort((one, two) => two.near - one.near)[0];
  const count = best ? best.places.length : Math.max(1, size / 100);
  return Math.log(1 + (size - count + 0.5) / (count + 0.5));
}

/** @param {Map<string, number>} near @param {Shelves} shelves */
async function postings(near, shelves) {
  const found = await Promise.all(
    [...near].map(async ([term, value]) => posting(term, value, await shelves.value("terms", term))),
  );
  return found.filter(Boolean);
}

/** @template {?FinderPosting} P @param {string} term @param {number} near @param {P} value */
function posting(term, near, value) {
  return value && { term, near, places: risen(value[0]), weights: value[1] };
}

/** @param {string} word @param {Shelves} shelves */
async function beginnings(word, shelves) {
  const longer = (await shelves.beginning("terms", word, MOST_FILES)).filter(([term]) => term !== word && !term.includes("+"));
  return longer
    .sort(([one], [two]) => one.length - two.length)
    .slice(0, MOST_BEGINNINGS)
    .map(([term, value]) => posting(term, 0.6 + (0.35 * word.length) / term.length, value));
}

/** @param {Asked} query @param {number} at @param {Shelves} shelves */
async function misspelt(query, at, shelves) {
  const typed = query.words[at];
  const limit = lettersForgiven(typed.length);
  if (limit === 0 || !/\p{L}/u.test(typed)) {
    return { words: [], terms: [] };
  }
  /** @param {string} text */
  const turned = (text) => Array.from(text).reverse().join("");
  let close = closest(typed, await shelves.wordsAround("start", typed), limit);
  if (close.least > 1) {
    const ends = (await shelves.wordsAround("end", turned(typed))).map(turned);
    close = closest(typed, [...new Set([...close.words, ...ends])], limit);
  }
  const words = [...new Set(close.words.map(stem))];
  const near = new Map(words.map((term) => [term, AMISS[close.least]]));
  return { words: close.least > 1 ? [] : words, terms: await postings(near, shelves) };
}

/**
 * The words with the fewest letters amiss, and how many those are.
 * @param {string} word @param {string[]} words @param {number} limit
 */
function closest(word, words, limit) {
  let least = limit;
  /** @type {string[]} */
  let found = [];
  for (const other of words) {
    const amiss = lettersAmiss(word, other, least);
    if (amiss < least) {
      [least, found] = [amiss, [other]];
    } else if (amiss === least) {
      found.push(other);
    }
  }
  return { least: found.length ? least : Infinity, words: found.slice(0, MOST_NEAR) };
}

/** @type {WeakMap<FinderRoot, Map<string, string[]>>} */
const groupMaps = new WeakMap();

/**
 * Member of one of the club's groups of equal words, as one term → the words of all members.
 * @param {FinderRoot} root @returns {Map<string, string[]>}
 */
function groupsOf(root) {
  if (!groupMaps.has(root)) {
    /** @type {Map<string, string[]>} */
    const found = new Map();
    for (const members of root.groups) {
      for (const member of members.map((stems) => stems.join(""))) {
        found.set(member, [...(found.get(member) ?? []), ...members.flat()]);
      }
    }
    groupMaps.set(root, found);
  }
  return /** @type {Map<string, string[]>} */ (groupMaps.get(root));
}

/**
 * Scores by place, the shares of the query that the entries account for by place, and the places that have any.
 * Plain arrays over all entries: at tens of thousands of postings maps would take ten times as long.
 * @param {Weighed[]} positions @param {{scale: number, size: number}} root
 */
export function summed(positions, { scale, size }) {
  const scores = new Float64Array(size);
  const shares = new Float64Array(size);
  const fits = new Float64Array(size);
  const best = new Float64Array(size);
  const asked = positions.reduce((sum, { rare }) => sum + rare, 0) || 1;
  const found = [];
  for (const { rare, terms } of positions) {
    const touched = [];
    let most = 0;
    for (const { near, places, weights } of terms) {
      for (let at = 0; at < places.length; at += 1) {
        const place = places[at];
        const score = (near * weights[at]) / scale;
        if (best[place] === 0) {
          touched.push(place);
        }
        if (score > best[place]) {
          best[place] = score;
          most = Math.max(most, score);
        }
      }
    }
    for (const place of touched) {
      if (shares[place] === 0) {
        found.push(place);
      }
      scores[place] += best[place];
      shares[place] += rare / asked;
      fits[place] += (rare / asked) * (best[place] / most);
      best[place] = 0;
    }
  }
  return { scores, shares, fits, found };
}

/**
 * The terms by which an entry was found; for a group of equal words its members.
 * @param {number} place @param {Position[]} positions @param {FinderRoot} root
 */
function matched(place, positions, root) {
  const terms = positions.flatMap((position) =>
    position.terms.filter(({ places }) => places.includes(place)).map(({ term }) => term),
  );
  const groups = groupsOf(root);
  return [...new Set(terms.flatMap((term) => [term, ...(groups.get(term) ?? [])]))];
}
