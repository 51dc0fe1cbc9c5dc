/**
 * Fault codes in the browser: the same answers as `kbtools.model.codes`, held to `tests/vectors/codes.json`.
 *
 * Pure: no document, no network. `tables` is what `kbtools.model.codes.tables()` gives, `formats` what
 * `formats_record()` gives, in which patterns that are not safe are already null.
 *
 * @typedef {(format: CodeFormat, typed: string, tables: CodeTables) => string | null} Attempt
 */

const STANDARD = "sae-j2012";

/** @type {Map<string, ?RegExp>} */
const compiled = new Map();

/**
 * A regular expression that fits a whole text; null where the engine refuses it.
 * @param {string} source @returns {?RegExp}
 */
function whole(source, flags = "") {
  const key = `${flags}/${source}`;
  if (!compiled.has(key)) {
    let expression = null;
    try {
      expression = new RegExp(`^(?:${source})$`, flags);
    } catch {
      // An unchecked pattern: it fits nothing, as in Python.
    }
    compiled.set(key, expression);
  }
  return compiled.get(key) ?? null;
}

/** @template T @param {Record<string, string>} table @param {string} key @param {T} otherwise */
function lookedUp(table, key, otherwise) {
  return Object.hasOwn(table, key) ? table[key] : otherwise;
}

/** @param {Record<string, string>} table @param {string} text */
function translated(table, text) {
  return Array.from(text, (char) => lookedUp(table, char, char)).join("");
}

/**
 * The codes that a text may be, see `read_code` in Python for the four attempts. Never throws on any text.
 * @param {string} text @param {CodeFormat[]} formats @param {CodeTables} tables @returns {CodeReading}
 */
export function readCode(text, formats, tables) {
  const matches = isLonger(text, tables.longest_input) ? [] : matchesOf(text, formats, tables);
  return { text, matches, code: matches.length === 1 ? matches[0] : null, ambiguous: matches.length > 1 };
}

/** @param {string} text @param {number} codePoints */
function isLonger(text, codePoints) {
  // A code point takes at most two units, so a huge text is never spread out.
  return text.length > 2 * codePoints || (text.length > codePoints && Array.from(text).length > codePoints);
}

/** @param {string} text @param {CodeFormat[]} formats @param {CodeTables} tables @returns {FaultCode[]} */
function matchesOf(text, formats, tables) {
  const folded = translated(tables.fold, text).replace(/^ +/, "").replace(/ +$/, "");
  const core = withoutOuterSigns(folded);
  /** @type {[Attempt, string][]} */
  const attempts = [
    [asWritten, folded],
    [asWritten, core],
    [loosened, core],
    [withHyphen, core],
  ];
  for (const [attempt, typed] of attempts) {
    /** @type {Map<string, FaultCode>} */
    const found = new Map();
    for (const format of formats) {
      const canonical = attempt(format, typed, tables);
      if (canonical) {
        found.set(JSON.stringify([format.id, canonical]), { format: format.id, text: canonical });
      }
    }
    if (found.size) {
      return [...found.values()];
    }
  }
  return [];
}

/** @param {string} text */
function withoutOuterSigns(text) {
  const chars = Array.from(text);
  /** @param {string} char */
  const isKept = (char) => /[\p{L}\p{N}]/u.test(char);
  const first = chars.findIndex(isKept);
  return first < 0 ? "" : chars.slice(first, chars.findLastIndex(isKept) + 1).join("");
}

/** @type {Attempt} */
function asWritten(format, typed, tables) {
  return fits(format, typed, tables) ? typed : null;
}

/** @param {CodeFormat} format @param {string} typed @param {CodeTables} tables */
function fits(format, typed, tables) {
  if (format.standard === STANDARD) {
    return Boolean(whole(tables.shapes.canonical)?.test(typed));
  }
  if (format.pattern === null || typed.length > tables.longest_club_code || !/^[ -~]*$/.test(typed)) {
    return false;
  }
  return Boolean(whole(format.pattern, "i")?.test(typed));
}

/** The text cut at every run of separators. @param {string} typed @param {CodeTables} tables */
function parts(typed, tables) {
  const found = [""];
  let between = false;
  for (const char of typed) {
    if (!tables.separators.includes(char)) {
      found[found.length - 1] += char;
      between = false;
    } else if (!between) {
      found.push("");
      between = true;
    }
  }
  return found;
}

/** @type {Attempt} */
function loosened(format, typed, tables) {
  const pieces = parts(typed, tables);
  if (format.standard === STANDARD) {
    return standardAsTyped(pieces.join(""), tables);
  }
  return tables.joints.map((joint) => pieces.join(joint)).find((candidate) => fits(format, candidate, tables)) ?? null;
}

