/** What stands beside the step: what was answered, which causes are left, what else could be checked. */

import { causeName } from "./core/plan-story.js";
import { makesNoDifference, moneyText, percentText, say } from "./core/plan-words.js";
import { bar, button, el } from "./dom.js";
import { resultWord, withUnit } from "./plan-check.js";

const FIX_WORD = { helped: "helped", "no-change": "did not help" };

/**
 * One answer in words: `Meter on the battery posts: too low, 12.9 V`; `names` are what checks are called.
 * @param {Answer} answer @param {Record<string, string>} names @param {Page} page
 */
export function answerText(answer, names, page) {
  if (answer.fix !== undefined) {
    return `${causeName(answer.fix, page)}, mended: ${FIX_WORD[answer.result]}`;
  }
  const unit = Object.hasOwn(page.units, answer.check) ? page.units[answer.check] : "";
  const figure = answer.value === null ? "" : `, ${withUnit(answer.value, unit)}`;
  return `${names[answer.check]}: ${resultWord(answer.result).toLowerCase()}${figure}`;
}

/** What is to be done in a check, as its card says it. @param {string} id @param {PlanPage} page @param {PlanSource} source */
export function checkTask(id, page, source) {
  const text = source.card(`check-${id}`)?.querySelector(".check__do")?.textContent ?? "";
  return (
    text
      .replace(/\s+/gu, " ")
      .trim()
      .replace(/[.;:]$/u, "") || page.names.checks[id]
  );
}

/** @param {Answers} answers @param {?Answer[]} cleared @param {PlanView} view */
export function answersView(answers, cleared, { page, act }) {
  if (answers.list.length === 0) {
    return cleared
      ? el(
          "p",
          { class: "plan-answers" },
          "All answers are taken back. ",
          button("quiet", act.bringBack, "Bring them back"),
        )
      : null;
  }
  return el(
    "section",
    { class: "plan-answers", "aria-labelledby": "plan-answers" },
    el("h4", { class: "plan-side__title", id: "plan-answers" }, "What you found"),
    el(
      "ol",
      { class: "plan-answers__list" },
      answers.list.map((answer) => answerRow(answer, page, act)),
    ),
    button("quiet plan-answers__again", act.startAgain, "Start again"),
  );
}

/** @param {Answer} answer @param {Page} page @param {Act} act */
function answerRow(answer, page, act) {
  const text = answerText(answer, page.checks, page);
  return el(
    "li",
    { class: "plan-answers__row" },
    el("span", { class: "plan-answers__text" }, text),
    " ",
    button("quiet", () => act.undo(answer), "Undo", el("span", { class: "visually-hidden" }, `: ${text}`)),
  );
}

/**
 * The causes with their shares after the results; those that are ruled out say so, and are struck through.
 * @param {Plan} plan @param {PlanView} view
 */
export function chancesView(plan, { page }) {
  const ids = plan.causes.map((cause) => cause.id);
  /** @param {string} id */
  const part = (id) => (Object.hasOwn(plan.chances, id) ? plan.chances[id] : -1);
  const elsewhere = Object.keys(page.names.causes).filter((id) => !ids.includes(id));
  const order = [...ids].sort((one, other) => part(other) - part(one));
  return el(
    "section",
    { class: "chances", "aria-labelledby": "plan-chances" },
    el("h4", { class: "plan-side__title", id: "plan-chances" }, "What it can still be"),
    el(
      "ul",
      { class: "chances__list" },
      order.map((id) => chanceRow(id, plan.chances, page)),
      elsewhere.map((id) => outRow(id, "not on your bike", page)),
    ),
  );
}

/** @param {string} id @param {Page} page */
function causeLink(id, page) {
  const name = causeName(id, page);
  const isKnown = Object.hasOwn(page.names.causes, id) && id !== "unlisted";
  const link = isKnown ? el("a", { href: page.source.causeAddress(id) }, name) : name;
  const whose = page.source.whose(id);
  return whose === null ? link : el("span", {}, link, el("span", { class: "chance__of" }, ` ${whose}`));
}

/** A cause that it cannot be, and why. @param {string} id @param {string} why @param {Page} page */
function outRow(id, why, page) {
  return el(
    "li",
    { class: "chance chance--out" },
    el("s", { class: "chance__name" }, causeLink(id, page)),
    " ",
    el("span", { class: "chance__part" }, why),
  );
}

/** @param {string} id @param {Plan["chances"]} chances @param {Page} page */
function chanceRow(id, chances, page) {
  if (!Object.hasOwn(chances, id)) {
    return outRow(id, "ruled out", page);
  }
  return el(
    "li",
    { class: "chance" },
    el("span", { class: "chance__name" }, causeLink(id, page)),
    " ",
    el("span", { class: "chance__part figure" }, percentText(chances[id], page.words)),
    bar(chances[id], "chance"),
  );
}

/**
 * Checks that are not done yet, for owners who did another one, or would rather.
 * @param {PlanCheck[]} checks @param {string | undefined} shown @param {PlanView} view
 */
export function othersView(checks, shown, { page, act }) {
  const left = checks.filter((check) => check.id !== shown);
  if (left.length === 0) {
    return null;
  }
  return el(
    "details",
    { class: "plan-others" },
    el("summary", {}, "Answer another check instead"),
    el(
      "ul",
      { class: "plan-others__list" },
      left.map((check) =>
        el(
          "li",
          {},
          button("plan-others__pick", () => act.choose(check.id), page.checks[check.id]),
        ),
      ),
    ),
  );
}

/** The three expected costs, from here on; the plan's alone where nobody shall look for a saving. @param {Outlook & Costs} plan @param {PlanView} view */
export function costsView(plan, { page }) {
  /** @type {[name: string, cost: number][]} */
  const likeliest = page.critical || plan.steps[0].kind === "fix" ? [] : [["cost_likeliest_first", plan.baselines.likeliest_first]];
  /** @type {typeof likeliest} */
  const over = page.critical ? [] : [["cost_hand_over", plan.baselines.hand_over]];
  /** @type {typeof likeliest} */
  const rows = [["cost_plan", plan.expected_cost], ...likeliest, ...over];
  const notes = [
    likeliest.length && makesNoDifference(plan.expected_cost, plan.baselines.likeliest_first) && say(page.words, "no_difference"),
    plan.at_least !== undefined && say(page.words, "not_exact", { money: moneyText(plan.at_least, page) }),
    "Until the bike is mended: parts, workshop, and your own hours at what you say they are worth.",
  ];
  const most = Math.max(...rows.map(([, cost]) => cost), 1e-9);
  // What differs less is no more than a guess, and bars would make something of it.
  const isDrawn = most - Math.min(...rows.map(([, cost]) => cost)) >= most / 10;
  return el(
    "section",
    { class: "plan-costs", "aria-labelledby": "plan-costs" },
    el("h4", { class: "plan-side__title", id: "plan-costs" }, "Expected cost from here on"),
    el(
      "dl",
      { class: "plan-costs__rows" },
      rows.map(([name, cost]) =>
        el(
          "div",
          { class: `plan-costs__row plan-costs__row--${name}` },
          el("dt", {}, say(page.words, name)),
          el("dd", {}, el("span", { class: "figure" }, moneyText(cost, page)), isDrawn && bar(cost / most, "cost")),
        ),
      ),
    ),
    notes.filter(Boolean).map((note) => el("p", { class: "plan-side__note" }, note)),
  );
}
