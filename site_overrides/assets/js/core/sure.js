/**
 * When an answer by words is sure. Chosen on `tests/finder_own_words.yml`, `finder_own_words_more.yml` and the half
 * `tune` of `finder_queries.yml`, so that of the answers called sure at least nine in ten are right there; without
 * `owners.yml` of the vocabulary, which was written with these sets in view. Pure: no document, no network.
 *
 * A score grows with the base, since words grow rarer: it is compared with the rarity of a word that one entry has.
 */

/** Of a score, in rarities. */
const SURE_SCORE = 0.9;
const DESCRIBED_SCORE = 0.25;
/** Of the query that the answer accounts for. */
const SURE_SHARE = 0.7;
const SURE_FIT = 0.4;
/** The second best, as a share of the best. */
const SURE_SECOND = 0.65;
/** Of the words beside a code. */
const SHARE_BESIDE_CODE = 0.6;

/** @param {number} size */
function rarest(size) {
  return Math.log(1 + (size - 0.5) / 1.5);
}

/**
 * The one fault that the words surely mean; null: none.
 * @param {Ranked[]} found best first @param {FinderRoot} root
 */
export function sureFault(found, { faults, size }) {
  const [best, second] = found.filter(({ place }) => place < faults);
  const isSure =
    best &&
    best.score >= SURE_SCORE * rarest(size) &&
    best.share >= SURE_SHARE &&
    best.fit >= SURE_FIT &&
    (second?.score ?? 0) <= SURE_SECOND * best.score;
  return isSure ? best.place : null;
}

/**
 * The one part, system or model whose name was typed, whole or one end of it, and nothing else; null: none.
 * @param {Ranked[]} found @param {FinderRoot} root
 */
export function sureName(found, { concerned }) {
  const most = Math.max(1, ...found.map(({ named }) => named));
  const named = most > 1 ? found.filter((each) => each.place >= concerned && each.named === most) : [];
  return named.length === 1 ? named[0].place : null;
}

/** Whether any entry says enough of the words to be worth a look. @param {Ranked[]} found @param {FinderRoot} root */
export function isDescribed(found, { concerned, size }) {
  const best = found.find(({ place }) => place < concerned);
  return best !== undefined && best.score >= DESCRIBED_SCORE * rarest(size);
}

/** Whether a fault that has the typed code is the one that the words beside it mean. @param {Ranked} ranked */
export function fitsBesideCode({ share }) {
  return share >= SHARE_BESIDE_CODE;
}
