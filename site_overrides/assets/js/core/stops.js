/**
 * What a club wants said first, whatever was found: `stop_now` in cautions.yml. Pure: no document, no network.
 */

/**
 * The sentences for what was asked, each once. A phrase is asked for by all of its words, in any order and among
 * others; each of them may be told by another word, which the build has looked up.
 * @param {string[]} asked terms of the question, slips mended, runs of words as one term
 * @param {Pick<FinderRoot, "stop_now">} root
 */
export function stopsFor(asked, { stop_now: rows }) {
  const terms = new Set(asked);
  /** @param {string[]} told */
  const isTold = (told) => told.some((term) => terms.has(term));
  return rows.filter(({ asked: ways }) => ways.some((words) => words.every(isTold))).map(({ say }) => say);
}
