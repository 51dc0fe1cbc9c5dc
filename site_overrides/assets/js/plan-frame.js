/** What the views of steps have in common. */

import { minutesText, moneyText } from "./core/plan-words.js";
import { el } from "./dom.js";

/**
 * Copies of what stands on a card, of the elements that a selector names.
 * @param {?Element} card @param {string} selector
 */
export function fromCard(card, selector) {
  return [...(card?.children ?? [])].filter((part) => part.matches(selector)).map(copyOf);
}

/** A copy without ids; what it links to stays the same where it comes from another page. @param {Element} part */
export function copyOf(part) {
  const copy = /** @type {Element} */ (part.cloneNode(true));
  [copy, ...copy.querySelectorAll("[id]")].forEach((each) => each.removeAttribute("id"));
  if (part.ownerDocument !== document) {
    for (const name of /** @type {const} */ (["href", "src"])) {
      // A drawing uses the outline of the page that shows it.
      for (const each of copy.querySelectorAll(`[${name}]:not(use)`)) {
        each.setAttribute(name, new URL(each.getAttribute(name) ?? "", part.ownerDocument.baseURI).href);
      }
    }
  }
  return copy;
}

/**
 * A step: a kicker, what it is about, and what stands below.
 * @param {string} look @param {string} kicker @param {string} title @param {...Child} rest
 */
export function frame(look, kicker, title, ...rest) {
  // The focus comes here after each answer: what is to be done now is read out, and the answers are the next stop.
  const heading = el("h3", { class: "now__title", id: "plan-now", tabindex: "-1" }, title);
  return el(
    "section",
    { class: `now now--${look}`, "aria-labelledby": "plan-now" },
    el("p", { class: "now__kicker" }, kicker),
    heading,
    ...rest,
  );
}

/**
 * What a step costs, and how much of it is the owner's own time.
 * @param {Pick<StepFigures, "cost" | "minutes">} step @param {Page} page
 */
export function costText({ cost, minutes }, page) {
  const money = cost > 0 ? moneyText(cost, page) : null;
  const time = minutes > 0 ? `${minutesText(minutes, page.words)} of your own time` : null;
  return (
    [money && (time ? `${money} with ${time}` : money), !money && time].filter(Boolean).join("") || "next to nothing"
  );
}
