/**
 * The state of a plan as the fragment of a link, and back. Nothing of it is sent to any server.
 *
 *     1;f=voltage-sags-when-wet;c=P0562,U0121;b=curlew-1100,2014;r=rest:l12.9,clamps:g,stator:n;k=stator;z1k2j3hq
 *
 * The version stands first, then what differs from an owner who says nothing, last `z` and the CRC-32 of all before its
 * semicolon, base 36. Ids are written out, since an entry may have changed when the link is opened: what it no longer has is
 * left out then, and the rest holds. Of `fault/check` after another one of the same fault, `/check` is written.
 */

import { cleanMeans, SKILLS } from "./plan-answers.js";
import { readCodes } from "./given-codes.js";
import { NAME } from "./shared-fragment.js";

const VERSION = "1";
const MOST_CHARACTERS = 20_000;
const MOST_ITEMS = 200;
const LONGEST = 100;
const ID = /^[a-z0-9][a-z0-9-]{0,99}$/;
const END = /^z[0-9a-z]{7}$/;

/** @type {Record<Result, string>} */
const RESULT = { good: "g", bad: "b", low: "l", high: "h", unclear: "u" };
/** @type {Record<FixAnswer["result"], string>} */
const FIXED = { "no-change": "n", helped: "d" };

/** @param {string} text */
function crc32(text) {
  let rest = 0xff_ff_ff_ff;
  for (let at = 0; at < text.length; at += 1) {
    rest ^= text.charCodeAt(at);
    for (let bit = 0; bit < 8; bit += 1) {
      rest = rest & 1 ? (rest >>> 1) ^ 0xed_b8_83_20 : rest >>> 1;
    }
  }
  return (rest ^ 0xff_ff_ff_ff) >>> 0;
}

