/** A check that is to be done: its card's own text with its cautions, and its answers as buttons or as a reading. */

import { resultsOf, typedNumber } from "./core/plan-answers.js";
import { sideOf } from "./core/plan.js";
import { minutesText, moneyText, numberText, say } from "./core/plan-words.js";
import { button, el } from "./dom.js";
import { frame, fromCard } from "./plan-frame.js";

const WORD = { bad: "Not good", good: "Good", low: "Too low", high: "Too high", unclear: "Could not tell" };

/** @param {Result} result */
export function resultWord(result) {
  return WORD[result];
}

/** `13.5 V`, `13.5`. @param {number} value @param {string} unit */
export function withUnit(value, unit) {
  return unit ? `${numberText(value)}\u00a0${unit}` : numberText(value);
}

/** @param {PlanCheck} check @param {Page} page */
function unitOf(check, page) {
  return Object.hasOwn(page.units, check.id) ? page.units[check.id] : "";
}

/**
 * A check: `step` is the plan's, or null where the owner chose it.
 * @param {PlanCheck} check @param {?Step} step @param {PlanView} view
 */
export function checkView(check, step, { page, act }) {
  const card = page.source.card(`check-${check.id}`);
  return frame(
    "check",
    step ? "Do this next" : "You chose",
    page.names.checks[check.id],
    needs(check, step, page, act.isOpen),
    ...fromCard(card, ".access-where"),
    ...page.source.cautions(check.id),
    ...fromCard(card, ".check__do"),
    ...fromCard(card, ".where, .spot"),
    ...fromCard(card, ".good"),
    el("h4", { class: "now__ask", id: "plan-ask" }, "What came out?"),
    check.good ? readingForm(check, page, act) : null,
    el("div", { class: "answers", role: "group", "aria-labelledby": "plan-ask" }, answerButtons(check, page, act)),
    step
      ? null
      : el(
          "p",
          {},
          button("quiet", () => act.choose(null), "Back to the cheapest next step"),
        ),
  );
}

/**
 * What it takes now: the card tells what it would take at the start.
 * @param {PlanCheck} check @param {?Step} step @param {Page} page @param {Act["isOpen"]} isOpen
 */
function needs(check, step, page, isOpen) {
  const { words, names } = page;
  const state = page.source.card(`check-${check.id}`)?.querySelector(".needs > li")?.textContent;
  /** @param {string[]} jobs */
  const named = (jobs) => jobs.map((job) => names.access[job]).join(", ");
  const closed = step ? step.access : check.access.filter((job) => !isOpen(job));
  const open = check.access.filter((job) => isOpen(job));
  const rows = [
    state,
    minutesText(step ? step.minutes : check.minutes, words),
    closed.length && (step ? say(words, "open_now", { access: named(closed) }) : `${named(closed)} first`),
    open.length && say(words, "open_already", { access: named(open) }),
    check.tools.map((tool) => names.tools[tool]).join(", "),
    check.cost > 0 && `costs ${moneyText(check.cost, page)}`,
  ];
  return el(
    "ul",
    { class: "needs" },
    rows.filter(Boolean).map((row) => el("li", {}, row)),
  );
}

/** @param {PlanCheck} check @param {Page} page @param {Act} act */
function answerButtons(check, page, act) {
  return /** @type {Result[]} */ ([...likelyResults(check), "unclear"]).map((result) =>
    button(
      `answer-button answer-button--${result}`,
      () => act.answer({ check: check.id, result, value: null }),
      el("span", { class: "answer-button__word" }, WORD[result]),
      // The space keeps the parts apart where the button is read out in one.
      ...(hint(check, result, page)
        ? [" ", el("span", { class: "answer-button__hint" }, hint(check, result, page))]
        : []),
    ),
  );
}

/**
 * Nothing falls below a good range that starts at nothing, unless the entry says what that would mean.
 * @param {PlanCheck} check
 */
function likelyResults(check) {
  /** @param {Result} result */
  const isNothing = (result) => result === "low" && check.good !== null && check.good[0] <= 0 && check.outcomes.low.length === 0;
  return resultsOf(check).filter((result) => !isNothing(result));
}

/** @param {PlanCheck} check @param {Result} result @param {Page} page */
function hint(check, result, page) {
  if (result === "unclear") {
    return "or not done";
  }
  if (!check.good) {
    return result === "good" ? "as it should be" : null;
  }
  const [low, high] = check.good;
  const unit = unitOf(check, page);
  return /** @type {Partial<Record<Result, string>>} */ ({
    low: `below ${withUnit(low, unit)}`,
    good: low === high ? withUnit(low, unit) : `${numberText(low)} to ${withUnit(high, unit)}`,
    high: `above ${withUnit(high, unit)}`,
  })[result];
}

/**
 * A reading is typed; on which side it falls is said before it is taken.
 * @param {PlanReading} check @param {Page} page @param {Act} act
 */
function readingForm(check, page, act) {
  const unit = unitOf(check, page);
  const side = el("output", { class: "reading__side", for: "plan-reading" });
  const field = el("input", {
    class: "reading__field",
    id: "plan-reading",
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    maxlength: 20,
    "aria-describedby": unit ? "plan-unit" : null,
    oninput: () => {
      side.textContent = sideText(check, field.value, unit);
      field.removeAttribute("aria-invalid");
    },
  });
  /** @param {Event} event */
  const take = (event) => {
    event.preventDefault();
    const value = typedNumber(field.value);
    if (value === null) {
      side.textContent = "Type a number, such as 12.9.";
      field.setAttribute("aria-invalid", "true");
      field.focus();
    } else {
      act.answer({ check: check.id, result: sideOf(check, value), value });
    }
  };
  return el(
    "form",
    { class: "reading", onsubmit: take },
    el("label", { class: "reading__label", for: "plan-reading" }, "Your reading"),
    el(
      "div",
      { class: "reading__row" },
      field,
      unit && el("span", { class: "reading__unit", id: "plan-unit" }, unit),
      el("button", { class: "strong", type: "submit" }, "Enter"),
    ),
    side,
    el("p", { class: "reading__or" }, "or without a figure:"),
  );
}

/** @param {PlanReading} check @param {string} typed @param {string} unit */
function sideText(check, typed, unit) {
  const value = typedNumber(typed);
  return value === null ? "" : `${withUnit(value, unit)}: ${WORD[sideOf(check, value)].toLowerCase()}.`;
}
