/**
 * From what an owner types to the answers, best first. Pure but for the files that `shelves` fetches.
 *
 * The order, one group after the other, each entry once:
 *   1. exact   the code that was typed, then each fault that has it: those it is the root code of before those that
 *              only have it as a consequence, then those with more case reports. With words beside the code, the fault
 *              of that code that fits the words stands before it
 *   2. failure the same code with another failure type or none, then its faults. Two different failure types never
 *              meet, but a reader that shows none and an entry that names one must
 *   3. unknown the text is a code, but no entry has it: it is told as such, and leads to what its form tells
 *   4. near    then the codes that one slip of the thumb turns it into, those with another failure type among them,
 *              and the way to contribute
 *   5. part    the text is part of a code: codes that begin with it, then codes that hold it
 *   6. words   by the score of `ranking.js`, which weighs evidence last
 * Several codes are a list: the page about all of them, each code in the order of the text, then the faults that have
 * most of them. Where nothing is found, the way to contribute and the list of all codes.
 *
 * What is sure stands first, then faults and codes that are not, then in a row of their own the parts, systems, models
 * and pages, which lead on and answer nothing. How sure: `sure.js`. What a club wants said first to whoever asks for it
 * (`stop_now` in cautions.yml) comes with the answers, whatever they are.
 *
 * @typedef {{place: number, entry?: undefined} | {place?: undefined, entry: FinderEntry}} Which
 * @typedef {Which & {why: Why, sure?: boolean, matched?: string[], matchedBy?: (place: number) => string[], asked?: boolean,
 *            follows?: boolean, elsewhere?: boolean}} Found
 * @typedef {Found & {place: number}} Placed
 */

import { structure } from "./codes.js";
import { readQuery } from "./query.js";
import { findByWords } from "./ranking.js";
import { stopsFor } from "./stops.js";
import { fitsBesideCode, isDescribed, sureFault, sureName } from "./sure.js";
import { lettersAmiss, stem, wordsOf } from "./words.js";

/** Answers that are shown; more would not be read at the bike. */
export const MOST_ANSWERS = 10;
/** Answers that do not wait for the others. */
const MOST_AT_ONCE = 4;
/** Of a pasted report every code is wanted. */
const MOST_OF_LIST = 40;
const MOST_NEAR = 4;
const MOST_PARTS = 20;
const MOST_UNSURE = 8;
/** Parts, systems, models and pages that are shown beside faults and codes. */
const MOST_OTHERS = 4;
const MOST_WORDS_BESIDE_CODE = 6;

/**
 * The answers to a text. With `everywhere` what does not concern the bike is shown too, and marked.
 * @param {string} text @param {Shelves} shelves
 * @param {{bike?: ?{model: string, year: number}, everywhere?: boolean, most?: number}} options
 * @returns {Promise<FinderAnswers>}
 */
export async function find(text, shelves, { bike = null, everywhere = false, most = MOST_ANSWERS } = {}) {
  const { root } = shelves;
  const query = readQuery(text, root.formats, root.tables);
  const places = query.codes.map((matches) => matches.map((code) => told(code, root)));
  const byWords = query.pasted && places.length ? null : await findByWords(query.words, shelves);
  const found = places.length ? await byCodes(places, byWords, shelves) : await byText(query, byWords, shelves);
  const mine = bike && (await shelves.bike(bike));
  const { shown, hidden } = narrowed(once(found), mine, everywhere, root);
  const several = places.length > 1;
  const limit = several ? Math.max(most, Math.min(MOST_OF_LIST, places.length + 5)) : most;
  const { main, others, more } = chosen(shown, limit, root);
  const any = shown.length || hidden ? [...main, ...others] : leadsOn(root);
  return {
    codes: places.flat(),
    known: found.some(({ why }) => why !== "unknown" && why !== "near" && why !== "several"),
    stops: byWords ? stopsFor(byWords.asked, root) : [],
    sure: main.filter(({ sure }) => sure).length,
    maybe: main.filter(({ sure, why }) => !sure && why !== "several").length,
    count: any.length,
    answers: await withEntries(any.slice(0, MOST_AT_ONCE), shelves),
    later: () => withEntries(any.slice(MOST_AT_ONCE), shelves),
    more,
    hidden,
  };
}

