/**
 * From what an owner filled in to the case file, and what is wrong or missing, field by field. It asks what the schema asks
 * (schemas/case.schema.json) and what of the rules a browser can know. Pure.
 */

import { readCode } from "./codes.js";
import { personal } from "./personal.js";
import { distance, distanceText, hasMarkup, inKm, isDay, line, LONGEST_LINE, LONGEST_TEXT, money, MOST_ROWS, paragraphs, rows } from "./report-clean.js";

export const UNLISTED = "unlisted";
const FIX_RESULTS = ["helped", "no-change", "worse"];
const STATUS = ["stored", "present", "pending", "intermittent"];
const HIGHEST_PRICE = 100_000;

/** What is read from the fields, one after the other, with what is wrong. */
export class Reading {
  /** @param {Filled} filled @param {ReportFacts} facts */
  constructor(filled, facts) {
    this.filled = filled;
    this.facts = facts;
    /** @type {Problem[]} */
    this.problems = [];
  }

  /** @param {string} field */
  all(field) {
    return Object.hasOwn(this.filled, field) ? this.filled[field] : [];
  }

  /** @param {string} field */
  one(field) {
    return line(this.all(field)[0] ?? "");
  }

  /** @param {string} field @param {string} say @param {boolean} missing */
  wrong(field, say, missing = false) {
    this.problems.push({ field, say, missing, personal: [] });
  }

  /** A text that everybody will read: no way to a person, nothing that acts, not too long. @param {string} field @param {string} text @param {number} longest */
  shown(field, text, longest) {
    const found = personal(text, this.facts.countries);
    if (found.length) {
      const what = [...new Set(found.map(({ say }) => say))].join(", ");
      this.problems.push({
        field,
        say: `This may lead to a person: ${what}. Everybody will read the report, so take it out. If it is none, write it another way.`,
        missing: false,
        personal: found.map(({ start, end }) => text.slice(start, end)),
      });
    } else if (hasMarkup(text)) {
      this.wrong(field, "Signs as in <b> or [words](link) cannot stand in a report. Say it in words.");
    } else if (text.length > longest) {
      this.wrong(field, `That is too long by ${text.length - longest} signs.`);
    }
    return text;
  }

  /** Ticked and typed rows of one field. @param {string} field @param {RegExp} [between] */
  list(field, between) {
    const found = [...new Set(this.all(field).flatMap((each) => rows(each, between)))].slice(0, MOST_ROWS);
    found.forEach((each) => this.shown(field, each, LONGEST_LINE));
    return found;
  }

  /** @param {string} field @param {string} ask @param {boolean} needed */
  text(field, ask, needed = false) {
    const text = paragraphs(this.all(field)[0] ?? "");
    if (!/\p{L}|\p{N}/u.test(text)) {
      if (needed) {
        this.wrong(field, ask, true);
      }
      return "";
    }
    return this.shown(field, text, LONGEST_TEXT);
  }

  /** @param {string} field @param {string} unit @param {string} ask @param {boolean} needed @returns {?Distance} */
  distance(field, unit, ask, needed) {
    const typed = this.one(field);
    if (!typed) {
      if (needed) {
        this.wrong(field, ask, true);
      }
      return null;
    }
    const found = distance(typed, unit === "mi" ? "mi" : "km");
    if (!found) {
      this.wrong(field, `Write a whole number, such as 61200${this.facts.unit === "mi" ? "" : ", or with its unit 38000 mi"}.`);
    }
    return found;
  }

  /** @param {string} field @param {string} ask @param {boolean} needed */
  day(field, ask, needed) {
    const typed = this.one(field);
    if (!typed) {
      if (needed) {
        this.wrong(field, ask, true);
      }
      return null;
    }
    if (!isDay(typed)) {
      this.wrong(field, "Write the day as 2026-03-14.");
      return null;
    }
    if (typed > this.facts.today) {
      this.wrong(field, `That day has not come yet; today is ${this.facts.today}.`);
      return null;
    }
    return typed;
  }
}

