/**
 * Words without their English ending, as the Snowball stemmer for English (version 3.1) takes it off: the build does it
 * with the library (`kbtools/vocabulary/stems.py`), the browser here. Both are held together by `tests/browser/test_stem_js.py`.
 *
 * Pure: no document, no network.
 */

/** Words that the algorithm treats by themselves, and those of ours that it gets wrong. @type {Readonly<Record<string, string>>} */
const ALONE = {
  skis: "ski",
  skies: "sky",
  idly: "idl",
  gently: "gentl",
  ugly: "ugli",
  early: "earli",
  only: "onli",
  singly: "singl",
  news: "news",
  howe: "howe",
  atlas: "atlas",
  cosmos: "cosmos",
  bias: "bias",
  andes: "andes",
  overheated: "overheat",
  overheating: "overheat",
};

/** Beginnings behind which endings start whatever letters they have. */
const BEGINNING = /^(?:arsen|commun|emerg|gener|inter|later|organ|past|univers)/;

/** Ending to what stands in its place behind the first syllable. @type {Readonly<Record<string, string>>} */
const SECOND = {
  tional: "tion",
  enci: "ence",
  anci: "ance",
  abli: "able",
  entli: "ent",
  izer: "ize",
  ization: "ize",
  ational: "ate",
  ation: "ate",
  ator: "ate",
  alism: "al",
  aliti: "al",
  alli: "al",
  fulness: "ful",
  fulli: "ful",
  ousness: "ous",
  ousli: "ous",
  iveness: "ive",
  iviti: "ive",
  biliti: "ble",
  bli: "ble",
  ogist: "og",
  lessli: "less",
};
const SECOND_ENDING =
  /(?:tional|enci|anci|abli|entli|izer|ization|ational|ation|ator|alism|aliti|alli|fulness|fulli|ousness|ousli|iveness|iviti|biliti|bli|ogist|ogi|lessli|li)$/;

/** @type {Readonly<Record<string, string>>} */
const THIRD = { tional: "tion", ational: "ate", alize: "al", icate: "ic", iciti: "ic", ical: "ic", ful: "", ness: "" };
const THIRD_ENDING = /(?:tional|ational|alize|icate|iciti|ical|ful|ness|ative)$/;

const FOURTH_ENDING = /(?:ance|ence|able|ible|ate|ive|ize|iti|ism|ion|ous|ant|ement|ment|ent|al|er|ic)$/;

/** @type {Map<string, string>} */
const known = new Map();

/**
 * The word without its English ending; words of another script, those with digits and those below four letters stay.
 * @param {string} word
 */
export function stem(word) {
  if (!/^[a-z]{4,}$/.test(word)) {
    return word;
  }
  let found = known.get(word);
  if (found === undefined) {
    found = Object.hasOwn(ALONE, word) ? ALONE[word] : byRules(word);
    known.set(word, found);
  }
  return found;
}

/** @param {string} word */
function byRules(word) {
  // A capital Y is no vowel: it begins the word or follows one.
  let rest = word.replace(/^y/, "Y").replace(/([aeiouy])y/g, "$1Y");
  const first = BEGINNING.exec(rest)?.[0].length ?? behindSyllable(rest, 0);
  const second = behindSyllable(rest, first);
  rest = withoutPlural(rest);
  rest = withoutVerbEnding(rest, first);
  rest = rest.replace(/(.[^aeiouy])[yY]$/, "$1i");
  rest = changed(rest, SECOND_ENDING, first, (ending, before) => {
    if (ending === "li") {
      return /[cdeghkmnrt]$/.test(before) ? "" : ending;
    }
    return ending === "ogi" ? (before.endsWith("l") ? "og" : ending) : SECOND[ending];
  });
  rest = changed(rest, THIRD_ENDING, first, (ending, before) =>
    ending === "ative" ? (before.length >= second ? "" : ending) : THIRD[ending],
  );
  rest = changed(rest, FOURTH_ENDING, second, (ending, before) =>
    ending === "ion" && !/[st]$/.test(before) ? ending : "",
  );
  return withoutLast(rest, first, second).replace(/Y/g, "y");
}

/** Where the first consonant behind a vowel ends. @param {string} word @param {number} from */
function behindSyllable(word, from) {
  const at = word.slice(from).search(/[aeiouy][^aeiouy]/);
  return at < 0 ? word.length : from + at + 2;
}

/**
 * The word with an ending changed, if that stands behind `from`.
 * @param {string} word @param {RegExp} endings @param {number} from
 * @param {(ending: string, before: string) => string} instead
 */
function changed(word, endings, from, instead) {
  const at = word.search(endings);
  if (at < from) {
    return word;
  }
  const before = word.slice(0, at);
  return before + instead(word.slice(at), before);
}

/** @param {string} word */
function withoutPlural(word) {
  if (word.endsWith("sses")) {
    return word.slice(0, -2);
  }
  if (/ie[ds]$/.test(word)) {
    return word.slice(0, word.length > 4 ? -2 : -1);
  }
  return !/[us]s$/.test(word) && /[aeiouy].+s$/.test(word) ? word.slice(0, -1) : word;
}

/** @param {string} word @param {number} first */
function withoutVerbEnding(word, first) {
  const ending = /(?:eedly|eed|edly|ed|ingly|ing)$/.exec(word)?.[0] ?? "";
  const before = word.slice(0, word.length - ending.length);
  if (ending.startsWith("eed")) {
    return before.length >= first && !/^(?:succ|proc|exc)$/.test(before) ? `${before}ee` : word;
  }
  if (ending === "ing") {
    if (/^[^aeiouy]y$/.test(before)) {
      return `${before[0]}ie`;
    }
    if (/^(?:even|cann|inn|earr|herr|out)$/.test(before)) {
      return word;
    }
  }
  if (ending === "" || !/[aeiouy]/.test(before)) {
    return word;
  }
  return mended(before, first);
}

/** What is left of a verb, with the letter that its ending took or doubled. @param {string} before @param {number} first */
function mended(before, first) {
  if (/(?:at|bl|iz)$/.test(before)) {
    return `${before}e`;
  }
  if (/(?:bb|dd|ff|gg|mm|nn|pp|rr|tt)$/.test(before)) {
    return /^[aeo]..$/.test(before) ? before : before.slice(0, -1);
  }
  return before.length === first && isShort(before) ? `${before}e` : before;
}

/** Whether a word ends in a short syllable. @param {string} word */
function isShort(word) {
  return /(?:[^aeiouy][aeiouy][^aeiouywxY]|^[aeiouy][^aeiouy]|past)$/.test(word);
}

/** @param {string} word @param {number} first @param {number} second */
function withoutLast(word, first, second) {
  const before = word.slice(0, -1);
  if (word.endsWith("e")) {
    return before.length >= second || (before.length >= first && !isShort(before)) ? before : word;
  }
  return word.endsWith("ll") && before.length >= second ? before : word;
}
