/**
 * A report as YAML, in the plainest form that every reader takes alike. Mail programs break long lines, so a text of some
 * length stands between quotes, and rows between brackets: there a line end means a blank. Pure.
 */

const LONGEST_PLAIN = 60;
/** What may stand without quotes, anywhere. */
const PLAIN = /^[\p{L}\p{N}][\p{L}\p{N}\p{M} ._/°()+-]*$/u;
/** What some reader takes for a number, a day, a truth value or nothing. */
const LOOKS_LIKE_OTHER = /^(?:null|~|true|false|yes|no|on|off|y|n|[-+]?[0-9][0-9_.:]*(?:e[-+]?[0-9]+)?|0[xob][0-9a-f]+|\.?(?:inf|nan))$/iu;

/** @param {string} text */
function leaf(text) {
  const isPlain = PLAIN.test(text) && text.length <= LONGEST_PLAIN && !text.endsWith(" ") && !LOOKS_LIKE_OTHER.test(text);
  return isPlain ? text : JSON.stringify(text).replace(/[\x7f-\xa0\u2028\u2029\ufeff]/gu, escaped);
}

/** @param {string} sign */
function escaped(sign) {
  return `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`;
}

/** On one line. @param {Plain} value @returns {string} */
function inline(value) {
  if (Array.isArray(value)) {
    return `[${value.map(inline).join(", ")}]`;
  }
  if (typeof value === "object") {
    const pairs = Object.entries(value).map(([key, each]) => `${key}: ${inline(each)}`);
    return `{${pairs.join(", ")}}`;
  }
  return typeof value === "string" ? leaf(value) : String(value);
}

/** @param {string} key @param {Plain} value @param {string} pad @returns {string[]} */
function written(key, value, pad) {
  const head = `${pad}${key}:`;
  if (Array.isArray(value) && value.some((each) => typeof each === "object")) {
    return [head, ...value.map((each) => `${pad}  - ${inline(each)}`)];
  }
  if (typeof value === "object" && !Array.isArray(value) && isLong(value)) {
    return [head, ...Object.entries(value).flatMap(([inner, each]) => written(inner, each, `${pad}  `))];
  }
  return [`${head} ${inline(value)}`];
}

/** @param {{[key: string]: Plain}} value */
function isLong(value) {
  const parts = Object.values(value);
  return "note" in value || parts.length > 6 || parts.some((each) => typeof each === "object" && !Array.isArray(each));
}

/** A mapping as a document. @param {{[key: string]: Plain}} tree */
export function yaml(tree) {
  return Object.entries(tree).flatMap(([key, value]) => written(key, value, ""));
}

/** The report as it is sent: between a line that says what it is and a line that ends it. @param {string} kind @param {{[key: string]: Plain}} tree */
export function reportText(kind, tree) {
  return [`--- ${kind}`, ...yaml(tree), "--- end", ""].join("\n");
}

/** The same without these lines, as a file. @param {string} text */
export function fileText(text) {
  return text.replace(/^--- .*\n/u, "").replace(/--- end\n$/u, "");
}