/**
 * The case file, whole only where there is no problem.
 * @param {Filled} filled @param {ReportFacts} facts
 * @returns {{tree: {[key: string]: Plain}, problems: Problem[]}}
 */
export function caseOf(filled, facts) {
  const reading = new Reading(filled, facts);
  const vehicle = vehicleOf(reading);
  const seen = reading.day("seen", "On which day was it seen?", true);
  const conditions = reading.list("conditions", /[\n,;]/u);
  const codes = codesOf(reading);
  const symptoms = reading.list("symptoms");
  const fault = facts.fault && reading.one("fault") === facts.fault.id ? facts.fault : null;
  const tried = fault ? triedOf(reading, fault) : [];
  const outcome = outcomeOf(reading, fault);
  if (fault) {
    checkFits(reading, fault);
  }
  /** @type {{[key: string]: Plain}} */
  const tree = { vehicle, seen: seen ?? "" };
  put(tree, { conditions, codes, symptoms, fault: fault?.id ?? "", tried, outcome });
  tree.source = { kind: "first-hand", title: "Member report" };
  return { tree, problems: reading.problems };
}

/** What is not empty. @param {{[key: string]: Plain}} tree @param {{[key: string]: Plain}} parts */
export function put(tree, parts) {
  for (const [key, value] of Object.entries(parts)) {
    const isEmpty = value === "" || (typeof value === "object" && Object.keys(value).length === 0);
    if (!isEmpty) {
      Object.assign(tree, { [key]: value });
    }
  }
}

/** @param {Reading} reading */
export function vehicleOf(reading) {
  const { models, bike } = reading.facts;
  const model = reading.one("model");
  const year = Number(reading.one("year"));
  const known = models.find(({ id }) => id === model);
  if (!known) {
    reading.wrong("model", model ? "The club's list has no such model. Choose one." : "Which model is it?", true);
  } else if (!Number.isInteger(year) || year < known.first || year > known.last) {
    reading.wrong("year", year ? `It was built from ${known.first} to ${known.last}.` : "Which model year is it?", true);
  }
  const odometer = reading.distance("odometer", reading.one("unit"), "What did the odometer show?", true);
  /** @type {{[key: string]: Plain}} */
  const vehicle = { model, year, odometer: odometer ? distanceText(odometer) : "" };
  put(vehicle, { bike, modified: reading.list("modified", /[\n;]/u) });
  return vehicle;
}

/** @param {Reading} reading @returns {Plain[]} */
export function codesOf(reading) {
  const { formats, tables } = reading.facts;
  const status = reading.one("status");
  /** @type {Map<string, {[key: string]: Plain}>} */
  const found = new Map();
  for (const each of reading.all("codes").flatMap((typed) => rows(typed, /[\n,;]/u))) {
    const { code, ambiguous } = readCode(each, formats, tables);
    if (code) {
      found.set(code.text, STATUS.includes(status) ? { code: code.text, status } : { code: code.text });
    } else {
      reading.wrong("codes", ambiguous ? `${each} may be two different codes. Write it as the reader shows it.` : `${each} is no fault code. Write it as the reader shows it, or under what you noticed.`);
    }
  }
  return [...found.values()];
}

/** @param {Reading} reading @param {ReportFault} fault @returns {Plain[]} */
function triedOf(reading, fault) {
  const before = reading.all("order");
  const place = (/** @type {string} */ field) => (before.includes(field) ? before.indexOf(field) : before.length);
  const fields = [...fault.checks.map(({ id }) => `check ${id}`), ...fault.causes.map(({ id }) => `fix ${id}`)];
  const ordered = fields.map((field, at) => ({ field, at })).sort((one, other) => place(one.field) - place(other.field) || one.at - other.at);
  return ordered.flatMap(({ field }) => {
    const [kind, id] = field.split(" ");
    const result = reading.one(field);
    const check = kind === "check" ? fault.checks.find((each) => each.id === id) : null;
    const can = check ? check.results : FIX_RESULTS;
    if (!result) {
      return [];
    }
    if (!can.includes(result)) {
      reading.wrong(field, "That cannot come out of it. Choose again.");
      return [];
    }
    return [check ? checkRow(reading, check, result) : { fix: id, result }];
  });
}