/**
 * What is shown of what was found; of what is not sure a few are worth a look.
 * @param {Found[]} shown @param {number} limit @param {FinderRoot} root
 */
function chosen(shown, limit, root) {
  const [all, others] = apart(shown, root);
  const most = all.some(({ sure }) => sure) ? limit : Math.min(limit, MOST_UNSURE);
  const more = most < limit ? 0 : Math.max(0, all.length - limit);
  return { main: all.slice(0, most), others: others.slice(0, MOST_OTHERS), more };
}

/**
 * The page about several codes, what is sure, other faults and codes; and what only leads on. Each in its order.
 * @param {Found[]} found @param {FinderRoot} root @returns {[main: Found[], others: Found[]]}
 */
function apart(found, { concerned }) {
  /** @param {Found} answer */
  const rank = ({ place, entry, sure, why }) => {
    const isAnswer = place === undefined ? entry.kind === "none" : place < concerned;
    return why === "several" ? 0 : sure ? 1 : isAnswer ? 2 : 3;
  };
  const ranked = [0, 1, 2, 3].map((each) => found.filter((answer) => rank(answer) === each));
  return [ranked.slice(0, 3).flat(), ranked[3]];
}

/** @param {FinderRoot} root */
function leadsOn(root) {
  return [leadOn(root.pages.codes, "All codes that entries have"), ...contribute(root)];
}

/** @param {FaultCode} code @param {FinderRoot} root */
function told(code, { formats, tables }) {
  return { code, parts: structure(code, formats, tables) };
}

/** @param {Found[]} answers @param {Shelves} shelves */
function withEntries(answers, shelves) {
  return Promise.all(answers.map((answer) => withEntry(answer, shelves)));
}

/**
 * What of an answer is shown; by which words it was found is worked out for none but those.
 * @param {Found} answer @param {Shelves} shelves @returns {Promise<FinderAnswer>}
 */
async function withEntry({ why, place, entry, matched, matchedBy, sure = false, elsewhere = false }, shelves) {
  const whole = { ride: null, system: null, models: [], codes: [], texts: [], cases: 0 };
  const known = entry ?? (await shelves.entry(place));
  const by = matched ?? (place === undefined ? null : matchedBy?.(place)) ?? [];
  return { why, sure, sort: sortOf(known), matched: by, elsewhere, entry: { ...whole, ...known } };
}

/**
 * Without what concerns other machines only. A code that was asked for stays; it is marked unless one of its faults, of
 * whatever failure type, concerns the owner's machine.
 * @param {Found[]} found @param {?Set<number>} mine @param {boolean} everywhere @param {FinderRoot} root
 */
function narrowed(found, mine, everywhere, { concerned }) {
  /** @param {Found} answer */
  const isForeign = ({ place }) => mine !== null && place !== undefined && place < concerned && !mine.has(place);
  /** @param {Found} answer */
  const isOfCode = ({ why, asked }) => (why === "exact" || why === "failure") && !asked;
  const isKnown = found.some((answer) => isOfCode(answer) && !isForeign(answer));
  const marked = found.map((answer) => ({ ...answer, elsewhere: isForeign(answer) && !(answer.asked && isKnown) }));
  const shown = marked.filter((answer) => everywhere || !answer.elsewhere || answer.asked);
  return { shown, hidden: marked.length - shown.length };
}

/** @param {FinderEntry} entry @returns {FinderAnswer["sort"]} */
function sortOf({ kind }) {
  return kind === "fault" || kind === "code" || kind === "none" ? kind : "other";
}

