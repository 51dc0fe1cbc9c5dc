/** The first step on the first screen: kept up with the bike, the tools and what was answered. */

import { causeName } from "./core/plan-story.js";
import { amountText, minutesText, moneyText, say, sentence } from "./core/plan-words.js";

/** @param {Plan} plan @param {?PlanCheck} shown @param {?string} mended @param {boolean} begun @param {Page} page */
export function showFirst(plan, shown, mended, begun, page) {
  const link = document.querySelector("[data-first-step]");
  if (!link) {
    return;
  }
  const [title, time] = told(plan, shown, mended, page);
  const [step] = plan.steps;
  link.setAttribute("href", "#checks");
  link.setAttribute("data-first-step", shown ? `check:${shown.id}` : step ? `${step.kind}:${step.id ?? ""}` : "");
  write(link, ".step-one__word", mended === null ? (begun ? "Next step" : "First step") : "Mended");
  write(link, "[data-first-title]", title);
  write(link, "[data-first-time]", time);
}

/** How long a step takes, with what has to be opened for it; of anything else what it costs. @param {Step | undefined} step @param {Page} page */
export function timeOf(step, page) {
  if (!step) {
    return "";
  }
  if (step.kind !== "check") {
    return sentence(moneyText(step.cost, page));
  }
  const minutes = minutesText(step.minutes, page.words);
  const [job] = step.access;
  return job ? `${minutes}, ${page.names.access[job].toLowerCase()} included` : minutes;
}

/** @param {Plan} plan @param {?PlanCheck} shown @param {?string} mended @param {Page} page @returns {[string, string]} */
function told(plan, shown, mended, page) {
  const [step] = plan.steps;
  if (mended !== null) {
    return [causeName(mended, page), "Make sure that it stays so."];
  }
  if (shown) {
    const isPlanned = step?.kind === "check" && step.id === shown.id;
    return [page.names.checks[shown.id], isPlanned ? timeOf(step, page) : minutesText(shown.minutes, page.words)];
  }
  if (plan.expected_cost === null || !step) {
    return ["Something does not fit", "Do a check again, or hand the bike over."];
  }
  if (step.kind === "hand_over") {
    return [say(page.words, "hand_over"), sentence(say(page.words, "hand_over_rest", { money: amountText(step.cost, page.currency, page.digits) }))];
  }
  const name = step.kind === "trial_fix" ? say(page.words, "trial_fix", { cause: causeName(step.id, page) }) : `It is: ${causeName(step.id, page)}`;
  return [name, sentence(moneyText(step.cost, page))];
}

/** @param {Element} link @param {string} selector @param {string} text */
function write(link, selector, text) {
  const element = link.querySelector(selector);
  // Only what differs, so that nothing is drawn anew.
  if (element && element.textContent !== text) {
    element.textContent = text;
  }
}
