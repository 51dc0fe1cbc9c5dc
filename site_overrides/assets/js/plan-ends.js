/** How a plan ends, and fixes on the way: mend it, call the workshop, or something does not fit. */

import { causeName, contradictionText, unexplained, whyHandOver, whyWorkshop } from "./core/plan-story.js";
import { amountText, moneyText, say, sentence } from "./core/plan-words.js";
import { button, el } from "./dom.js";
import { textView } from "./share.js";
import { reportAddress } from "./report-address.js";
import { costText, frame, fromCard } from "./plan-frame.js";

/** What of a fix's card is wanted where the fix is to be done. */
const FIX = ".needs, .access-where, .caution, .fix__do, .fix__free, .costs, .parts, .held, .verify, .often-with";

/** A fix to try without proof. @param {CheckStep & StepFigures} step @param {PlanSituation} situation @param {PlanView} view */
export function trialView(step, situation, { page, act }) {
  return frame(
    "trial",
    "Try this next, without proof",
    causeName(step.id, page),
    el("p", {}, "Mending it costs less than making sure, and does no harm if it was something else."),
    freeLine(situation, step.id, page),
    ...fromCard(page.source.card(`fix-cause-${step.id}`), FIX),
    el("p", { class: "now__cost" }, `It counts as ${costText(step, page)}.`),
    fixButtons(step.id, act),
  );
}

/** @param {string} cause @param {Act} act */
function fixButtons(cause, act) {
  return el(
    "div",
    { class: "answers", role: "group", "aria-label": "Did it help?" },
    button(
      "answer-button",
      () => act.answer({ fix: cause, result: "helped" }),
      el("span", { class: "answer-button__word" }, "It helped"),
      " ",
      el("span", { class: "answer-button__hint" }, "the fault is gone"),
    ),
    button(
      "answer-button",
      () => act.answer({ fix: cause, result: "no-change" }),
      el("span", { class: "answer-button__word" }, "Did not help"),
    ),
  );
}

/**
 * The cause is known: where to have it mended, and how to see that it worked.
 * @param {FixStep & StepFigures} step @param {PlanSituation} situation @param {PlanView} view
 */
export function fixView(step, situation, { page, act }) {
  const home = step.where === "home";
  return frame(
    home ? "home" : "workshop",
    step.inferred ? "Only one cause is left" : "Found",
    causeName(step.id, page),
    step.inferred && el("p", { class: "now__note" }, say(page.words, "inferred")),
    step.where === "maker" ? null : freeLine(situation, step.id, page),
    el(
      "p",
      { class: "now__where" },
      home
        ? `Mend it yourself: ${costText(step, page)}.`
        : step.where === "maker"
          ? `${say(page.words, "fix_maker")}: ${say(page.words, "fix_maker_rest", { money: amountText(step.cost, page.currency, page.digits) })}`
          : `Call the workshop and name the cause: ${moneyText(step.cost, page)}. Why there: ${whyWorkshop(situation, step.id, page)}.`,
    ),
    ...(home ? [] : [tellView(act)]),
    ...fromCard(page.source.card(`fix-cause-${step.id}`), home ? FIX : ".fix__free, .costs, .parts, .verify, .often-with"),
    ...page.source.after(step.id),
    home ? fixButtons(step.id, act) : historyPlace(step.id),
    reportView(page, step.id, "quiet"),
  );
}

/**
 * More than one cause is left, and it is best to let a workshop look.
 * @param {StepFigures} step @param {PlanSituation} situation @param {PlanView} view
 */
export function handOverView(step, situation, { page, act }) {
  return frame(
    "workshop",
    "Do this next",
    say(page.words, "hand_over"),
    freeLine(situation, null, page),
    el(
      "p",
      { class: "now__where" },
      `Why: ${whyHandOver(situation, page)}. ${sentence(moneyText(step.cost, page))}, finding the fault included.`,
    ),
    tellView(act),
    reportView(page, null, "quiet"),
  );
}

/** To the report of how it ended. @param {Page} page @param {?string} cause @param {"strong" | "quiet"} look */
function reportView(page, cause, look) {
  const { key, codes } = page.source;
  const address = reportAddress({ fault: page.problem.fault, plan: key, cause, codes });
  return el("p", { class: "plan-report" }, el("a", { class: look === "strong" ? "strong plan-report__link" : "plan-report__quiet", href: address }, "Report how it ended"));
}

/**
 * Before any price: what the maker may pay for. `cause` is the one that was found, or null.
 * @param {PlanSituation} situation @param {?string} cause @param {Page} page
 */
function freeLine({ owner }, cause, page) {
  const notices = page.source.free(owner.bike).filter(({ covers }) => cause === null || covers.includes(cause));
  const names = notices.map(({ kind, source }) => sentence(`${kind} ${source}`)).join(", ");
  return notices.length ? el("p", { class: "now__note" }, `${names}: it may cost you nothing. ${say(page.words, "may_be_free")}`) : null;
}

/** @param {Act} act */
function tellView(act) {
  const lines = act.workshopLines();
  return el(
    "div",
    { class: "tell" },
    el("h4", { class: "tell__title" }, "What to tell the workshop"),
    el(
      "div",
      { class: "tell__text" },
      lines.map((line) => el("p", {}, line)),
    ),
    textView(() => lines),
  );
}

/** A fix helped. @param {string} cause @param {PlanView} view */
export function mendedView(cause, { page }) {
  return frame(
    "done",
    "Mended",
    causeName(cause, page),
    el("p", {}, "Make sure that it stays so, before you rely on it:"),
    ...fromCard(page.source.card(`fix-cause-${cause}`), ".verify, .often-with"),
    ...page.source.after(cause),
    el("p", {}, "The next one with this fault would like to know:"),
    reportView(page, cause, "strong"),
    historyPlace(cause),
  );
}

/** Where `history-seen.js` offers to keep what it was. @param {string} cause */
function historyPlace(cause) {
  return el("div", { class: "seen", "data-history-mended": cause });
}

/** The results leave no cause. @param {PlanSituation} situation @param {Answer | undefined} last @param {PlanView} view */
export function contradictionView(situation, last, { page, act }) {
  const isAlone = unexplained(situation) !== null;
  return frame(
    "against",
    "Something does not fit",
    isAlone ? contradictionText(situation) : "No cause is left",
    el("p", {}, isAlone ? "Do that check again, or hand the bike over." : say(page.words, "contradiction")),
    el(
      "div",
      { class: "answers" },
      button(
        "answer-button",
        () => last && act.undo(last),
        el("span", { class: "answer-button__word" }, "Take back the last answer"),
      ),
    ),
    el("p", {}, "Any other answer can be taken back below."),
    freeLine(situation, null, page),
    tellView(act),
  );
}
