/**
 * The step of the plan that is to be done now, large: the check's own text from its card with its cautions, and its
 * answers as buttons; or how it ends.
 */

import { resultsOf, typedNumber } from "./core/plan-answers.js";
import { sideOf } from "./core/plan.js";
import { causeName, contradictionText, whyHandOver, whyWorkshop } from "./core/plan-story.js";
import { minutesText, moneyText, numberText, say, sentence } from "./core/plan-words.js";
import { bar, button, el } from "./dom.js";

/** What of a fix's card is wanted where the fix is to be done. */
const FIX = ".needs, .caution, .fix__do, .costs, .parts, .held, .verify, .often-with";

const WORD = { bad: "Not good", good: "Good", low: "Too low", high: "Too high", unclear: "Could not tell" };

export function resultWord(result) {
  return WORD[result];
}

/** `13.5 V`, `13.5`. */
export function withUnit(value, unit) {
  return unit ? `${numberText(value)}\u00a0${unit}` : numberText(value);
}

function unitOf(check, page) {
  return Object.hasOwn(page.units, check.id) ? page.units[check.id] : "";
}

/** Copies of what stands on a card of the page, of the elements that a selector names. */
function fromCard(id, selector) {
  const parts = [...(document.getElementById(id)?.children ?? [])].filter((part) => part.matches(selector));
  return parts.map((part) => {
    const copy = part.cloneNode(true);
    [copy, ...copy.querySelectorAll("[id]")].forEach((each) => each.removeAttribute("id"));
    return copy;
  });
}

function frame(look, kicker, title, ...rest) {
  // The focus comes here after each answer: what is to be done now is read out, and the answers are the next stop.
  const heading = el("h3", { class: "now__title", id: "plan-now", tabindex: "-1" }, title);
  return el("section", { class: `now now--${look}`, "aria-labelledby": "plan-now" }, el("p", { class: "now__kicker" }, kicker), heading, ...rest);
}

function costText({ cost, minutes }, page) {
  const money = cost > 0 ? moneyText(cost, page) : null;
  const time = minutes > 0 ? `${minutesText(minutes, page.words)} of your own time` : null;
  return [money && (time ? `${money} with ${time}` : money), !money && time].filter(Boolean).join("");
}

/** A check: `step` is the plan's, or null where the owner chose it. */
export function checkView(check, step, { page, act }) {
  const card = `check-${check.id}`;
  return frame(
    "check",
    step ? "Do this next" : "You chose",
    page.names.checks[check.id],
    needs(check, step, page, act.isOpen),
    ...fromCard(card, ".caution"),
    ...fromCard(card, ".check__do"),
    ...fromCard(card, ".good"),
    el("h4", { class: "now__ask", id: "plan-ask" }, "What came out?"),
    check.good ? readingForm(check, page, act) : null,
    el("div", { class: "answers", role: "group", "aria-labelledby": "plan-ask" }, answerButtons(check, page, act)),
    step ? null : el("p", {}, button("quiet", () => act.choose(null), "Back to the cheapest next step")),
  );
}

/** What it takes now: the card tells what it would take at the start. */
function needs(check, step, page, isOpen) {
  const { words, names } = page;
  const state = document.querySelector(`#${CSS.escape(`check-${check.id}`)} .needs > li`)?.textContent;
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
  return el("ul", { class: "needs" }, rows.filter(Boolean).map((row) => el("li", {}, row)));
}

function answerButtons(check, page, act) {
  return [...likelyResults(check), "unclear"].map((result) =>
    button(
      `answer-button answer-button--${result}`,
      () => act.answer({ check: check.id, result, value: null }),
      el("span", { class: "answer-button__word" }, WORD[result]),
      // The space keeps the parts apart where the button is read out in one.
      ...(hint(check, result, page) ? [" ", el("span", { class: "answer-button__hint" }, hint(check, result, page))] : []),
    ),
  );
}

/** Nothing falls below a good range that starts at nothing, unless the entry says what that would mean. */
function likelyResults(check) {
  const isNothing = (result) => result === "low" && check.good[0] <= 0 && check.outcomes.low.length === 0;
  return resultsOf(check).filter((result) => !isNothing(result));
}

function hint(check, result, page) {
  if (result === "unclear") {
    return "or not done";
  }
  if (!check.good) {
    return { good: "as it should be" }[result] ?? null;
  }
  const [low, high] = check.good;
  const unit = unitOf(check, page);
  return {
    low: `below ${withUnit(low, unit)}`,
    good: low === high ? withUnit(low, unit) : `${numberText(low)} to ${withUnit(high, unit)}`,
    high: `above ${withUnit(high, unit)}`,
  }[result];
}

/** A reading is typed; on which side it falls is said before it is taken. */
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
    el("div", { class: "reading__row" }, field, unit && el("span", { class: "reading__unit", id: "plan-unit" }, unit), el("button", { class: "strong", type: "submit" }, "Enter")),
    side,
    el("p", { class: "reading__or" }, "or without a figure:"),
  );
}

