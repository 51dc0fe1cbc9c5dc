/** How an answer looks. Only texts are set, so nothing in the finder's data can become markup. */

import { marked, tellingText } from "./core/marks.js";

/** @type {Record<string, string>} */
const KINDS = { fault: "Fault", code: "Code", none: "Code", model: "Model", system: "System", component: "Part" };
/** @type {Record<string, string>} */
const WHY = {
  failure: "Same code, other failure type",
  near: "Another code, close to what was typed",
};

/**
 * One answer: a link that is an option of the list. A link in an option would not do, as nothing in an option can have
 * the focus. `address` makes an address of the site into one of this page; `bike` is the name of the owner's, or null.
 * @param {FinderAnswer} answer @param {number} place @param {FinderRoot} root
 * @param {{address: (path: string) => string, bike: ?string}} look
 */
export function option(answer, place, root, { address, bike }) {
  const { entry, matched } = answer;
  const link = document.createElement("a");
  link.id = `finder-answer-${place}`;
  link.className = `answer answer--${entry.kind}`;
  link.href = address(entry.address);
  link.setAttribute("role", "option");
  link.setAttribute("aria-selected", "false");
  const ride = root.rides[rideOf(answer) ?? ""];
  /** @type {[name: string, text: string | false | null | undefined][]} */
  const parts = [
    ["kind", KINDS[entry.kind]],
    ["title", entry.title],
    [`ride answer__ride--${ride?.look}`, ride?.word],
    ["elsewhere", answer.elsewhere && `Not known on your bike, ${bike}`],
    ["why", WHY[answer.why]],
    ["text", textOf(answer)],
    ["detail", detail(entry)],
  ];
  for (const [name, text] of parts) {
    if (!text) {
      continue;
    }
    const part = document.createElement("span");
    part.className = `answer__${name}`;
    part.dir = "auto";
    const isFound = name === "title" || name === "text" || name === "detail";
    part.append(...(isFound ? withMarks(text, matched) : [text]));
    // The space keeps the parts apart where the link is read out in one.
    link.append(part, " ");
  }
  return link;
}

/**
 * What no entry says of the owner's own bike is not known there, whatever holds for others.
 * @param {FinderAnswer} answer
 */
function rideOf({ entry, elsewhere }) {
  return entry.kind === "code" && elsewhere ? "unknown" : entry.ride;
}

/** @param {string} text @param {string[]} matched */
function withMarks(text, matched) {
  return marked(text, matched).map(([piece, isMarked]) => {
    if (!isMarked) {
      return piece;
    }
    const mark = document.createElement("mark");
    mark.textContent = piece;
    return mark;
  });
}

/** @param {FinderAnswer} answer */
function textOf({ entry, matched }) {
  if (entry.kind === "none") {
    return entry.texts.join(" · ");
  }
  return entry.kind === "code" ? entry.texts.join(" · ") : tellingText(entry.texts, entry.title, matched);
}

/** @param {ShownEntry} entry */
function detail(entry) {
  const models = entry.models.map(([name, years]) => (entry.title === name ? years : `${name} ${years}`));
  const cases = entry.cases && (entry.cases === 1 ? "1 case report" : `${entry.cases} case reports`);
  return [entry.codes.join(", "), ...models, entry.system, cases].filter(Boolean).join(" · ");
}

/**
 * What a screen reader says of the answers, and the line above them.
 * @param {FinderAnswers} found @param {FinderRoot} root
 */
export function summary({ codes, known, count, more, hidden }, root) {
  const others = hidden ? ` ${hidden} more on other models.` : "";
  if (!known) {
    const none = codes.length ? `No entry has this code. ${root.rides.unknown.word}.` : "Nothing found. Try fewer or other words.";
    return none + others;
  }
  if (count === 0) {
    return `Nothing for your bike.${others}`;
  }
  const told = count === 1 ? "1 answer" : `${count} answers`;
  return (more ? `The first ${count} of ${count + more} answers: type more to narrow them.` : `${told}.`) + others;
}
