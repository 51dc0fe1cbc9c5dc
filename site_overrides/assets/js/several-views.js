/** How the page about several codes shows what it found. Only texts are set. */

import { slug } from "./core/codes.js";
import { componentName } from "./core/several-lookup.js";
import { countText, listText, sentence } from "./core/plan-words.js";
import { bar, button, el } from "./dom.js";

const MOST_SHOWN = 8;
/** So many stand in sight: the plan comes below them. */
const FIRST = 3;
const LEAST_SHOWN = 0.005;
// `LEAST` in core/several.js: a component has it of a code that no entry explains by it.
const NOT_EXPLAINED = 0.02;

/** @param {number} part */
function percent(part) {
  return part > 0 && part < 0.005 ? "under 1\u00a0%" : `${Math.round(100 * part)}\u00a0%`;
}

/** The codes that were entered, each a button that takes it out. @param {CodeRow[]} rows @param {SeveralLook} look */
export function chipsView(rows, { remove }) {
  return el(
    "ul",
    { class: "chips several-chips", "aria-label": "Codes entered" },
    rows.map(({ text }) =>
      el(
        "li",
        {},
        button(
          "chip",
          () => remove(text),
          text,
          el("span", { class: "several-chips__out", "aria-hidden": "true" }, "×"),
          el("span", { class: "visually-hidden" }, ": take it out"),
        ),
      ),
    ),
  );
}

/** What is known of each code, and the faults that show it. @param {CodeRow[]} rows @param {SeveralLook} look */
export function codesView(rows, { address, rides }) {
  const list = el(
    "ul",
    { class: "several-codes" },
    rows.map((row) =>
      el(
        "li",
        { class: `several-code several-code--${row.state}` },
        codeHead(row, address),
        faultList(row, address, rides),
      ),
    ),
  );
  return el(
    "section",
    { class: "part", "aria-labelledby": "several-each" },
    el("h2", { id: "several-each" }, "Each code by itself"),
    list,
  );
}

/** @param {CodeRow} row @param {SeveralLook["address"]} address */
function codeHead(row, address) {
  const isKnown = row.state !== "unknown";
  const code = isKnown
    ? el("a", { class: "code__text", href: address(`codes/${slug(row.page)}/`) }, row.text)
    : el("span", { class: "code__text" }, row.text);
  return el(
    "div",
    { class: "several-code__head" },
    code,
    " ",
    el("span", { class: "several-code__state" }, stateText(row)),
  );
}

/** @param {CodeRow} row @param {SeveralLook["address"]} address @param {RideRow[]} rides */
function faultList({ faults }, address, rides) {
  return faults.length
    ? el(
        "ul",
        { class: "rows" },
        faults.map((fault) => faultRow(fault, address, rides)),
      )
    : null;
}

/** @param {CodeRow} row */
function stateText({ state, faults, elsewhere }) {
  if (state === "unknown") {
    return "Nobody has written about it yet. That is not the same as harmless.";
  }
  if (state === "elsewhere") {
    return `No entry for your bike; ${elsewhere === 1 ? "one" : elsewhere} for others.`;
  }
  if (state === "follow_on") {
    return "Only a consequence of another code: left out here.";
  }
  return faults.length === 1 ? "One known fault shows it:" : `${faults.length} known faults show it:`;
}

/** @param {CodeFault} fault @param {SeveralLook["address"]} address @param {RideRow[]} rides */
function faultRow(fault, address, rides) {
  const ride = /** @type {RideRow} */ (rides.find(({ level }) => level === fault.ride));
  return el(
    "li",
    { class: "row" },
    el("a", { class: "row__link", href: address(`faults/${fault.fault}/`) }, fault.title),
    " ",
    el("span", { class: `ride-tag ride-tag--${ride.look}` }, ride.word),
    fault.follow_on ? el("span", { class: "several-code__note" }, " Here the code is a consequence only.") : null,
    fault.near
      ? el("span", { class: "several-code__note" }, " Listed with another failure type, or without one.")
      : null,
  );
}

/** What the advice does not know. @param {string[]} unknown */
export function rideWhy(unknown) {
  return unknown.length ? `Of ${listText(unknown)} nothing is known.` : "";
}

/**
 * The components, the one that would explain most first.
 * @param {Suspects} found @param {CodeFault[]} faults @param {SeveralLook} look
 */
export function suspectsView(found, faults, { address }) {
  const { suspects, used } = found;
  if (suspects.length === 0) {
    return null;
  }
  const shown = suspects.filter(({ probability }) => probability >= LEAST_SHOWN).slice(0, MOST_SHOWN);
  const whole = suspects.filter((each) => missedBy(each).length === 0);
  const views = shown.map((each) => suspectRow(each, used, faults, address));
  const [first, rest] = [views.slice(0, FIRST), views.slice(FIRST)];
  const isSplit = used.length > 1 && whole.length === 0;
  const title =
    used.length === 1
      ? `Which part ${used[0]} comes from`
      : isSplit
        ? "No one part explains them all"
        : "The one part that would explain them all";
  return el(
    "section",
    { class: "part", "aria-labelledby": "several-parts" },
    el("h2", { id: "several-parts" }, title),
    isSplit &&
      el(
        "p",
        { class: "several-none" },
        "As far as the entries go they may well be two troubles: look at each code by itself. If it is one part all the same, in this order:",
      ),
    el("ol", { class: "suspects" }, ...first),
    rest.length > 0 && el("details", { class: "rest" }, el("summary", {}, sentence(countText(rest.length, "more part"))), el("ol", { class: "suspects", start: FIRST + 1 }, ...rest)),
    el(
      "p",
      { class: "several__note" },
      "If it is one part, it is this one with that chance. A rule of thumb for the order of looking, not for buying parts.",
    ),
  );
}

/** @param {Suspect} suspect */
function missedBy({ by_code: byCode }) {
  return Object.keys(byCode).filter((code) => byCode[code] <= NOT_EXPLAINED);
}

/**
 * @param {Suspect} suspect @param {string[]} used @param {CodeFault[]} faults @param {SeveralLook["address"]} address
 */
function suspectRow(suspect, used, faults, address) {
  const missed = missedBy(suspect);
  const parts = used
    .filter((code) => !missed.includes(code))
    .map((code) => `${percent(suspect.by_code[code])} of ${code}`);
  return el(
    "li",
    { class: "suspect" },
    el(
      "div",
      { class: "suspect__head" },
      el(
        "a",
        { class: "suspect__name", href: address(`components/${suspect.component}/`) },
        componentName(suspect.component, faults),
      ),
      " ",
      el("strong", { class: "figure" }, percent(suspect.probability)),
    ),
    bar(suspect.probability, "chance"),
    used.length > 1 &&
      el(
        "p",
        { class: "suspect__codes" },
        [parts.length && `Behind ${listText(parts)}.`, missed.length && ` Does not explain ${listText(missed)}.`]
          .filter(Boolean)
          .join(""),
      ),
  );
}

/** The answer in a sentence. @param {CodeRow[]} rows @param {Suspects} found @param {(id: string) => string} name */
export function summary(rows, { suspects: parts, used }, name) {
  if (parts.length === 0) {
    return `The entries name no part for ${rows.length === 1 ? "this code" : "these codes"}.`;
  }
  const left = rows.map(({ text }) => text).filter((text) => !used.includes(text));
  const why = left.length ? ` ${sentence(listText(left))} ${left.length === 1 ? "does" : "do"} not help to find it: below it stands why.` : "";
  return `The part to look at first: ${name(parts[0].component)}.${why}`;
}