function sideText(check, typed, unit) {
  const value = typedNumber(typed);
  return value === null ? "" : `${withUnit(value, unit)}: ${WORD[sideOf(check, value)].toLowerCase()}.`;
}

/** A fix to try without proof. */
export function trialView(step, { page, act }) {
  return frame(
    "trial",
    "Try this next, without proof",
    causeName(step.id, page),
    el("p", {}, "Mending it costs less than making sure, and does no harm if it was something else."),
    ...fromCard(`fix-cause-${step.id}`, FIX),
    el("p", { class: "now__cost" }, `It counts as ${costText(step, page)}.`),
    fixButtons(step.id, act),
  );
}

function fixButtons(cause, act) {
  return el(
    "div",
    { class: "answers", role: "group", "aria-label": "Did it help?" },
    button("answer-button", () => act.answer({ fix: cause, result: "helped" }), el("span", { class: "answer-button__word" }, "It helped"), " ", el("span", { class: "answer-button__hint" }, "the fault is gone")),
    button("answer-button", () => act.answer({ fix: cause, result: "no-change" }), el("span", { class: "answer-button__word" }, "Did not help")),
  );
}

/** The cause is known: where to have it mended, and how to see that it worked. */
export function fixView(step, situation, { page, act }) {
  const home = step.where === "home";
  return frame(
    home ? "home" : "workshop",
    step.inferred ? "Only one cause is left" : "Found",
    causeName(step.id, page),
    step.inferred && el("p", { class: "now__note" }, say(page.words, "inferred")),
    el(
      "p",
      { class: "now__where" },
      home
        ? `Mend it yourself: ${costText(step, page)}.`
        : `Call the workshop and name the cause: ${moneyText(step.cost, page)}. Why there: ${whyWorkshop(situation, step.id, page)}.`,
    ),
    ...(home ? [] : [tellView(act)]),
    ...fromCard(`fix-cause-${step.id}`, home ? FIX : ".costs, .parts, .verify, .often-with"),
    home && fixButtons(step.id, act),
  );
}

/** More than one cause is left, and it is best to let a workshop look. */
export function handOverView(step, situation, { page, act }) {
  return frame(
    "workshop",
    "Do this next",
    say(page.words, "hand_over"),
    el("p", { class: "now__where" }, `Why: ${whyHandOver(situation, page)}. ${sentence(moneyText(step.cost, page))}, finding the fault included.`),
    tellView(act),
  );
}

function tellView(act) {
  const lines = act.workshopLines();
  const text = lines.join("\n");
  const done = el("span", { class: "tell__done", role: "status" });
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      done.textContent = "Copied.";
    } catch {
      done.textContent = "This browser does not allow it. Mark the text and copy it by hand.";
    }
  };
  return el(
    "div",
    { class: "tell" },
    el("h4", { class: "tell__title" }, "What to tell the workshop"),
    el("div", { class: "tell__text" }, lines.map((line) => el("p", {}, line))),
    el("p", { class: "tell__copy" }, button("quiet", copy, "Copy the text"), " ", done),
  );
}

/** A fix helped. */
export function mendedView(cause, { page }) {
  return frame(
    "done",
    "Mended",
    causeName(cause, page),
    el("p", {}, "Make sure that it stays so, before you rely on it:"),
    ...fromCard(`fix-cause-${cause}`, ".verify, .often-with"),
  );
}

/** The results leave no cause. */
export function contradictionView(situation, last, { page, act }) {
  return frame(
    "against",
    "Something does not fit",
    contradictionText(situation),
    el("p", {}, say(page.words, "contradiction")),
    el("div", { class: "answers" }, button("answer-button", () => act.undo(last), el("span", { class: "answer-button__word" }, "Take back the last answer"))),
    el("p", {}, "Any other answer can be taken back below."),
    tellView(act),
  );
}

/** The three expected costs, from here on. */
export function costsView(plan, { page }) {
  const rows = [
    ["cost_plan", plan.expected_cost],
    ...(plan.steps[0].kind === "fix" ? [] : [["cost_likeliest_first", plan.baselines.likeliest_first]]),
    ["cost_hand_over", plan.baselines.hand_over],
  ];
  const most = Math.max(...rows.map(([, cost]) => cost), 1e-9);
  return el(
    "section",
    { class: "plan-costs", "aria-labelledby": "plan-costs" },
    el("h4", { class: "plan-side__title", id: "plan-costs" }, "Expected cost from here on"),
    el("dl", { class: "plan-costs__rows" }, rows.map(([name, cost]) =>
      el("div", { class: `plan-costs__row plan-costs__row--${name}` }, el("dt", {}, say(page.words, name)), el("dd", {}, el("span", { class: "figure" }, moneyText(cost, page)), bar(cost / most, "cost"))),
    )),
    el("p", { class: "plan-side__note" }, "Until the bike is mended: parts, workshop, and your own hours at what you say they are worth."),
  );
}
