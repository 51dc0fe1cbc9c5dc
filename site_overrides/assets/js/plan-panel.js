/**
 * The check plan: one step at a time, replanned with each answer.
 *
 * Everything is reckoned by `core/`; here state, sentences and elements are brought together. What it is the plan of, one
 * fault or several, its source says (`plan-fault.js`, `plan-joint.js`).
 */

import { keepBike, myBike } from "./bike.js";
import { cleanAnswers, mended, NO_ANSWERS, reckoned, withAnswer, withoutAnswer } from "./core/plan-answers.js";
import { makePlan } from "./core/plan.js";
import { withLook, withLooks } from "./core/plan-shared.js";
import { changeText } from "./core/plan-story.js";
import { toldOf, workshopLines } from "./core/workshop-text.js";
import { startOf, tableOf } from "./core/plan-table.js";
import { el } from "./dom.js";
import { keepLook, looksOfToday } from "./look-store.js";
import { meansByTheRoad, Place } from "./plan-place.js";
import { Situation } from "./plan-situation.js";
import { checkView } from "./plan-check.js";
import { contradictionView, fixView, handOverView, mendedView, trialView } from "./plan-ends.js";
import { ridingView } from "./plan-riding.js";
import { answersView, answerText, chancesView, checkTask, costsView, othersView } from "./plan-sides.js";
import { shareView } from "./share.js";
import { keepAnswers, keepMeans, storedAnswers, storedMeans } from "./plan-store.js";

/**
 * What was answered elsewhere, and what was kept for this plan; of two answers to one check the one that was kept holds.
 * @param {Answers} known @param {Answers} stored @returns {Answers}
 */
function both(known, stored) {
  const { list } = stored.list.reduce((all, each) => withAnswer(all, each), known);
  return {
    list,
    absent: stored.absent || known.absent,
    opened: [...new Set([...known.opened, ...stored.opened])],
    covered: [...new Set([...known.covered, ...stored.covered])],
    any: stored.any || known.any,
  };
}

export class PlanPanel {
  /** @param {PlanSource} source @param {Answers} [before] what was answered before, of which this plan may know a part */
  constructor(source, before = NO_ANSWERS) {
    const { page } = source;
    this.source = source;
    /** @type {Page} */
    this.page = Object.assign({}, page, { source, checks: page.names.checks });
    this.looks = [...document.querySelectorAll("[data-look]")].map((row) => row.dataset.look);
    const known = cleanAnswers(before, page.problem);
    const stored = storedAnswers(source.key, page.problem);
    this.answers = withLooks(both(known, stored), looksOfToday(), page.problem, page.shared);
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
      link: () => this.link(),
      isOpen: (job) => this.opened().all.has(job),
    };
    this.situation = new Situation(this.page, (change) => this.vary(change));
    this.whereabouts = new Place(this.page, () => this.change({}, { keepsFocus: true }));
    this.changeLine = el("p", { class: "plan-change", role: "status" });
    this.step = el("div", { class: "plan-step" });
    this.side = el("div", { class: "plan-side" });
    this.share = el("div", { class: "plan-share" }, shareView(() => this.link()));
    this.element = el(
      "div",
      { class: "plan-panel", "data-plan-panel": true },
      this.whereabouts.element,
      this.situation.element,
      this.changeLine,
      el("div", { class: "plan-columns" }, this.step, this.side),
    );
    this.leaving = new AbortController();
  }

  /** Throws a RangeError where there are too many ways to go on. */
  start() {
    this.reckon();
    this.show();
    const { signal } = this.leaving;
    if (!this.source.isOfOneBike) {
      document.addEventListener("bikechange", ({ detail }) => this.changeBike(detail), { signal });
    }
    document.addEventListener("lookchange", ({ detail }) => this.look(detail), { signal });
  }

  /** It is to be taken from the page. */
  stop() {
    this.leaving.abort();
  }

  /** The bike reckoned with; null: any. */
  get used() {
    return this.source.used(this.bike, this.answers.any);
  }

  /** What the owner has where he stands. @returns {Means} */
  get meansHere() {
    return this.whereabouts.road ? meansByTheRoad(this.means, this.page) : this.means;
  }

  reckon() {
    this.page.problem = this.source.problem(this.used);
    this.answers = cleanAnswers(this.answers, this.page.problem);
    const { problem, owner } = reckoned(this.page.problem, this.answers, this.meansHere, this.used);
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
    } else if (!this.source.choose(bike)) {
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
    keepAnswers(this.source.key, this.answers);
    keepMeans(means);
    this.tellLooks();
    this.show();
    const changed = mended(answers) ? "Mended. Well done." : changeText(before.now, this.now, this.page);
    this.changeLine.textContent = [changed, this.source.rideChange(before.now, this.now)].filter(Boolean).join(" ");
    if (!keepsFocus) {
      this.focusStep();
    }
  }

  /** @param {?MyBike} bike */
  changeBike(bike) {
    const answers = withLooks(this.answers, looksOfToday(), this.page.problem, this.page.shared);
    this.change({ bike, answers }, { keepsFocus: true });
  }

  /** A check that comes before any plan was answered above. @param {{check: string, result: ?string}} found */
  look({ check, result }) {
    const before = this.answers.list.find((answer) => answer.check === check)?.result ?? null;
    if (before !== result) {
      this.change({ answers: withLook(this.answers, check, result, this.page.problem, this.page.shared) }, { keepsFocus: true });
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
    const [title, ...more] = this.source.about();
    const about = [title, this.used && this.bike && `${this.bike.name}, ${this.bike.year}`, ...more];
    return workshopLines(about.filter(Boolean), this.told());
  }

  /** What a workshop wants to know of it. */
  told() {
    const tasks = Object.fromEntries(this.page.problem.checks.map(({ id }) => [id, checkTask(id, this.page, this.source)]));
    return toldOf(this.now, this.answers, (answer) => answerText(answer, tasks, this.page), this.source.free(this.used), this.page);
  }

  /** A link to this page with all that was answered here; what it carries is sent to no server. */
  async link() {
    const { encodeState } = await import("./core/shared-state.js");
    const to = new URL(location.href);
    to.search = "";
    to.hash = encodeState({
      fault: this.source.fault,
      codes: this.source.codes,
      bike: this.used,
      answers: this.answers,
      means: this.means,
      road: this.whereabouts.road,
    });
    return to.href;
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
    this.step.replaceChildren(...[this.stepView(), answersView(this.answers, this.cleared, this), this.share].filter(Boolean));
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
      means: this.meansHere,
      road: this.whereabouts.road,
      answers: this.answers,
      bike: this.bike,
      used: this.used,
      opened: this.opened(),
    });
    this.source.shown(this.now, this.answers, this.page, shown);
    // The note for the workshop says what was found.
    document.dispatchEvent(
      new CustomEvent("planchange", {
        detail: { given: this.answers, situation: this.now, page: this.page, told: this.told(), link: this.act.link },
      }),
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
      return trialView(step, this.now, this);
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
