/**
 * Where a page has one plan for the faults behind its codes: how often it is which, the first step, the plan. Everything is
 * made anew when the codes or the bike change; what was answered stays, as far as the new plan knows it.
 */

import { bikeName, keepBike, myBike } from "./bike.js";
import { casesOnModel, fitting, MOST_FAULTS, obstacleTo, partsFor } from "./core/joint-choice.js";
import { wordsOfCodes } from "./core/joint-parts.js";
import { existsOn } from "./core/evidence.js";
import { listText, say, sentence } from "./core/plan-words.js";
import { button, el } from "./dom.js";
import { faultPage } from "./fault-pages.js";
import { JointLooks } from "./joint-looks.js";
import { beforeView, freeView, likelyView, stopView, toldView } from "./joint-views.js";
import { timeOf } from "./plan-first.js";
import { PlanPanel } from "./plan-panel.js";
import { SeveralFaults } from "./plan-joint.js";

/** Whoever has more faults behind a code chooses a bike first: each is a page to fetch. */
const MOST_FETCHED = 2 * MOST_FAULTS;
/** What another bike may help against. */
const WITH_BIKE = ["none_here", "too_many", "no_machine"];

export class JointPlace {
  /**
   * @param {HTMLElement} place
   * @param {(ride: ?RideRow, why: string) => void} showRide told what holds about riding
   * @param {() => void} chooseAny told that the plan is to be one for any bike
   */
  constructor(place, showRide, chooseAny) {
    this.place = place;
    this.showRide = showRide;
    this.chooseAny = chooseAny;
    this.likely = place.querySelector("[data-joint-likely]");
    this.first = /** @type {HTMLAnchorElement} */ (place.querySelector("[data-first-step]"));
    this.told = place.querySelector("[data-joint-told]");
    this.stops = place.querySelector("[data-joint-stops]");
    this.free = place.querySelector("[data-joint-free]");
    this.before = place.querySelector("[data-joint-before]");
    this.plan = place.querySelector("[data-joint-plan]");
    /** @type {?PlanPanel} */
    this.panel = null;
    const looks = place.querySelector("[data-joint-looks]");
    this.looks = looks && new JointLooks(looks);
    this.asked = 0;
    this.anyBike = false;
  }

  /** @param {JointQuestion} question @param {boolean} anyBike whatever this browser remembers */
  async ask(question, anyBike = false) {
    this.question = question;
    this.anyBike = anyBike;
    this.asked += 1;
    const codes = document.querySelector("[data-sheet-codes]");
    if (codes) {
      codes.textContent = question.labels.join(", ");
    }
    const my = myBike();
    /** @type {Bike} */
    const bike = my && !this.anyBike ? [my.model, my.year] : null;
    const rows = question.faults.filter((row) => existsOn(row, bike));
    if (question.faults.length === 0) {
      this.say("unknown", rows);
    } else if (rows.length === 0) {
      this.say("none_here", rows);
    } else if (rows.length > MOST_FETCHED) {
      this.say("too_many", rows);
    } else {
      await this.fetch(rows, bike);
    }
  }

  /** @param {JointFaultRow[]} rows @param {Bike} bike */
  async fetch(rows, bike) {
    const { asked } = this;
    const found = await Promise.allSettled(rows.map(({ id, address }) => faultPage(id, address)));
    if (asked === this.asked) {
      this.draw(rows, found.flatMap((each) => (each.status === "fulfilled" ? [each.value] : [])), bike);
    }
  }

  /** @param {JointFaultRow[]} rows @param {FaultPage[]} pages @param {Bike} bike */
  draw(rows, pages, bike) {
    const question = /** @type {JointQuestion} */ (this.question);
    const { words, labels, given, without } = question;
    const shown = pages.filter(({ data }) => data !== null);
    const faults = shown.map((page) => /** @type {JointFault} */ (page.data));
    const planned = partsFor(faults, given, bike);
    const missing = rows.filter(({ id }) => !shown.some((page) => page.id === id));
    const obstacle = obstacleTo(planned, faults, { given, bike, isWhole: missing.length === 0 });
    if (obstacle) {
      this.say(obstacle, obstacle === "none_here" ? [] : rows);
      return;
    }
    const { joint, faults: shares, left } = fitting(planned.map(({ part }) => part), bike, without);
    const used = joint.parts.map(({ problem }) => problem.fault);
    const own = planned.map(({ fault }) => fault).filter(({ problem }) => used.includes(problem.fault));
    const on = new Map(planned.map(({ fault }) => [fault.problem.fault, casesOnModel(fault, given, bike)]));
    const mine = shown.filter(({ id }) => used.includes(id));
    this.likely.replaceChildren(...likelyView(shares, rows, on, { words, labels, bike, model: myBike()?.name ?? "" }));
    this.told.replaceChildren(
      ...toldView([
        left.length > 0 && say(words, "left_out", { faults: titles(rows.filter(({ id }) => left.includes(id))) }),
        missing.length > 0 && say(words, "not_here", { faults: titles(missing) }),
      ]),
    );
    this.before.replaceChildren(...beforeView(mine));
    this.looks?.show(mine);
    this.start(
      new SeveralFaults(joint, mine, {
        labels,
        words,
        bike,
        isPart: question.isPart,
        isAny: this.anyBike,
        codes: wordsOfCodes(own, given, bike),
        others: rows.filter(({ id }) => !used.includes(id)).map(({ id, level }) => ({ level, why: null, from: `fault:${id}` })),
        choose: (chosen) => this.choose(chosen),
        shown: (situation, page, source) => this.shown(situation, page, source),
      }),
    );
  }

