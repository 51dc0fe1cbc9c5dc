/**
 * The check plan on a fault page: one step at a time, replanned with each answer.
 *
 * Everything is reckoned by `core/plan.js`; here state, sentences and elements are brought together. The static plan of
 * the page stays, folded away: it is for an owner of whom nothing is known.
 */

import { keepBike, myBike } from "./bike.js";
import { cleanAnswers, mended, NO_ANSWERS, reckoned, withAnswer, withoutAnswer } from "./core/plan-answers.js";
import { makePlan } from "./core/plan.js";
import { forBike, withLook, withLooks } from "./core/plan-shared.js";
import { changeText, workshopLines } from "./core/plan-story.js";
import { startOf, tableOf } from "./core/plan-table.js";
import { el } from "./dom.js";
import { keepLook, looksOfToday } from "./look-store.js";
import { showShares } from "./plan-shares.js";
import { Situation } from "./plan-situation.js";
import { checkView } from "./plan-check.js";
import { contradictionView, fixView, handOverView, mendedView, trialView } from "./plan-ends.js";
import { ridingView } from "./plan-riding.js";
import { answersView, answerText, chancesView, checkTask, checkTitle, costsView, othersView } from "./plan-sides.js";
import { keepAnswers, keepMeans, storedAnswers, storedMeans } from "./plan-store.js";

class PlanPanel {
  /** @param {HTMLElement} place @param {PlanPage} page */
  constructor(place, page) {
    this.place = place;
    this.page = {
      ...page,
      checks: Object.fromEntries(page.problem.checks.map(({ id }) => [id, checkTitle(id, page)])),
    };
    /** With the ranges that are good on any bike. */
    this.general = page.problem;
    this.looks = [...document.querySelectorAll("[data-look]")].map((row) => row.dataset.look);
    this.answers = withLooks(storedAnswers(page.problem), looksOfToday(), page.problem, page.shared);
    this.means = storedMeans();
    this.bike = myBike();
    /** @type {?Answer[]} */
    this.cleared = null;
    /** @type {?string} */
    this.chosen = null;
    /** @type {Act} */
    this.act = {
      answer: (answer) => this.answer(answer),
      choose: (check) => this.choose(check),
      undo: (answer) => this.change({ answers: withoutAnswer(this.answers, answer) }),
      startAgain: () => this.startAgain(),
      bringBack: () => this.change({ answers: { ...this.answers, list: this.cleared ?? [] } }),
      workshopLines: () => this.workshopLines(),
      isOpen: (job) => this.opened().all.has(job),
    };
    this.situation = new Situation(this.page, (change) => this.vary(change));
    this.changeLine = el("p", { class: "plan-change", role: "status" });
    this.step = el("div", { class: "plan-step" });
    this.side = el("div", { class: "plan-side" });
    this.element = el(
      "div",
      { class: "plan-panel", "data-plan-panel": true },
      this.situation.element,
      this.changeLine,
      el("div", { class: "plan-columns" }, this.step, this.side),
    );
  }

  start() {
    try {
      this.reckon();
    } catch {
      // Too large an entry: what stands on the page stays as it is.
      return;
    }
    this.show();
    const rest = el("details", { class: "plan-all" }, el("summary", {}, "All checks, and the plan from the start"));
    rest.append(...this.place.childNodes);
    // What stands behind the plan are the checks that it takes late or never.
    while (this.place.nextSibling) {
      rest.append(this.place.nextSibling);
    }
    this.place.append(this.element, rest);
    this.place.toggleAttribute("data-plan-ready", true);
    // A link to a card in the folded plan must not lead nowhere.
    const unfold = () => {
      const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
      if (target && rest.contains(target) && !rest.open) {
        rest.open = true;
        target.scrollIntoView();
      }
    };
    window.addEventListener("hashchange", unfold);
    document.addEventListener("click", ({ target }) => target instanceof Element && target.closest("a[href^='#']") && setTimeout(unfold));
    unfoldForPaper(rest);
    document.addEventListener("bikechange", ({ detail }) => this.changeBike(detail));
    document.addEventListener("lookchange", ({ detail }) => this.look(detail));
    unfold();
  }

