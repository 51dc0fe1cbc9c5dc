/** What stands beside the plan: may it be ridden now, what comes before riding, and what the maker may pay for. */

import { beforeRiding, secondFaults } from "./core/plan-beside.js";
import { causeName } from "./core/plan-story.js";
import { listText, say, sentence, stopped } from "./core/plan-words.js";
import { el } from "./dom.js";

/**
 * @param {PlanSituation} situation @param {Answers} answers @param {Page} page
 * @param {(answers: Partial<Answers>) => void} change
 */
export function ridingView(situation, answers, page, change) {
  const { problem, owner } = situation;
  const level = page.source.verdict(situation);
  const second = secondFaults(problem, owner);
  const left = beforeRiding(problem, owner);
  const free = page.source.free(owner.bike);
  if (level === null && !second.length && !left.length && !free.length) {
    return null;
  }
  return el(
    "section",
    { class: "plan-riding", "aria-label": say(page.words, "before_riding") },
    level !== null && el("p", { class: "plan-riding__verdict", "data-verdict": level }, say(page.words, "now_ride", { answer: page.rides[level] })),
    second.map(([check, causes]) => {
      const names = listText(causes.map((cause) => causeName(cause, page)));
      return el("p", { class: "plan-riding__second" }, `${say(page.words, "second_fault")} ${page.checks[check]}: ${names}.`);
    }),
    left.length > 0 && [
      el("h4", { class: "plan-side__title" }, say(page.words, "before_riding")),
      el(
        "ul",
        { class: "plan-riding__list" },
        left.map((id) => el("li", {}, stopped(page.checks[id]), isForWorkshop(problem, id) && ` ${say(page.words, "workshop_before_riding")}`)),
      ),
    ],
    free.map((work) => tick(work, answers, page, change)),
  );
}

/** @param {PlanProblem} problem @param {string} id */
function isForWorkshop(problem, id) {
  return problem.checks.some((check) => check.id === id && check.skill === 2);
}

/**
 * @param {FreeWork} work @param {Answers} answers @param {Page} page
 * @param {(answers: Partial<Answers>) => void} change
 */
function tick({ kind, source, covers }, answers, page, change) {
  const box = /** @type {HTMLInputElement} */ (el("input", { type: "checkbox" }));
  box.checked = covers.every((cause) => answers.covered.includes(cause));
  box.addEventListener("change", () => {
    const others = answers.covered.filter((cause) => !covers.includes(cause));
    change({ covered: box.checked ? [...others, ...covers] : others });
  });
  return el("label", { class: "plan-riding__tick" }, box, " ", say(page.words, "confirmed", { notice: sentence(`${kind} ${source}`) }));
}
