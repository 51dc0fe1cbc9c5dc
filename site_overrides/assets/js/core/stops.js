/**
 * What a club wants said first, whatever was found: `stop_now` in cautions.yml. Pure: no document, no network.
 */

/**
 * The sentences for what was asked, each once. A phrase is asked for by all of its words, in any order and among
 * others; each of them may be told by another word, which the build has looked up. What only names a lamp
 * counts where the phrase is about a lamp.
 * @param {ByWords["asked"]} asked @param {Pick<FinderRoot, "stop_now" | "lamps">} root
 */
export function stopsFor(asked, { stop_now: rows, lamps }) {
  const [all, own] = [new Set(asked.all), new Set(asked.own)];
  /** @param {string[][]} words */
  const isAsked = (words) => {
    const terms = words.some((told) => told.some((term) => lamps.includes(term))) ? all : own;
    return words.every((told) => told.some((term) => terms.has(term)));
  };
  return rows.filter(({ asked: ways }) => ways.some(isAsked)).map(({ say }) => say);
}