  /** The remembered bike, where the entry names it and the owner did not ask for any. @returns {Bike} */
  get used() {
    const { bike } = this;
    const isNamed = bike && this.page.models.some(([id, , years]) => id === bike.model && years.includes(bike.year));
    return isNamed && !this.answers.any ? [bike.model, bike.year] : null;
  }

  reckon() {
    // A reading may be good on one bike and low on another one.
    this.page.problem = forBike(this.general, this.page.shared, this.used);
    this.answers = cleanAnswers(this.answers, this.page.problem);
    const { problem, owner } = reckoned(this.page.problem, this.answers, this.means, this.used);
    /** @type {PlanSituation} */
    this.now = { problem, owner, plan: makePlan(problem, owner) };
  }

  /** @param {Answer} answer */
  answer(answer) {
    this.change({ answers: withAnswer(this.answers, answer) });
  }

  /** @param {?string} check */
  choose(check) {
    this.chosen = check;
    this.show();
    this.focusStep();
  }

  startAgain() {
    const { list } = this.answers;
    this.change({ answers: { ...this.answers, list: NO_ANSWERS.list } });
    this.cleared = list;
    this.show();
    this.focusStep();
  }

  /** A change of the situation: the focus stays in its form. @param {Change} change */
  vary({ means, answers, bike }) {
    if (bike === undefined) {
      this.change(
        { means: { ...this.means, ...means }, answers: { ...this.answers, ...answers } },
        { keepsFocus: true },
      );
    } else {
      this.answers = { ...this.answers, any: bike === null };
      if (bike) {
        // Comes back as the event `bikechange`, as from anywhere else on the page.
        keepBike(bike);
      } else {
        this.change({}, { keepsFocus: true });
      }
    }
  }

  /** @param {{answers?: Answers, means?: Means, bike?: ?MyBike}} now @param {{keepsFocus?: boolean}} how */
  change({ answers = this.answers, means = this.means, bike = this.bike }, { keepsFocus = false } = {}) {
    const before = { now: this.now, answers: this.answers, means: this.means, bike: this.bike };
    Object.assign(this, { answers, means, bike, chosen: null, cleared: null });
    try {
      this.reckon();
    } catch {
      Object.assign(this, before);
      this.show();
      this.changeLine.textContent =
        "For that no plan can be worked out: there are too many ways to go on. Nothing was changed.";
      return;
    }
    keepAnswers(this.page.problem, this.answers);
    keepMeans(means);
    this.tellLooks();
    this.show();
    this.changeLine.textContent = mended(answers) ? "Mended. Well done." : changeText(before.now, this.now, this.page);
    if (!keepsFocus) {
      this.focusStep();
    }
  }

  /** @param {?MyBike} bike */
  changeBike(bike) {
    const answers = withLooks(this.answers, looksOfToday(), this.general, this.page.shared);
    this.change({ bike, answers }, { keepsFocus: true });
  }

  /** A check that comes before any plan was answered above. @param {{check: string, result: ?string}} found */
  look({ check, result }) {
    const before = this.answers.list.find((answer) => answer.check === check)?.result ?? null;
    if (before !== result) {
      this.change({ answers: withLook(this.answers, check, result, this.general, this.page.shared) }, { keepsFocus: true });
    }
  }

  /** What was answered here about a check that comes before any plan stands there too. */
  tellLooks() {
    for (const check of this.looks.filter((each) => Object.hasOwn(this.page.shared, each))) {
      const result = this.answers.list.find((answer) => answer.check === check)?.result ?? null;
      keepLook(check, result === "unclear" ? null : result);
    }
  }

  workshopLines() {
    const tasks = Object.fromEntries(this.page.problem.checks.map(({ id }) => [id, checkTask(id, this.page)]));
    const told = this.answers.list.map((answer) => answerText(answer, tasks, this.page));
    const codes = new Set([...document.querySelectorAll("#codes .code__text")].map((code) => code.textContent));
    const about = [
      document.querySelector("h1").textContent,
      this.used && this.bike && `${this.bike.name}, ${this.bike.year}`,
      codes.size > 0 && `Codes of this fault: ${[...codes].join(", ")}`,
    ];
    return workshopLines(this.now, about.filter(Boolean), told, this.page);
  }