/** @param {string} bare @param {CodeTables} tables */
function standardAsTyped(bare, tables) {
  /** @param {string} text */
  const digits = (text) => translated(tables.look_alikes, text);
  const isWord = !/[0-9]/.test(bare) && /[^01]/.test(digits(bare.slice(1)));
  if (isWord) {
    return null;
  }
  const typed = whole(tables.shapes.typed)?.exec(bare);
  if (typed) {
    return typed[1] + digits(typed[2] + (typed[3] ? `-${typed[3]}` : ""));
  }
  const raw = whole(tables.shapes.raw)?.exec(bare);
  if (raw) {
    const bytes = raw.slice(1).filter(Boolean).map((byte) => Number.parseInt(digits(byte), 16));
    return textFromBytes(bytes, tables);
  }
  return null;
}

/** @type {Attempt} */
function withHyphen(format, typed, tables) {
  const bare = parts(typed, tables).join("");
  if (format.standard === STANDARD || bare.length >= tables.longest_club_code) {
    return null;
  }
  const candidates = Array.from(bare.slice(1), (_, at) => `${bare.slice(0, at + 1)}-${bare.slice(at + 1)}`);
  const fitting = candidates.filter((candidate) => fits(format, candidate, tables));
  return fitting.length === 1 ? fitting[0] : null;
}

/** @param {number} number @param {number} width */
function hex(number, width) {
  return number.toString(16).toUpperCase().padStart(width, "0");
}

/** @param {number[]} bytes @param {CodeTables} tables */
function textFromBytes([high, low, failureType], tables) {
  const number = high * 0x100 + low;
  const base = `${tables.letters[number >> 14]}${(number >> 12) & 3}${hex(number & 0xfff, 3)}`;
  return failureType === undefined ? base : `${base}-${hex(failureType, 2)}`;
}

/**
 * The standard code that two bytes are, or three with the failure type; RangeError for any other number of them.
 * @param {Iterable<number> & ArrayLike<number>} bytes @param {string} formatId @param {CodeTables} tables
 * @returns {FaultCode}
 */
export function codeFromBytes(bytes, formatId, tables) {
  if (bytes.length !== 2 && bytes.length !== 3) {
    throw new RangeError(`a fault code has two bytes, or three with its failure type, not ${bytes.length}`);
  }
  return { format: formatId, text: textFromBytes([...bytes], tables) };
}

/**
 * The two or three bytes of a standard code; RangeError where the text is none in its canonical form.
 * @param {FaultCode} code @param {CodeTables} tables
 */
export function codeToBytes(code, tables) {
  if (!whole(tables.shapes.canonical)?.test(code.text)) {
    throw new RangeError(`${JSON.stringify(code.text)} is no standard fault code in its canonical form`);
  }
  const [base, failureType] = code.text.split("-");
  const number = tables.letters.indexOf(base[0]) * 0x4000 + Number.parseInt(base.slice(1), 16);
  const bytes = [number >> 8, number & 0xff];
  return Uint8Array.from(failureType === undefined ? bytes : [...bytes, Number.parseInt(failureType, 16)]);
}

/**
 * What the code's structure tells; of a club's own code nothing: all null, and `base` is the code.
 * Keys as in the record of `kbtools code`: system, system_letter, controlled_by, failure_type, base.
 * @param {FaultCode} code @param {CodeFormat[]} formats @param {CodeTables} tables
 */
export function structure(code, formats, tables) {
  const standard = formats.some((format) => format.standard === STANDARD && format.id === code.format);
  if (!standard || !whole(tables.shapes.canonical)?.test(code.text)) {
    return { system: null, system_letter: null, controlled_by: null, failure_type: null, base: code };
  }
  const [base, failureType] = code.text.split("-");
  /** @param {number} length */
  const by = (length) => lookedUp(tables.controlled_by, base.slice(0, length), null);
  return {
    system: tables.systems[base[0]],
    system_letter: base[0],
    controlled_by: by(3) ?? by(2),
    failure_type:
      failureType === undefined
        ? null
        : { code: failureType, meaning: lookedUp(tables.failure_types, failureType, null) },
    base: { format: code.format, text: base },
  };
}

/**
 * The names of the bits that are set in a status byte (ISO 14229-1), bit 0 first; RangeError outside 0 to 255.
 * @param {number} byte @param {CodeTables} tables
 */
export function statusNames(byte, tables) {
  if (!Number.isInteger(byte) || byte < 0 || byte > 0xff) {
    throw new RangeError(`a status byte lies between 0 and 255, not ${byte}`);
  }
  return tables.status_bits.filter((_, bit) => byte & (1 << bit)).map((bit) => bit.name);
}

/**
 * The code's segment in `/codes/<slug>/`: another one for every canonical text, see `slug_of` in Python.
 * @param {string} text
 */
export function slug(text) {
  /** @param {string} char */
  const isDigit = (char) => char >= "0" && char <= "9";
  const escaped = text.replace(/[^A-Z0-9-]/gu, (char, at) =>
    char === "." && at > 0 && isDigit(text[at - 1]) && isDigit(text[at + 1] ?? "")
      ? char
      : `~${char.codePointAt(0)?.toString(16)}~`,
  );
  return escaped.toLowerCase() || "~~";
}