/** With letters, digits and hyphens alone, and `%` before what else there is: no messenger cuts a link there. @param {string} text */
function escaped(text) {
  // Half of a pair stands for no character, and has no UTF-8.
  const paired = text.replace(/\p{Surrogate}/gu, "\uFFFD");
  return encodeURIComponent(paired).replace(/[!'()*._~]/g, (each) => `%${each.charCodeAt(0).toString(16).toUpperCase()}`);
}

/** @param {string} text @returns {?string} */
function unescaped(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}

/** Ids one after the other; what stands before the slash is written where it changes. @param {string[]} ids */
function shortened(ids) {
  let above = "";
  return ids.map((id) => {
    const at = id.indexOf("/");
    if (at < 1) {
      return escaped(id);
    }
    const [top, own] = [id.slice(0, at), escaped(id.slice(at + 1))];
    const isSame = top === above;
    above = top;
    return isSame ? `/${own}` : `${escaped(top)}/${own}`;
  });
}

/** @param {string[]} texts @returns {(string | null)[]} null: it cannot be read */
function lengthened(texts) {
  let above = "";
  return texts.map((text) => {
    const at = text.indexOf("/");
    if (at < 0) {
      return sound(unescaped(text));
    }
    above = at ? (unescaped(text.slice(0, at)) ?? "") : above;
    const own = unescaped(text.slice(at + 1));
    return above && own !== null ? sound(`${above}/${own}`) : null;
  });
}

/** @param {?string} id */
function sound(id) {
  return id && id.length <= LONGEST ? id : null;
}

/** @param {Answer} answer */
function outcome(answer) {
  if (answer.fix !== undefined) {
    return FIXED[answer.result];
  }
  return `${RESULT[answer.result]}${answer.value === null ? "" : String(answer.value).replace("+", "")}`;
}

/**
 * The fragment of a link, without its `#`.
 * @param {SharedState} state
 */
export function encodeState({ fault, codes, bike, answers, means, road }) {
  const ids = shortened(answers.list.map((answer) => answer.fix ?? answer.check));
  /** @param {string[]} list */
  const listed = (list) => shortened(list).join(",");
  /** @type {[name: string, value: string][]} */
  const fields = [
    ["f", fault],
    ["c", codes.map(escaped).join(",")],
    ["b", bike ? `${escaped(bike[0])},${bike[1]}` : ""],
    ["r", ids.map((id, at) => `${id}:${outcome(answers.list[at])}`).join(",")],
    ["k", listed(answers.covered)],
    ["o", listed(answers.opened)],
    ["n", `${answers.absent ? "a" : ""}${answers.any ? "y" : ""}${road ? "r" : ""}`],
    ["s", means.skill === SKILLS[0] ? "" : means.skill],
    ["m", means.hour === null ? "" : String(means.hour).replace("+", "")],
    ["t", listed(means.has)],
    ["u", listed(means.lacks)],
  ];
  const text = [VERSION, ...fields.filter(([, value]) => value).map(([name, value]) => `${name}=${value}`)].join(";");
  return `${NAME}=${text};z${crc32(text).toString(36).padStart(7, "0")}`;
}

/**
 * What a fragment says, which anybody may have written: bounded, of the right kinds, and no more. Whether a plan knows these
 * ids, `cleanAnswers` says. Of a text that was cut off, what stands before the cut.
 * @param {string} hash with its `#` @returns {ReadState}
 */
export function decodeState(hash) {
  const text = plainText(hash.slice(NAME.length + 2));
  const parts = text.split(";");
  const [version, ...rest] = parts;
  if (version !== VERSION) {
    return { trouble: /^\d{1,4}$/.test(version) && rest.length > 0 ? "version" : "damaged", state: null };
  }
  const end = rest.pop() ?? "";
  const isCut = !END.test(end);
  if (text.length > MOST_CHARACTERS || (!isCut && end !== `z${crc32([version, ...rest].join(";")).toString(36).padStart(7, "0")}`)) {
    return { trouble: "damaged", state: null };
  }
  const fields = new Map([...rest, ...(isCut ? whole(end) : [])].map((field) => [field.slice(0, 1), field.slice(2)]));
  return { trouble: isCut ? "cut" : null, state: stateOf(fields) };
}

/** Without what a messenger may have put around it: signs behind the link, and each of its own signs written out. @param {string} text */
function plainText(text) {
  const bare = text.replace(/[^0-9A-Za-z]+$/, "");
  return bare.includes(";") ? bare : (unescaped(bare) ?? bare);
}

/** Of a field that was cut off, that part which is surely whole. @param {string} field */
function whole(field) {
  const at = field.lastIndexOf(",");
  return /^[crkotu]=/.test(field) && at > 0 ? [field.slice(0, at)] : [];
}

/** @param {Map<string, string>} fields @returns {SharedState} */
function stateOf(fields) {
  /** @param {string} name */
  const text = (name) => fields.get(name) ?? "";
  /** @param {string} name */
  const texts = (name) => text(name).split(",").filter(Boolean).slice(0, MOST_ITEMS);
  /** @param {string} name */
  const ids = (name) => [...new Set(lengthened(texts(name)).filter((id) => id !== null))];
  const [model = "", year = ""] = texts("b");
  return {
    fault: ID.test(text("f")) ? text("f") : "",
    codes: readCodes(texts("c").map((code) => unescaped(code) ?? "").join(",")),
    bike: ID.test(model) && /^\d{4}$/.test(year) ? [model, Number(year)] : null,
    answers: {
      list: answersOf(texts("r")),
      absent: text("n").includes("a"),
      opened: ids("o"),
      covered: ids("k"),
      any: text("n").includes("y"),
    },
    means: cleanMeans({ skill: text("s"), hour: figure(text("m")), has: ids("t"), lacks: ids("u") }),
    road: text("n").includes("r"),
  };
}

/** @param {string} text */
function figure(text) {
  return /^-?\d+(\.\d+)?(e-?\d+)?$/.test(text) && Number.isFinite(Number(text)) ? Number(text) : null;
}

/** @param {string[]} items @returns {Answer[]} */
function answersOf(items) {
  const ids = lengthened(items.map((item) => item.slice(0, Math.max(0, item.lastIndexOf(":")))));
  return items.map((item, at) => answerOf(ids[at], item.slice(item.lastIndexOf(":") + 1))).filter((answer) => answer !== null);
}

/** @param {?string} id @param {string} told @returns {?Answer} */
function answerOf(id, told) {
  const result = nameOf(RESULT, told.slice(0, 1));
  const fixed = nameOf(FIXED, told);
  const value = figure(told.slice(1));
  if (id === null || (told.length > 1 && value === null)) {
    return null;
  }
  return fixed ? { fix: id, result: fixed } : result ? { check: id, result, value } : null;
}

/** @template {string} Name @param {Record<Name, string>} letters @param {string} letter @returns {Name | undefined} */
function nameOf(letters, letter) {
  return /** @type {Name[]} */ (Object.keys(letters)).find((name) => letters[name] === letter);
}
