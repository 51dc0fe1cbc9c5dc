/** The causes' own cards on the page: their shares for the owner's bike, and which of them the answers ruled out. */

import { percentText, rounded, say } from "./core/plan-words.js";
import { el } from "./dom.js";

/**
 * @param {Plan} plan what `makePlan` gives
 * @param {Bike} bike the one reckoned with
 * @param {boolean} answered whether anything was answered yet
 * @param {PlanWords} words the page's sentences
 */
export function showShares(plan, bike, answered, words) {
  const shares = new Map(plan.causes.map((share) => [share.id, share]));
  for (const card of document.querySelectorAll("[data-cause]")) {
    const { cause } = card.dataset;
    const share = shares.get(cause);
    if (share) {
      draw(card, share, bike, words);
    }
    const isOut = answered && !Object.hasOwn(plan.chances, cause);
    card.toggleAttribute("data-elsewhere", !share);
    note(card, share ? isOut && "Ruled out by your answers." : "Not on your bike.");
    const mending = document.getElementById(`fix-cause-${cause}`);
    if (mending) {
      note(mending, !share && "Not on your bike.");
    }
    // Wherever else the page names it.
    for (const link of document.querySelectorAll(`a[href="#cause-${CSS.escape(cause)}"], a[href="#fix-cause-${CSS.escape(cause)}"]`)) {
      link.toggleAttribute("data-not-mine", !share);
    }
  }
}

/** @param {Element} card @param {Share} share @param {Bike} bike @param {PlanWords} words */
function draw(card, { share, low, high, yours }, bike, words) {
  /** @param {number} part */
  const width = (part) => String(Math.round(1000 * part) / 10);
  set(card, ".bar__share", "width", width(share));
  set(card, ".bar__interval", "x", width(low));
  set(card, ".bar__interval", "width", width(high - low));
  const percent = percentText(share, words);
  const interval = say(words, "interval", { low: String(rounded(100 * low)), high: String(rounded(100 * high)) });
  set(card, ".bar", "aria-label", `${percent}, ${interval}`);
  write(card, ".share__percent", percent);
  write(card, ".share__interval", interval);
  write(card, "[data-yours]", bike && yours ? say(words, "cases_yours", { n: String(yours) }) : "");
  card.querySelector("[data-yours]")?.toggleAttribute("hidden", !(bike && yours));
}

/** @param {Element} card @param {string} selector @param {string} name @param {string} value */
function set(card, selector, name, value) {
  card.querySelector(selector)?.setAttribute(name, value);
}

/** @param {Element} card @param {string} selector @param {string} text */
function write(card, selector, text) {
  const element = card.querySelector(selector);
  if (element) {
    element.textContent = text;
  }
}

/** @param {Element} card @param {string | false} text */
function note(card, text) {
  card.toggleAttribute("data-out", Boolean(text));
  card.querySelector("[data-out-note]")?.remove();
  if (text) {
    card.querySelector("h3, h4")?.after(el("p", { class: "out-note", "data-out-note": true }, text));
  }
}