  focusStep() {
    this.step.querySelector("#plan-now")?.focus({ preventScroll: true });
    // What changed is read first, and must not lie above the screen.
    const top = this.changeLine.textContent ? this.changeLine : this.step;
    const { top: at } = top.getBoundingClientRect();
    if (at < 0 || at > window.innerHeight / 2) {
      top.scrollIntoView({ block: "start", behavior: "instant" });
    }
  }

  show() {
    const { plan } = this.now;
    const isOver = mended(this.answers) !== null;
    const shown = this.shownCheck();
    this.step.replaceChildren(...[this.stepView(), answersView(this.answers, this.cleared, this)].filter(Boolean));
    const isEnd = isOver || plan.expected_cost === null || plan.steps[0].kind === "hand_over";
    const figures = isEnd ? [] : [costsView(plan, this)];
    const others = isOver
      ? null
      : othersView(
          this.page.problem.checks.filter((check) => !this.isDone(check)),
          shown?.id,
          this,
        );
    const riding = ridingView(this.now, this.answers, this.page, (answers) => this.vary({ answers }));
    this.side.replaceChildren(...[riding, chancesView(plan, this), ...figures, others].filter(Boolean));
    this.situation.show({
      means: this.means,
      answers: this.answers,
      bike: this.bike,
      used: this.used,
      opened: this.opened(),
    });
    showShares(plan, this.used, this.answers.list.length > 0, this.page.words);
    // The call sheet of the page says what was found.
    document.dispatchEvent(
      new CustomEvent("planchange", { detail: { answers: this.answers.list, plan, page: this.page } }),
    );
  }

  /** @param {PlanCheck} check */
  isDone(check) {
    return this.answers.list.some((answer) => answer.check === check.id);
  }

  /** The check that is shown: the one chosen, or the plan's. */
  shownCheck() {
    const [step] = this.now.plan.steps;
    const id = this.chosen ?? (step?.kind === "check" ? step.id : null);
    return this.page.problem.checks.find((check) => check.id === id) ?? null;
  }

  stepView() {
    const cause = mended(this.answers);
    const { plan } = this.now;
    const [step] = plan.steps;
    if (cause !== null) {
      return mendedView(cause, this);
    }
    const check = this.shownCheck();
    if (check) {
      return checkView(check, this.chosen === null ? step : null, this);
    }
    if (plan.expected_cost === null) {
      return contradictionView(this.now, this.answers.list.at(-1), this);
    }
    if (step.kind === "trial_fix") {
      return trialView(step, this);
    }
    return step.kind === "fix" ? fixView(step, this.now, this) : handOverView(step, this.now, this);
  }

  /** Access jobs that are open: by what was done (`results`), and in all. */
  opened() {
    const { problem, owner } = this.now;
    /** @param {string[]} opened */
    const named = (opened) => {
      const [, , open] = startOf(tableOf(problem, { ...owner, opened }), owner.results);
      return new Set(problem.access.filter((_job, bit) => (open >> bit) & 1).map((job) => job.id));
    };
    return { results: named([]), all: named(owner.opened) };
  }
}

/**
 * Paper has nothing to unfold. A page is cut into sheets before its media change, so that alone would be too late.
 * @param {HTMLDetailsElement} details
 */
function unfoldForPaper(details) {
  /** @type {?boolean} */
  let wasOpen = null;
  const toPaper = () => {
    wasOpen ??= details.open;
    details.open = true;
  };
  const toScreen = () => {
    details.open = wasOpen ?? details.open;
    wasOpen = null;
  };
  addEventListener("beforeprint", toPaper);
  addEventListener("afterprint", toScreen);
  matchMedia("print").addEventListener("change", ({ matches }) => (matches ? toPaper() : toScreen()));
}

/** @param {HTMLElement} place @returns {?PlanPage} */
function readData(place) {
  try {
    return JSON.parse(place.querySelector("script.plan-data").textContent);
  } catch {
    // Then the page's own plan stays as it is.
    return null;
  }
}

for (const place of document.querySelectorAll("[data-plan]")) {
  const page = readData(place);
  if (page) {
    new PlanPanel(place, page).start();
  }
}
