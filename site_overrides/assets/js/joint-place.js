/**
 * Where a page has one plan for the faults behind its codes: how often it is which, the first step, the plan. Everything is
 * made anew when the codes or the bike change; what was answered stays, as far as the new plan knows it.
 */

import { bikeName, keepBike, myBike } from "./bike.js";
import { casesOnModel, fitting, MOST_FAULTS, partsFor, shareAMachine } from "./core/joint-choice.js";
import { wordsOfCodes } from "./core/joint-parts.js";
import { forBike } from "./core/plan-shared.js";
import { existsOn } from "./core/evidence.js";
import { listText, say, sentence } from "./core/plan-words.js";
import { button, el } from "./dom.js";
import { faultPage } from "./fault-pages.js";
import { beforeView, freeView, likelyView, stopView } from "./joint-views.js";
import { PlanPanel } from "./plan-panel.js";
import { SeveralFaults } from "./plan-joint.js";

/** Whoever has more faults behind a code chooses a bike first: each is a page to fetch. */
const MOST_FETCHED = 2 * MOST_FAULTS;

export class JointPlace {
  /**
   * @param {HTMLElement} place
   * @param {(ride: ?RideRow, why: string) => void} showRide told what holds about riding; null: nothing more than before
   */
  constructor(place, showRide) {
    this.place = place;
    this.showRide = showRide;
    this.likely = place.querySelector("[data-joint-likely]");
    this.first = place.querySelector("[data-first-step]");
    this.told = place.querySelector("[data-joint-told]");
    this.stops = place.querySelector("[data-joint-stops]");
    this.free = place.querySelector("[data-joint-free]");
    this.before = place.querySelector("[data-joint-before]");
    this.plan = place.querySelector("[data-joint-plan]");
    /** @type {?PlanPanel} */
    this.panel = null;
    this.asked = 0;
    this.anyBike = false;
    document.addEventListener("bikechange", () => {
      this.anyBike = false;
      this.again();
    });
  }

  /** @param {JointQuestion} question */
  async ask(question) {
    this.question = question;
    this.asked += 1;
    const { asked } = this;
    const my = myBike();
    /** @type {Bike} */
    const bike = my && !this.anyBike ? [my.model, my.year] : null;
    const rows = question.faults.filter((row) => existsOn(row, bike));
    const problem = this.obstacle(rows, bike, my);
    if (problem) {
      this.say(problem, rows);
      return;
    }
    const found = await Promise.allSettled(rows.map(({ id, address }) => faultPage(id, address)));
    if (asked === this.asked) {
      this.draw(rows, found.flatMap((each) => (each.status === "fulfilled" ? [each.value] : [])), bike);
    }
  }

  again() {
    if (this.question) {
      this.ask(this.question);
    }
  }

  /** What stands in the way of a plan before any page is asked for. @param {JointFaultRow[]} rows @param {Bike} bike @param {?MyBike} my */
  obstacle(rows, bike, my) {
    const { words, labels, faults } = /** @type {JointQuestion} */ (this.question);
    const code = codeWords(labels);
    if (faults.length === 0) {
      return say(words, "unknown", { code: sentence(code) });
    }
    if (rows.length === 0 && my) {
      return say(words, "none_here", { code, bike: bikeName(my) });
    }
    if (rows.length > MOST_FETCHED) {
      return say(words, "too_many", { n: String(rows.length) });
    }
    return null;
  }

