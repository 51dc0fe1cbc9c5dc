/**
 * Finding entries by words: exact, by their beginning, misspelt, or by another word that means the same.
 *
 * Pure: no document, no network.
 *
 * An entry's score is the sum over the query's words of
 *   rarity(word found) × weight(field it stands in) × nearness(typed, found)
 * taking for each typed word the best word of the entry, times the square of the share of the query that it accounts
 * for, 1.5 if the query has every word of the entry's title or of one of its names, and 0.9 if the entry is a code: a
 * fault says more than a code that it has. Entries that account for less than half of the query are left out: a query
 * must not find everything. Of equals the shorter title comes first.
 *   rarity     ln(1 + entries / entries that have the word); a word that no entry has counts as the rarest
 *   weight     by field, see WEIGHTS
 *   nearness   1 for the word itself, 0.9 for one that means the same, 0.6 to 0.95 for a beginning, the nearer the
 *              longer, and 0.7 and 0.45 for one and two letters amiss
 */

const WEIGHTS = {
  title: 3,
  names: 3,
  symptoms: 2.5,
  meanings: 2,
  causes: 1.5,
  components: 1.5,
  system: 1,
  models: 1,
  units: 1,
};

const WHOLE_NAME = 1.5;
const CODE = 0.9;
const SAME_MEANING = 0.9;
const AMISS = [1, 0.7, 0.45];

/** The words of a text: lower case, without accents, letters and digits only. */
export function wordsOf(text) {
  return (
    text
      .normalize("NFD")
      .replace(/\p{M}+/gu, "")
      .toLowerCase()
      .match(/[\p{L}\p{N}]+/gu) ?? []
  );
}

/**
 * The number of letters that were left out, added, changed or swapped with their neighbour; Infinity above `limit`.
 * The restricted kind: no letter is touched twice.
 */
export function lettersAmiss(left, right, limit) {
  if (Math.abs(left.length - right.length) > limit) {
    return Infinity;
  }
  let before = [];
  let row = Array.from({ length: right.length + 1 }, (_, at) => at);
  for (let i = 1; i <= left.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= right.length; j += 1) {
      const changed = row[j - 1] + (left[i - 1] === right[j - 1] ? 0 : 1);
      next[j] = Math.min(changed, row[j] + 1, next[j - 1] + 1);
      if (i > 1 && j > 1 && left[i - 1] === right[j - 2] && left[i - 2] === right[j - 1]) {
        next[j] = Math.min(next[j], before[j - 2] + 1);
      }
    }
    if (Math.min(...next) > limit) {
      return Infinity;
    }
    [before, row] = [row, next];
  }
  return row[right.length] <= limit ? row[right.length] : Infinity;
}

/** How many letters may be amiss in a word of that length. */
export function lettersForgiven(length) {
  return length < 4 ? 0 : length < 8 ? 1 : 2;
}

/** How near the typed word comes to one of an entry, 0 to 1; see the head of this file. */
export function nearness(typed, word, isLast) {
  if (typed === word) {
    return 1;
  }
  // A word that is still being typed counts from its second letter.
  if (typed.length >= (isLast ? 2 : 3) && word.startsWith(typed)) {
    return 0.6 + (0.35 * typed.length) / word.length;
  }
  const amiss = lettersAmiss(typed, word, lettersForgiven(typed.length));
  return AMISS[amiss] ?? 0;
}

/** The words of all entries: word → entry's place → weight of the best field that it stands in; and their names. */
export function wordIndex(entries) {
  const postings = new Map();
  entries.forEach((entry, place) => {
    for (const [field, texts] of [["title", [entry.title]], ...Object.entries(entry.words)]) {
      for (const word of texts.flatMap(wordsOf)) {
        const weights = postings.get(word) ?? new Map();
        weights.set(place, Math.max(weights.get(place) ?? 0, WEIGHTS[field] ?? 1));
        postings.set(word, weights);
      }
    }
  });
  const names = entries.map((entry) => [entry.title, ...(entry.words.names ?? [])].map(wordsOf));
  return { postings, names, kinds: entries.map((entry) => entry.kind), size: entries.length };
}

/** Word → the other words of the groups that it stands in. Groups of one word each; a longer text is cut into words. */
export function sameMeanings(groups) {
  const found = new Map();
  for (const group of groups) {
    const members = group.map((text) => wordsOf(text).join(""));
    for (const word of members) {
      found.set(word, new Set([...(found.get(word) ?? []), ...members.filter((other) => other !== word)]));
    }
  }
  return found;
}

/** Entries by words, best first: [{place, score, matched: words found}]. */
export function findByWords(query, index, meanings) {
  const typed = [...new Set(wordsOf(query))];
  const rarest = rarity(1, index);
  const totals = new Map();
  let asked = 0;
  typed.forEach((word, at) => {
    const best = bestByEntry(word, at === typed.length - 1, index, meanings);
    asked += best.size ? Math.max(...[...best.values()].map((hit) => hit.rare)) : rarest;
    for (const [place, hit] of best) {
      const total = totals.get(place) ?? { place, score: 0, found: 0, matched: [] };
      total.score += hit.score;
      total.found += hit.rare;
      total.matched.push(hit.word);
      totals.set(place, total);
    }
  });
  return [...totals.values()]
    .filter((total) => total.found >= asked / 2)
    .map((total) => ({ place: total.place, matched: total.matched, score: weighed(total, asked, index) }))
    .sort(
      (left, right) =>
        right.score - left.score || titleLength(left, index) - titleLength(right, index) || left.place - right.place,
    );
}

function weighed({ place, score, found, matched }, asked, index) {
  const isNamed = index.names[place].some((name) => name.length > 0 && name.every((word) => matched.includes(word)));
  const isCode = index.kinds[place] === "code";
  return score * Math.min(1, found / asked) ** 2 * (isNamed ? WHOLE_NAME : 1) * (isCode ? CODE : 1);
}

function titleLength({ place }, index) {
  return index.names[place][0].length;
}

function rarity(count, index) {
  return Math.log(1 + index.size / count);
}

/** For one typed word: entry's place → its best word, with score and rarity. */
function bestByEntry(typed, isLast, index, meanings) {
  const alike = meanings.get(typed) ?? new Set();
  const best = new Map();
  for (const [word, weights] of index.postings) {
    const near = Math.max(nearness(typed, word, isLast), alike.has(word) ? SAME_MEANING : 0);
    if (near > 0) {
      const rare = rarity(weights.size, index);
      for (const [place, weight] of weights) {
        const score = rare * weight * near;
        if (score > (best.get(place)?.score ?? 0)) {
          best.set(place, { word, score, rare });
        }
      }
    }
  }
  return best;
}
