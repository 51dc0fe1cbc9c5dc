/**
 * How answers look, and where each stands: what is sure first, below it what is not, and in a row of their own the pages
 * that only lead on. Only texts are set, so nothing in the finder's data can become markup.
 */

import { marked, tellingText } from "./core/marks.js";
import { el } from "./dom.js";

/** @type {Record<string, string>} */
const KINDS = { fault: "Fault", code: "Code", none: "Code", model: "Model", system: "System", component: "Part", values: "Values" };
const NOT_SURE = "Not sure. Perhaps one of these";
const NOT_DESCRIBED = "Not described here";

/** @type {Record<string, string>} */
const WHY = {
  failure: "Same code, other failure type",
  near: "Another code, close to what was typed",
};

/**
 * One answer: a link that is an option of the list. A link in an option would not do, as nothing in an option can have
 * the focus. `address` makes an address of the site into one of this page; `bike` is the name of the owner's, or null.
 * @param {FinderAnswer} answer @param {number} at @param {FinderRoot} root
 * @param {{address: (path: string) => string, bike: ?string}} look
 */
export function option(answer, at, root, { address, bike }) {
  const { entry, matched } = answer;
  const link = document.createElement("a");
  link.id = `finder-answer-${at}`;
  const isShort = isOther(answer);
  link.className = `answer answer--${entry.kind}${isShort ? " answer--short" : ""}`;
  link.dataset.sure = answer.sure ? "yes" : "no";
  link.dataset.kind = answer.sort;
  link.href = address(entry.address);
  link.setAttribute("role", "option");
  link.setAttribute("aria-selected", "false");
  for (const [name, text] of isShort ? named(entry) : [...named(entry), ...about(answer, root, bike)]) {
    if (text) {
      const isFound = name === "title" || name === "text" || name === "detail";
      const part = el("span", { class: `answer__${name}`, dir: "auto" }, ...(isFound ? withMarks(text, matched) : [text]));
      // The space keeps the parts apart where the link is read out in one.
      link.append(part, " ");
    }
  }
  return link;
}

/** @typedef {[name: string, text: string | false | null | undefined][]} Parts */

/** @param {ShownEntry} entry @returns {Parts} */
function named(entry) {
  return [
    ["kind", KINDS[entry.kind]],
    ["title", entry.title],
  ];
}

/** @param {FinderAnswer} answer @param {FinderRoot} root @param {?string} bike @returns {Parts} */
function about(answer, root, bike) {
  const ride = root.rides[rideOf(answer) ?? ""];
  // A colour is advice: only what is sure gives any.
  const look = answer.sure ? (ride?.look ?? "") : "unsure";
  return [
    [`ride answer__ride--${look}`, ride?.word],
    ["elsewhere", answer.elsewhere && `Not known on your bike, ${bike}`],
    ["why", WHY[answer.why]],
    ["text", textOf(answer)],
    ["detail", detail(answer.entry)],
  ];
}

/** @param {FinderAnswer} answer */
function isOther({ sure, sort, why }) {
  return !sure && sort === "other" && why !== "several";
}

/**
 * Puts answers where they stand, behind those that are there already. They come in their order, so nothing moves.
 * @param {HTMLElement} results @param {{answer: FinderAnswer, link: HTMLElement}[]} rows
 */
export function place(results, rows) {
  for (const { answer, link } of rows) {
    const isMaybe = !answer.sure && !isOther(answer);
    const name = answer.sure || answer.why === "several" ? null : isMaybe ? "perhaps" : "others";
    (name ? group(results, name) : results).append(link);
  }
}

/** @param {HTMLElement} results @param {"perhaps" | "others"} name */
function group(results, name) {
  const there = results.querySelector(`.answers--${name}`);
  if (there) {
    return there;
  }
  const isFirst = results.querySelector('[data-sure="yes"]') === null;
  const heads = { perhaps: isFirst ? `${NOT_SURE}, or nobody has described it yet` : NOT_SURE, others: "Parts and pages" };
  const head = el("p", { class: "answers__head", id: `finder-${name}`, role: "presentation" }, heads[name]);
  const made = el("div", { class: `answers answers--${name}`, role: "group", "aria-labelledby": head.id }, head);
  results.append(made);
  return made;
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
export function summary({ codes, known, sure, maybe, more, hidden }, root) {
  const others = hidden ? ` ${hidden} more on other models.` : "";
  if (codes.length && !known) {
    return `No entry has this code. ${root.rides.unknown.word}.${others}`;
  }
  if (sure + maybe === 0) {
    return hidden ? `Nothing for your bike.${others}` : `${NOT_DESCRIBED}. That says nothing of how harmless it is. Try other words, or ask the club.`;
  }
  const all = sure + maybe;
  const told = all === 1 ? "1 answer" : `${all} answers`;
  if (!sure) {
    return `${told}, ${all === 1 ? "and not a sure one" : "none of them sure"}.${others}`;
  }
  return (more ? `The first ${all} of ${all + more} answers: type more to narrow them.` : `${told}.`) + others;
}
