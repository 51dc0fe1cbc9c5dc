/** Codes that an owner types or pastes where nothing but codes is asked for. Pure. */

import { readCode } from "./codes.js";
import { readQuery } from "./query.js";

/**
 * What the owner's text may be: a code in each of the club's notations. They share their text.
 * @param {FaultCode[]} matches
 */
export function textOf(matches) {
  return matches[0].text;
}

/**
 * As a whole, or piece by piece where that finds more: "P0562, 4 long 2 short".
 * @param {string} text @param {string[]} pieces @param {{formats: CodeFormat[], tables: CodeTables}} club
 */
function fromReport(text, pieces, { formats, tables }) {
  const { codes } = readQuery(text, formats, tables);
  const each = pieces.flatMap((piece) => readQuery(piece, formats, tables).codes);
  return each.length > codes.length ? each : codes;
}

/**
 * The codes of a text: pieces between commas as one types single codes, else as in a pasted report.
 * @param {string} text @param {{formats: CodeFormat[], tables: CodeTables}} club
 */
export function codesIn(text, { formats, tables }) {
  const pieces = text
    .split(/[,;\n]+/)
    .map((piece) => piece.trim())
    .filter(Boolean);
  const single = pieces.map((piece) => readCode(piece, formats, tables).matches);
  const found = single.every((matches) => matches.length) ? single : fromReport(text, pieces, { formats, tables });
  return [...new Map(found.map((matches) => [textOf(matches), matches])).values()];
}
