/**
 * What a workshop is told, as lines of plain text: what was read and measured first, then what was tried, what is still open,
 * and last what the club guesses.
 */

import { beforeRiding } from "./plan-beside.js";
import { causeName, named } from "./plan-story.js";
import { percentText, say, sentence } from "./plan-words.js";

/** What is to be done in each check, or what it is called. @param {Page} page */
function tasksOf({ names, checks }) {
  return { ...checks, ...names.tasks };
}

/**
 * What a plan has to tell a workshop.
 * @param {PlanSituation} situation @param {Answers} answers @param {(answer: Answer) => string} inWords
 * @param {FreeWork[]} free what the maker may pay for on this bike @param {Page} page @returns {Told}
 */
export function toldOf({ plan, problem, owner }, answers, inWords, free, page) {
  /** @param {boolean} isFix */
  const texts = (isFix) => answers.list.filter(({ fix }) => (fix !== undefined) === isFix).map(inWords);
  const left = Object.entries(plan.chances).sort((one, other) => other[1] - one[1]);
  const isConfirmed = (/** @type {string[]} */ covers) => covers.length > 0 && covers.every((cause) => answers.covered.includes(cause));
  return {
    checked: texts(false),
    tried: texts(true),
    open: beforeRiding(problem, owner).map((id) => named(tasksOf(page), id)),
    free: free.map(({ kind, source, covers }) => {
      const notice = sentence(`${kind} ${source}`);
      return isConfirmed(covers) ? `${notice}: confirmed by the dealer` : `${notice}: please look up by the frame number whether it pays, before anything is charged`;
    }),
    guess: left.map(([id, part]) => `${sentence(causeName(id, page))}: ${percentText(part, page.words)}`),
    before: say(page.words, "before_riding"),
  };
}

/** A heading with lines below it; nothing where there are none. @param {string} title @param {string[]} rows */
export function section(title, rows) {
  return rows.length ? [`${title}:`, ...rows.map((row) => `– ${row}`)] : [];
}

/** @param {Told} told */
export function foundLines({ checked, tried }) {
  return [
    ...(checked.length ? section("What I checked", checked) : ["I have checked nothing yet."]),
    ...section("What was tried already", tried),
  ];
}

/** @param {Told} told */
export function openLines({ open, free, guess, before }) {
  return [
    ...section(`${before}, still to be checked`, open),
    ...section("It may cost nothing", free),
    ...section("The club's guess, from other bikes", guess),
  ];
}

/** The whole of it, below what it is about. @param {string[]} about @param {Told} told */
export function workshopLines(about, told) {
  return [...about, ...foundLines(told), ...openLines(told)];
}

/** What was read: codes that were ticked, those that the reader came with, and what was written. @param {NoteForm} form @param {string[]} read */
function codeRows({ codes, others }, read) {
  const known = new Set(codes.map(({ code }) => code.toUpperCase()));
  const isRead = new Set(read.map((code) => code.toUpperCase()));
  const rows = codes.filter((row) => row.read || row.states.length > 0 || isRead.has(row.code.toUpperCase()));
  return [
    ...rows.map(({ code, states }) => (states.length ? `${code} (${states.join(", ")})` : code)),
    ...read.filter((code) => !known.has(code.toUpperCase())),
    ...(others ? [others] : []),
  ];
}

/** What the owner ticked about recalls and bulletins comes before what the plan knows of them. @param {NoteForm["notices"]} notices @param {string[]} free */
function freeRows(notices, free) {
  const ticked = notices.filter(({ answers }) => answers.length === 1);
  const left = free.filter((line) => !ticked.some(({ notice }) => line.startsWith(`${notice}: `)));
  return [...ticked.map(({ notice, answers }) => `${notice}: ${answers[0] === "yes" ? "confirmed by the dealer" : "the dealer says that it does not cover this bike"}`), ...left];
}

/** @type {Told} */
const NOTHING_TOLD = { checked: [], tried: [], open: [], free: [], guess: [], before: "" };

/**
 * The note for the workshop as text.
 * @param {NoteForm} form what was ticked and written @param {string} bike empty: none is known @param {string[]} read codes
 * @param {?Told} plan null: there is none
 */
export function noteLines(form, bike, read, plan) {
  const told = plan ?? NOTHING_TOLD;
  const limit = form.limit ? ` Please ring me before it goes beyond ${form.limit.replace(/[.\s]+$/, "")}.` : "";
  return [
    ...[form.about, bike && `Bike: ${bike}`, ...form.facts].filter(Boolean),
    ...section("Codes that I read", codeRows(form, read)),
    ...foundLines({ ...told, checked: [...told.checked, ...form.checked], tried: [...told.tried, ...form.changed] }),
    ...section("What I notice", form.noticed),
    ...openLines({ ...told, free: freeRows(form.notices, told.free) }),
    "A guess is not a finding: please confirm a cause before parts are ordered.",
    `Please tell me before you begin what it costs to confirm the likeliest cause, and what to mend it.${limit}`,
  ];
}
