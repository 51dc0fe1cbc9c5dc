/**
 * What a change did to the plan, in sentences; and why the plan ends in a workshop.
 *
 * A situation is `{problem, owner, plan}`: what `reckoned` in `plan-answers.js` gives, and the plan of it. `page` is the
 * page's data: names of causes, access jobs and tools, the sentences that Python tells too, and what each check is called
 * where its card is not beside it (`checks`).
 */

import { obstacles } from "./plan.js";
import { startOf, tableOf } from "./plan-table.js";
import { countText, listText, percentText, say, stopped } from "./plan-words.js";

const MOST_NAMED = 3;
const NOTICEABLE = 0.05;

/** @param {Record<string, string>} table @param {string} id */
export function named(table, id) {
  return Object.hasOwn(table, id) ? table[id] : id;
}

/** What a cause is called; that it is not listed, where it is not. @param {string} id @param {PlanPage} page */
export function causeName(id, page) {
  return id === "unlisted" ? say(page.words, "unlisted") : named(page.names.causes, id);
}

/** @param {string[]} tools @param {PlanPage} page */
function toolNames(tools, page) {
  return [...new Set(tools)].map((tool) => named(page.names.tools, tool).toLowerCase());
}

/**
 * What changed, in at most three sentences: causes gone or come back, the largest shift, what is to do now.
 * @param {PlanSituation} before @param {PlanSituation} after @param {Page} page
 */
export function changeText(before, after, page) {
  if (after.plan.expected_cost === null) {
    return contradictionText(after);
  }
  return [...chancesChanged(before.plan.chances, after.plan.chances, page), nextText(before, after, page)].join(" ");
}

/**
 * What does not fit: a result that nothing in the entry explains by itself, or all of them together.
 * @param {PlanSituation} situation
 */
export function contradictionText(situation) {
  const alone = unexplained(situation);
  return alone
    ? `This entry knows no cause for a result that is too ${alone}.`
    : "These results contradict each other: no cause is left that fits them all.";
}

/**
 * `low` or `high`, where a reading lies on a side of which the entry says nothing; else null.
 * @param {PlanSituation} situation
 */
export function unexplained({ problem, owner }) {
  const given = tableOf(problem, owner).checks.map((check) => {
    const result = Object.hasOwn(owner.results, check.id) ? owner.results[check.id] : "";
    return check.sets[check.names.indexOf(result)] === 0 ? result : null;
  });
  return given.find((result) => result === "low" || result === "high") ?? null;
}

/** @param {Plan["chances"]} before @param {Plan["chances"]} after @param {Page} page */
function chancesChanged(before, after, page) {
  const gone = Object.keys(before).filter((id) => !Object.hasOwn(after, id));
  const back = Object.keys(after).filter((id) => !Object.hasOwn(before, id));
  const found = [];
  // One that is left is named as what it is.
  if (gone.length && Object.keys(after).length > 1) {
    found.push(`${enumerated("Ruled out", gone, page)}.`);
  }
  if (back.length) {
    found.push(`${enumerated("Possible again", back, page)}.`);
  }
  return gone.length || back.length ? found : shifted(before, after, page);
}

/** @param {string} what @param {string[]} causes @param {Page} page */
function enumerated(what, causes, page) {
  const names = causes.map((id) => causeName(id, page));
  return `${what}: ${names.length > MOST_NAMED ? countText(names.length, "cause") : names.join("; ")}`;
}

/** @param {Plan["chances"]} before @param {Plan["chances"]} after @param {Page} page */
function shifted(before, after, page) {
  /** @type {[fall: number, id: string][]} */
  const falls = Object.keys(after).map((id) => [before[id] - after[id], id]);
  const [fall, id] = falls.reduce((most, each) => (each[0] > most[0] ? each : most), [0, ""]);
  if (fall < NOTICEABLE) {
    return [];
  }
  const [was, is] = [before[id], after[id]].map((part) => percentText(part, page.words));
  return [`Less likely now: ${causeName(id, page)} (${was} before, ${is} now).`];
}

/** @param {Step | undefined} one @param {Step} other */
function isSame(one, other) {
  return one !== undefined && one.kind === other.kind && one.id === other.id && one.where === other.where;
}

/** @param {PlanSituation} before @param {PlanSituation} after @param {Page} page */
function nextText(before, after, page) {
  const [step] = after.plan.steps;
  const stays = isSame(before.plan.steps[0], step);
  const cause = step.id === null ? "" : causeName(step.id, page);
  switch (step.kind) {
    case "check":
      return stopped(`${stays ? "The next step stays" : "Next"}: ${named(page.checks, step.id)}`);
    case "trial_fix":
      return `${stays ? "The next step stays" : "Next"}: mend it without proof: ${cause}.`;
    case "fix":
      return step.where === "home"
        ? `It is: ${cause}. Mend it yourself.`
        : `It is: ${cause}. Now call the workshop: ${whyWorkshop(after, step.id, page)}.`;
    default:
      return `${stays ? "Still: call" : "Now call"} the workshop: ${whyHandOver(after, page)}.`;
  }
}

/** Why a known cause is not mended at home. @param {PlanSituation} situation @param {string} cause @param {Page} page */
export function whyWorkshop({ problem, owner }, cause, page) {
  const lacks = obstacles(problem, owner).find((each) => each.kind === "fix" && each.id === cause);
  return lacks ? `mending it ${lackText([lacks], page)}` : "there it costs less than your own hours";
}

/**
 * Why it is best to hand the bike over while more than one cause is possible.
 * @param {PlanSituation} situation @param {Page} page
 */
export function whyHandOver({ problem, owner, plan }, page) {
  const left = Object.keys(plan.chances).filter((id) => id !== "unlisted");
  if (left.length === 0) {
    return "every listed cause is ruled out";
  }
  if (canStillTell(problem, owner)) {
    return "more checks would cost you more than they can save";
  }
  const isOne = left.length === 1;
  const causes = isOne ? "the one listed cause left" : `the ${countText(left.length, "listed cause")} left`;
  const missing = obstacles(problem, owner).filter((each) => each.kind === "check");
  if (missing.length) {
    const which = isOne ? `could prove ${causes}` : `could tell ${causes} apart`;
    return `${missing.length === 1 ? "the check" : "the checks"} that ${which} ${lackText(missing, page)}`;
  }
  return isOne ? `no check is left that could prove ${causes}` : `no check is left that tells ${causes} apart`;
}

/** @param {PlanProblem} problem @param {Owner} owner */
function canStillTell(problem, owner) {
  const table = tableOf(problem, owner);
  const [possible, good] = startOf(table, owner.results);
  return table.checks.some(
    (check, bit) =>
      check.possible &&
      check.union & possible &&
      !((good >> bit) & 1) &&
      !check.sets.some((set) => (set & possible) === possible),
  );
}

/** @param {Obstacle[]} missing @param {Page} page */
function lackText(missing, page) {
  const isOne = missing.length === 1;
  if (missing.every((each) => each.absent)) {
    return `${isOne ? "says" : "say"} something only while the fault is there`;
  }
  const tools = missing.flatMap((each) => each.tools);
  const skill = missing.some((each) => each.skill || each.access.length);
  const needs = [
    tools.length > 0 && `more tools (${toolNames(tools, page).join(", ")})`,
    skill && "more skill",
    missing.some((each) => each.absent) && "the fault to be there",
  ];
  return `${isOne ? "needs" : "need"} ${listText(needs.filter(Boolean))}`;
}