  /** @param {JointFaultRow[]} rows @param {FaultPage[]} pages @param {Bike} bike */
  draw(rows, pages, bike) {
    const { words, labels, given, without } = /** @type {JointQuestion} */ (this.question);
    const shown = pages.filter(({ data }) => data !== null);
    const faults = shown.map((page) => jointFault(/** @type {PlanPage} */ (page.data), bike));
    const planned = partsFor(faults, given, bike);
    const missing = rows.filter(({ id }) => !shown.some((page) => page.id === id));
    if (planned.length === 0) {
      this.say(missing.length ? say(words, "not_here", { faults: titles(missing) }) : say(words, "follows", { code: codeWords(labels) }), rows);
      return;
    }
    if (planned.length > MOST_FAULTS) {
      this.say(say(words, "too_many", { n: String(planned.length) }), rows);
      return;
    }
    if (bike === null && !shareAMachine(planned.map(({ fault }) => fault.joint))) {
      this.say(say(words, "no_machine"), rows);
      return;
    }
    const parts = planned.map(({ part }) => part);
    const { joint, faults: shares, left } = fitting(parts, bike, without);
    const used = planned.map(({ fault }) => fault).filter(({ problem }) => !left.includes(problem.fault));
    const others = rows.filter(({ id }) => !used.some(({ problem }) => problem.fault === id));
    /** @type {JointAsked} */
    const asked = {
      labels,
      words,
      bike,
      isPart: this.question?.isPart ?? false,
      codes: wordsOfCodes(used, given, bike),
      others: others.map(({ id, level }) => ({ level, why: null, from: `fault:${id}` })),
      choose: (chosen) => this.choose(chosen),
      shown: (situation, page, source) => this.shown(situation, page, source),
    };
    const on = new Map(planned.map(({ fault }) => [fault.problem.fault, casesOnModel(fault, given, bike)]));
    this.likely.replaceChildren(...likelyView(shares, rows, on, { words, labels, bike, model: myBike()?.name ?? "" }));
    this.told.replaceChildren(
      ...[
        left.length > 0 && say(words, "left_out", { faults: titles(rows.filter(({ id }) => left.includes(id))) }),
        missing.length > 0 && say(words, "not_here", { faults: titles(missing) }),
      ]
        .filter(Boolean)
        .map((text) => el("p", {}, text)),
    );
    const mine = shown.filter(({ id }) => joint.parts.some(({ problem }) => problem.fault === id));
    this.before.replaceChildren(...beforeView(mine));
    this.start(new SeveralFaults(joint, mine, asked));
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
      this.say(say(source.asked.words, "too_large"), []);
      return;
    }
    this.plan.replaceChildren(panel.element);
    this.place.toggleAttribute("data-plan-ready", true);
    if (hadFocus) {
      document.getElementById(hadFocus)?.focus();
    }
  }

  /** No plan, and the way on. @param {string} text @param {JointFaultRow[]} rows those that concern the bike */
  say(text, rows) {
    const { words, labels, rides } = /** @type {JointQuestion} */ (this.question);
    this.panel?.stop();
    this.panel = null;
    this.place.toggleAttribute("data-plan-ready", false);
    this.told.replaceChildren(
      el("p", {}, text),
      el("p", { class: "joint__ways" }, button("quiet", () => document.querySelector("[data-bike-choose]")?.click(), "Choose my bike")),
    );
    this.likely.replaceChildren(...likelyView([], rows, new Map(), { words, labels, bike: null, model: "" }));
    const [row] = rows;
    this.first.replaceChildren(
      el("strong", {}, "First step: "),
      rows.length === 1 ? el("a", { href: withCodes(row.address, labels) }, row.title) : text.split(/(?<=[.:]) /u)[0],
    );
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
    const word = source.ride(situation);
    const ride = rides.find(({ level }) => level === (word.level ?? "unknown")) ?? null;
    this.showRide(ride, whose(word, page, source));
    const [step] = situation.plan.steps;
    const title = !step || step.kind === "hand_over" ? say(page.words, "hand_over") : step.kind === "check" ? page.checks[step.id] : page.names.causes[step.id];
    this.first.setAttribute("data-first-step", step ? `${step.kind}:${step.id ?? ""}` : "");
    this.first.replaceChildren(el("strong", {}, step?.kind === "fix" ? "Mend: " : "Next step: "), el("a", { href: "#plan-now" }, step ? title : "Something does not fit"));
    this.stops.replaceChildren(...stopView(source.stops(situation)));
    this.free.replaceChildren(...freeView(source.free(situation.owner.bike), source, page.words));
  }

  /** The bike chosen in the plan's own form. @param {?MyBike} bike */
  choose(bike) {
    if (bike) {
      keepBike(bike);
    } else {
      this.anyBike = true;
      this.again();
    }
    return true;
  }
}

/** @param {PlanPage} data @param {Bike} bike @returns {JointFault} */
function jointFault({ problem, beside, joint, shared }, bike) {
  return { problem: forBike(problem, shared, bike), beside, joint };
}

/** @param {JointFaultRow[]} rows */
function titles(rows) {
  return listText(rows.map(({ title }) => title));
}

/** @param {string[]} labels */
export function codeWords(labels) {
  return labels.length > 1 ? "these codes" : `${labels[0]}`;
}

/** A fault's page, which is told which codes were read. @param {string} address @param {string[]} labels */
export function withCodes(address, labels) {
  const to = new URL(address, document.baseURI);
  to.searchParams.set("codes", labels.join(","));
  return to.href;
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