/** @param {ToldCode[][]} places @param {?ByWords} byWords @param {Shelves} shelves @returns {Promise<Found[]>} */
async function byCodes(places, byWords, shelves) {
  const looked = await Promise.all(places.flat().map((each) => lookedUp(each, shelves)));
  if (places.length > 1) {
    return listOf(looked, shelves);
  }
  const known = looked.flatMap(({ exact }) => exact).concat(looked.flatMap(({ failure }) => failure));
  const rows = byWords?.found ?? [];
  /** @type {Placed[]} */
  const words = rows.map(({ place }) => ({ why: "words", place, matchedBy: byWords?.matched }));
  if (!known.length) {
    const near = await Promise.all(looked.map(({ code }) => nearCodes(code, shelves)));
    const beside = words.filter(({ place }) => place < shelves.root.faults).slice(0, MOST_WORDS_BESIDE_CODE);
    return [...looked.map(({ unknown: none }) => none), ...beside, ...near.flat(), ...contribute(shelves.root)];
  }
  const ofCode = new Map(known.filter(({ asked }) => !asked).map((answer) => [answer.place, answer]));
  const best = rows.find(({ place }) => ofCode.has(place));
  const both = words.flatMap(({ place, matchedBy }) => {
    const answer = ofCode.get(place);
    return answer ? [{ ...answer, matchedBy, sure: place === best?.place && fitsBesideCode(best) }] : [];
  });
  // One code that was typed is what was meant; of several readings, or with another failure type, none is sure.
  const codes = known.filter(({ asked }) => asked);
  const isFaultSure = both.some(({ sure }) => sure);
  const surely = !isFaultSure && (codes.length === 1 || codes[0].why === "exact") ? codes[0] : null;
  return [...both, ...known.map((answer) => ({ ...answer, sure: answer === surely })), ...words.slice(0, MOST_WORDS_BESIDE_CODE)];
}

/**
 * One code: its entry and faults, those of its kin with another failure type, and what is said where there are none.
 * @param {ToldCode} told @param {Shelves} shelves
 */
async function lookedUp({ code, parts }, shelves) {
  const own = await shelves.value("codes", key(code));
  const kin = parts.system === null ? [] : await otherFailureTypes(code, parts, shelves);
  return {
    code,
    exact: own ? withFaults(own, "exact") : [],
    failure: kin.flatMap((value) => withFaults(value, "failure")),
    unknown: unknown({ code, parts }, shelves.root),
  };
}

/** @param {FaultCode} code @param {CodeStructure} parts @param {Shelves} shelves */
async function otherFailureTypes(code, parts, shelves) {
  if (parts.failure_type) {
    const base = await shelves.value("codes", key(parts.base));
    return base ? [base] : [];
  }
  return (await shelves.beginning("codes", `${key(code)}-`, 2)).map(([, value]) => value);
}

/** @param {FinderCode} code @param {Why} why @returns {Placed[]} */
function withFaults([place, faults], why) {
  return [{ why, place, asked: true }, ...faults.map(([fault, follows]) => ({ why, place: fault, follows: Boolean(follows) }))];
}

/**
 * Several codes: the way to all of them at once, each code, then the faults that have most of them.
 * @param {Awaited<ReturnType<typeof lookedUp>>[]} looked @param {Shelves} shelves
 */
function listOf(looked, { root }) {
  const each = looked.map(({ exact, failure, unknown: none }) => ({ ...(exact[0] ?? failure[0] ?? none), sure: true }));
  /** @type {Map<number, {answer: Placed, count: number, roots: number}>} */
  const counts = new Map();
  for (const { exact, failure } of looked) {
    for (const answer of [...exact, ...failure].filter(({ asked }) => !asked)) {
      const before = counts.get(answer.place) ?? { answer, count: 0, roots: 0 };
      counts.set(answer.place, {
        answer,
        count: before.count + 1,
        roots: before.roots + (answer.follows ? 0 : 1),
      });
    }
  }
  const faults = [...counts.values()].sort((one, two) => two.count - one.count || two.roots - one.roots || one.answer.place - two.answer.place);
  const texts = looked.map(({ code }) => code.text);
  return [...severalCodes(texts, root), ...each, ...faults.map(({ answer }) => answer), ...contribute(root)];
}

/** @param {string[]} texts @param {FinderRoot} root */
function severalCodes(texts, { pages }) {
  if (!pages.several) {
    return [];
  }
  const codes = [...new Set(texts)];
  const address = `${pages.several}?codes=${codes.map(encodeURIComponent).join(",")}`;
  return [leadOn(address, `All ${codes.length} codes at once: ${codes.join(", ")}`, "several")];
}

/**
 * An answer for a code that no entry has: never silence, and never "no restriction".
 * @param {ToldCode} told @param {FinderRoot} root @returns {Found}
 */
