/** Where in a text patterns see something. Pure. */

/** @param {RegExp[]} patterns @param {string} text @param {(found: string) => boolean} counts @returns {[number, number][]} */
export function spans(patterns, text, counts = () => true) {
  return patterns.flatMap((pattern) =>
    [...text.matchAll(pattern)].filter(([found]) => counts(found)).map((match) => /** @type {[number, number]} */ ([match.index, match.index + match[0].length])),
  );
}
