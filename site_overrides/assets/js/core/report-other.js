/** What is no case: that something in an entry is wrong, and a fault that has no entry yet. Pure. */

import { codesOf, put, Reading, vehicleOf } from "./report-case.js";

export const PARTS = ["ride-advice", "causes", "checks", "mending", "costs", "codes", "machines", "other"];

/** @param {Filled} filled @param {ReportFacts} facts @returns {{tree: {[key: string]: Plain}, problems: Problem[]}} */
export function correctionOf(filled, facts) {
  const reading = new Reading(filled, facts);
  /** @type {{[key: string]: Plain}} */
  const tree = { fault: facts.fault?.id ?? "" };
  if (!facts.fault) {
    reading.wrong("fault", "Open the entry first, and come here from there.", true);
  }
  const part = reading.one("part");
  if (!PARTS.includes(part)) {
    reading.wrong("part", "Which part of the entry is it?", true);
  }
  put(tree, {
    part,
    wrong: reading.text("wrong", "What is wrong there?", true),
    right: reading.text("right", "", false),
    known_from: reading.text("known_from", "", false),
  });
  return { tree, problems: reading.problems };
}

/** @param {Filled} filled @param {ReportFacts} facts @returns {{tree: {[key: string]: Plain}, problems: Problem[]}} */
export function newFaultOf(filled, facts) {
  const reading = new Reading(filled, facts);
  /** @type {{[key: string]: Plain}} */
  const tree = { vehicle: vehicleOf(reading), seen: reading.day("seen", "On which day was it seen?", true) ?? "" };
  put(tree, {
    conditions: reading.list("conditions", /[\n,;]/u),
    codes: codesOf(reading),
    symptoms: reading.list("symptoms"),
    story: reading.text("story", "Tell what happened, and what helped if anything did.", true),
  });
  return { tree, problems: reading.problems };
}