/** @param {Reading} reading @param {ReportCheck} check @param {string} result @returns {Plain} */
function checkRow(reading, check, result) {
  const field = `reading ${check.id}`;
  const typed = reading.shown(field, reading.one(field), LONGEST_LINE);
  const value = typed && check.unit && /^[-+]?[0-9]+(?:[.,][0-9]+)?$/u.test(typed) ? `${typed} ${check.unit}` : typed;
  return value ? { check: check.id, result, reading: value } : { check: check.id, result };
}

/** @param {Reading} reading @param {?ReportFault} fault */
function outcomeOf(reading, fault) {
  const state = reading.one("state");
  /** @type {{[key: string]: Plain}} */
  const outcome = { state };
  if (!["open", "solved", "returned"].includes(state)) {
    reading.wrong("state", "How did it end?", true);
    return outcome;
  }
  const isOver = state !== "open";
  const cause = isOver ? causeOf(reading, fault, outcome) : "";
  const paid = paidOf(reading);
  const note = reading.text("note", "Say in a few words what it was: the entry does not list it.", cause === UNLISTED);
  put(outcome, { paid, note });
  return outcome;
}

/** What it was, of what is over. @param {Reading} reading @param {?ReportFault} fault @param {{[key: string]: Plain}} outcome */
function causeOf(reading, fault, outcome) {
  const known = [...(fault?.causes ?? []).map(({ id }) => id), UNLISTED];
  const chosen = reading.one("cause");
  const cause = known.includes(chosen) ? chosen : "";
  if (!cause) {
    reading.wrong("cause", "What was it? “Something else” is an answer too.", true);
  }
  const also = reading.all("also").filter((each) => each !== UNLISTED && each !== cause && known.includes(each));
  const after = reading.distance("after", reading.one("unit"), "", false);
  put(outcome, { cause, also: cause ? [...new Set(also)] : [], after: after ? distanceText(after) : "" });
  if (reading.one("verified") === "yes") {
    outcome.verified = true;
  }
  return cause;
}

/** @param {Reading} reading */
function paidOf(reading) {
  /** @type {{[key: string]: Plain}} */
  const paid = {};
  for (const field of ["parts", "labour"]) {
    const typed = reading.one(field);
    const amount = money(typed);
    if (typed && (amount === null || amount > HIGHEST_PRICE)) {
      reading.wrong(field, "Write an amount of money, such as 14 or 7.50.");
    } else if (amount !== null) {
      paid[field] = amount;
    }
  }
  const where = reading.one("where");
  put(paid, { where: ["home", "workshop"].includes(where) ? where : "" });
  return paid;
}

/** As rule KB416: the bike and the codes are the fault's. @param {Reading} reading @param {ReportFault} fault */
function checkFits(reading, fault) {
  const [model, year] = [reading.one("model"), Number(reading.one("year"))];
  if (fault.models.length && !fault.models.some(([id, , years]) => id === model && years.includes(year))) {
    reading.wrong("fault", "The entry does not name this bike. Correct the bike, or say that it is another fault.");
  }
  const codes = codesOf(new Reading({ codes: reading.all("codes") }, reading.facts)).map((each) => /** @type {{code: string}} */ (each).code);
  const families = fault.codes.map(familyOf);
  if (codes.length && families.length && !codes.some((code) => families.includes(familyOf(code)))) {
    reading.wrong("codes", `None of these is a code of this fault (${fault.codes.join(", ")}). Correct it, or say that it is another fault.`);
  }
}

/** A code without its type of failure. @param {string} code */
function familyOf(code) {
  return code.replace(/^([PCBU][0-9A-F]{4})-[0-9A-F]{2}$/u, "$1");
}

/** Whether a case counts already: ridden far enough since, or verified. @param {Filled} filled @param {ReportFacts} facts */
export function counts(filled, facts) {
  const reading = new Reading(filled, facts);
  const after = distance(reading.one("after"), reading.one("unit") === "mi" ? "mi" : "km");
  return reading.one("verified") === "yes" || (after !== null && inKm(after) >= facts.solved_after);
}