  /** Takes the plan away: the next one knows nothing of what was answered in this one. */
  drop() {
    this.asked += 1;
    this.panel?.stop();
    this.panel?.element.remove();
    this.panel = null;
  }

  /** @param {SeveralFaults} source */
  start(source) {
    const before = this.panel;
    const hadFocus = before?.element.contains(document.activeElement) ? document.activeElement?.id : null;
    const wasOpen = before?.situation.element.open ?? false;
    before?.stop();
    const panel = new PlanPanel(source, before?.answers);
    panel.situation.element.open = wasOpen;
    this.panel = panel;
    try {
      panel.start();
    } catch (error) {
      if (!(error instanceof RangeError)) {
        throw error;
      }
      this.say("too_large", this.question?.faults ?? []);
      return;
    }
    this.section(true);
    this.plan.replaceChildren(panel.element);
    this.place.toggleAttribute("data-plan-ready", true);
    this.place.toggleAttribute("data-joint-done", true);
    if (hadFocus) {
      document.getElementById(hadFocus)?.focus();
    }
  }

  /** @param {boolean} isThere whether there is a plan */
  section(isThere) {
    this.plan.closest("section")?.toggleAttribute("hidden", !isThere);
    if (!isThere) {
      this.looks?.show([]);
    }
  }

  /** No plan, and the way on. @param {string} why name of the sentence @param {JointFaultRow[]} rows those that concern the bike */
  say(why, rows) {
    const { words, labels, rides } = /** @type {JointQuestion} */ (this.question);
    const my = myBike();
    const filled = { code: codeWords(labels), bike: my ? bikeName(my) : "", n: String(rows.length), faults: titles(rows) };
    const text = sentence(say(words, why, filled));
    this.section(false);
    this.panel?.stop();
    this.panel = null;
    this.place.toggleAttribute("data-plan-ready", false);
    this.place.toggleAttribute("data-joint-done", true);
    this.told.replaceChildren(
      el("p", {}, text),
      ...(WITH_BIKE.includes(why) ? [el("p", { class: "joint__ways" }, button("quiet", chooseBike, "Choose my bike"))] : []),
    );
    this.likely.replaceChildren(...likelyView([], rows, new Map(), { words, labels, bike: null, model: "" }));
    this.showFirst("", "First step", say(words, `${why}_first`));
    this.plan.replaceChildren();
    this.before.replaceChildren();
    this.stops.replaceChildren();
    this.free.replaceChildren();
    const level = strictestOf(rows.map((each) => each.level), rides, this.question?.isPart ?? false);
    this.showRide(level, "");
    document.dispatchEvent(new CustomEvent("planchange", { detail: null }));
  }

  /** @param {PlanSituation} situation @param {Page} page @param {SeveralFaults} source */
  shown(situation, page, source) {
    const { rides } = /** @type {JointQuestion} */ (this.question);
    const begun = source.answers.list.length > 0;
    const advice = source.ride(situation);
    const ride = rides.find(({ level }) => level === (advice.level ?? "unknown")) ?? null;
    this.showRide(ride, whose(advice, page, source));
    const [step] = situation.plan.steps;
    const title = !step || step.kind === "hand_over" ? say(page.words, "hand_over") : step.kind === "check" ? page.checks[step.id] : page.names.causes[step.id];
    const word = step?.kind === "fix" ? "Found" : begun ? "Next step" : "First step";
    this.showFirst(step ? `${step.kind}:${step.id ?? ""}` : "", word, step ? title : "Something does not fit", timeOf(step, page));
    this.stops.replaceChildren(...stopView(source.stops(situation)));
    this.free.replaceChildren(...freeView(source.free(situation.owner.bike), source, page.words));
  }

  /** @param {string} key empty: there is no plan to lead to @param {string} word @param {string} title @param {string} time */
  showFirst(key, word, title, time = "") {
    this.first.setAttribute("data-first-step", key);
    this.first.replaceChildren(el("span", { class: "step-one__word" }, word), " ", el("strong", { class: "step-one__title" }, title), " ", time && el("span", { class: "step-one__time" }, time));
    if (this.panel) {
      this.first.setAttribute("href", "#plan-now");
    } else {
      this.first.removeAttribute("href");
    }
  }

  /** The bike chosen in the plan's own form. @param {?MyBike} bike */
  choose(bike) {
    if (bike) {
      keepBike(bike);
    } else {
      this.chooseAny();
    }
    return true;
  }
}

function chooseBike() {
  document.querySelector("[data-bike-choose]")?.click();
}

/** @param {JointFaultRow[]} rows */
function titles(rows) {
  return listText(rows.map(({ title }) => title));
}

/** @param {string[]} labels */
export function codeWords(labels) {
  return labels.length > 1 ? "these codes" : `${labels[0]}`;
}

/** Whose advice it is. @param {RideWord} word @param {Page} page @param {SeveralFaults} source */
function whose({ from }, page, source) {
  const [kind, id] = from.split(/:(.*)/su);
  /** @type {Record<string, string | undefined>} */
  const names = { fault: source.pages.get(id)?.data?.title, cause: page.names.causes[id], code: id, check: page.checks[id] };
  const name = names[kind];
  return name ? `“${name}”` : "that of a fault which is not in the plan";
}

/** @param {(RideLevel | null)[]} levels @param {RideRow[]} rides the strictest first @param {boolean} isPart */
function strictestOf(levels, rides, isPart) {
  const found = rides.find(({ level }) => level !== "unknown" && levels.some((each) => each === level));
  return found && !(isPart && found.level === "no-restriction") ? found : (rides.find(({ level }) => level === "unknown") ?? null);
}