function unknown({ code, parts }, { pages, controls }) {
  const texts = [
    parts.system && `System: ${parts.system}`,
    parts.controlled_by && `Meaning given by ${controls[parts.controlled_by]}`,
    parts.failure_type && `Failure type ${parts.failure_type.code}: ${parts.failure_type.meaning ?? "not listed here; the maker's manual says"}`,
  ].filter(Boolean);
  const address = `${pages.codes}?code=${encodeURIComponent(code.text)}`;
  const entry = { kind: "none", address, title: `${code.text}: no entry has this code`, ride: "unknown", texts };
  return { why: "unknown", sure: true, entry };
}

/** @param {FinderRoot} root */
function contribute({ pages }) {
  return pages.contribute ? [leadOn(pages.contribute, "You know what it was? Tell the club")] : [];
}

/** @param {string} address @param {string} title @param {Why} why @returns {Found} */
function leadOn(address, title, why = "unknown") {
  return { why, entry: { kind: "page", address, title } };
}

/** @param {Shelves} shelves */
async function allCodes(shelves) {
  return Object.entries(await shelves.file("codes/all.json")).flatMap(([format, codes]) =>
    codes.split("\n").map((text) => ({ format, text })),
  );
}

/** @param {FaultCode[]} codes @param {Why} why @param {Shelves} shelves @returns {Promise<Found[]>} */
async function asAnswers(codes, why, shelves) {
  const values = await Promise.all(codes.map((code) => shelves.value("codes", key(code))));
  return values.filter(Boolean).map(([place]) => ({ why, place }));
}

/** @param {FaultCode} code @param {Shelves} shelves */
async function nearCodes(code, shelves) {
  const base = code.text.split("-")[0];
  if (base.length < 4) {
    return [];
  }
  /** @param {FaultCode} each */
  const slips = ({ text }) => Math.min(lettersAmiss(code.text, text, 1), lettersAmiss(base, text.split("-")[0], 1));
  const near = (await allCodes(shelves)).filter((each) => each.format === code.format && slips(each) <= 1);
  return asAnswers(near.slice(0, MOST_NEAR), "near", shelves);
}

/** @param {Query} query @param {?ByWords} byWords @param {Shelves} shelves @returns {Promise<Found[]>} */
async function byText(query, byWords, shelves) {
  const { root } = shelves;
  const parts = await partsOfCodes(query.part, shelves);
  if (parts.length === 1) {
    parts[0].sure = true;
  }
  const { found, matched, machine } = byWords ?? { found: [], matched: () => [], machine: null };
  const described = isDescribed(found, root) ? found : found.filter(({ place }) => place >= root.concerned);
  const surely = parts.length ? null : (sureName(found, root) ?? sureFault(described, root));
  /** @type {Found[]} */
  const words = described.map(({ place }) => ({ why: "words", place, sure: place === surely, matchedBy: matched }));
  return [...(machine?.alone ? modelPages(machine) : []), ...parts, ...words];
}

/** @param {Machine} machine @returns {Found[]} */
function modelPages({ model, year }) {
  /** @type {Found} */
  const own = { why: "words", place: model.place, sure: !year, matched: wordsOf(model.name).map(stem) };
  if (!year) {
    return [own];
  }
  const title = `${model.name}, ${year}`;
  return [{ why: "words", sure: true, entry: { kind: "model", address: `${model.address}${year}/`, title } }, own];
}

/** @param {?string} part @param {Shelves} shelves */
async function partsOfCodes(part, shelves) {
  if (part === null) {
    return [];
  }
  /** @param {FaultCode} code */
  const bare = ({ text }) => text.replaceAll("-", "");
  const codes = await allCodes(shelves);
  const begins = codes.filter((code) => bare(code).startsWith(part));
  const holds = part.length < 3 ? [] : codes.filter((code) => !bare(code).startsWith(part) && bare(code).includes(part));
  return asAnswers([...begins, ...holds].slice(0, MOST_PARTS), "part", shelves);
}

/** @param {Found[]} answers */
function once(answers) {
  const seen = new Set();
  return answers.filter(({ place, entry }) => {
    const id = place ?? `${entry.address} ${entry.title}`;
    return !seen.has(id) && seen.add(id);
  });
}

/** @param {FaultCode} code */
function key({ format, text }) {
  return `${format} ${text}`;
}
