/**
 * The plan on a fault's page. The static plan of the page stays, folded away: it is for an owner of whom nothing is known.
 */

import { readCodes, wordsOf } from "./core/given-codes.js";
import { mended } from "./core/plan-answers.js";
import { badBeforeRiding, mayBeFree, rideAdvice, strictest } from "./core/plan-beside.js";
import { forBike } from "./core/plan-shared.js";
import { showLook } from "./joint-ride.js";
import { fromCard } from "./plan-frame.js";
import { PlanPanel } from "./plan-panel.js";
import { SharedLink } from "./shared-link.js";
import { showFirst } from "./plan-first.js";
import { showShares } from "./plan-shares.js";

/** As `RIDE` in `kbtools/wording/labels.py`. @type {Record<RideLevel, string>} */
const LOOK = { "do-not-ride": "stop", "ride-to-workshop": "workshop", "ride-with-care": "care", "no-restriction": "free" };

/** What the page says of riding by itself. */
const OWN_ANSWER = document.querySelector("#ride .ride__answer")?.textContent ?? "";

/** @implements {PlanSource} */
class OneFault {
  /** @param {PlanPage} page @param {string[]} codes that the reader came with */
  constructor(page, codes) {
    this.page = page;
    /** With the ranges that are good on any bike. */
    this.general = page.problem;
    this.fault = page.problem.fault;
    this.key = this.fault;
    this.anyBike = "Any that this entry names";
    this.codes = codes;
    /** @type {Bike} */
    this.bike = null;
    this.isOfOneBike = false;
  }

  /** The remembered bike, where the entry names it and the owner did not ask for any. @param {?MyBike} bike @param {boolean} any @returns {Bike} */
  used(bike, any) {
    const isNamed = bike && this.page.models.some(([id, , years]) => id === bike.model && years.includes(bike.year));
    return isNamed && !any ? [bike.model, bike.year] : null;
  }

  choose() {
    return false;
  }

  /** A reading may be good on one bike and low on another one. @param {Bike} bike */
  problem(bike) {
    this.bike = bike;
    return forBike(this.general, this.page.shared, bike);
  }

  /** @param {string} name */
  card(name) {
    return document.getElementById(name);
  }

  /** @param {string} check */
  cautions(check) {
    return fromCard(this.card(`check-${check}`), ".caution");
  }

  after() {
    return [];
  }

  /** @param {string} cause */
  causeAddress(cause) {
    return `#cause-${cause}`;
  }

  whose() {
    return null;
  }

  /** What the codes that were read say about riding. @returns {RideWord[]} */
  words() {
    return wordsOf(this.page.joint.rows, this.codes, this.bike);
  }

  /** @param {PlanSituation} situation */
  verdict({ problem, owner, plan }) {
    const word = rideAdvice(this.page.beside, plan.chances, this.words(), badBeforeRiding(problem, owner));
    return word.level !== null && word.level !== this.page.beside.advice.level ? word.level : null;
  }

  rideChange() {
    return null;
  }

  /** @param {Bike} bike */
  free(bike) {
    return mayBeFree(this.page.beside, bike);
  }

  /** @param {string} bike */
  elsewhere(bike) {
    return `This entry does not name your ${bike}: the figures hold for the bikes that it names.`;
  }

  about() {
    const codes = this.codes.length ? this.codes : [...new Set([...document.querySelectorAll("#codes .code__text")].map((code) => code.textContent ?? ""))];
    const read = this.codes.length ? "Codes that I read" : "Codes of this fault";
    return [document.querySelector("h1").textContent ?? "", codes.length > 0 && `${read}: ${codes.join(", ")}`];
  }

  /** @param {PlanSituation} situation @param {Answers} answers @param {Page} page @param {?PlanCheck} check */
  shown({ plan, owner }, answers, page, check) {
    showFirst(plan, check, mended(answers), answers.list.length > 0, page);
    showShares(plan, owner.bike, answers.list.length > 0, this.page.words);
    this.showRide();
  }

  /** The page's own answer, or the stricter one with the codes that were read. */
  showRide() {
    const place = document.querySelector("#ride [data-verdict]");
    const answer = place?.querySelector(".ride__answer");
    const { advice } = this.page.beside;
    const { level, from } = strictest([advice, ...this.words()]);
    if (place && answer && level !== null && place.getAttribute("data-verdict") !== level) {
      const [, code] = from.split(/:(.*)/su);
      answer.textContent = level === advice.level ? OWN_ANSWER : `${this.page.rides[level]} That is stricter than without ${code}.`;
      place.setAttribute("data-verdict", level);
      const section = /** @type {HTMLElement} */ (document.getElementById("ride"));
      showLook(section, LOOK[level]);
    }
  }
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

/** The plan of the page in its place; another one, where a shared state comes or goes. */
class PlanOfPage {
  /** @param {HTMLElement} place @param {PlanPage} page */
  constructor(place, page) {
    this.place = place;
    this.page = page;
    /** @type {?PlanPanel} */
    this.panel = null;
  }

  /** @param {string[]} codes that were read */
  start(codes) {
    const before = this.panel;
    const panel = new PlanPanel(new OneFault(this.page, codes));
    try {
      panel.start();
    } catch (error) {
      // Too large an entry: what stands on the page stays as it is.
      if (!(error instanceof RangeError)) {
        throw error;
      }
      return;
    }
    this.panel = panel;
    if (before) {
      before.stop();
      before.element.replaceWith(panel.element);
    } else {
      this.put(panel);
    }
  }

  /** @param {PlanPanel} panel */
  put(panel) {
    const { place } = this;
    const rest = place.querySelector(".plan-all");
    place.insertBefore(panel.element, rest);
    // What stands behind the plan is said beside its steps.
    while (place.nextSibling) {
      rest.append(place.nextSibling);
    }
    place.toggleAttribute("data-plan-ready", true);
  }
}

function codesInAddress() {
  return readCodes(new URL(location.href).searchParams.get("codes") ?? "");
}

const article = document.querySelector("article[data-fault]");
const root = new URL(document.querySelector("[data-strip]").dataset.root, document.baseURI);
for (const place of document.querySelectorAll("[data-plan]")) {
  const page = readData(place);
  if (page) {
    const { fault: id } = page.problem;
    const own = [id, ...(article?.dataset.formerly ?? "").split(" ")];
    const plan = new PlanOfPage(place, page);
    const shared = new SharedLink({
      key: () => id,
      models: () => page.models,
      takesCodes: true,
      elsewhere: ({ fault }) => (own.includes(fault) && fault ? null : new URL(fault ? `faults/${fault}/` : "several/", root).href),
      stop: () => plan.panel?.stop(),
      restart: (state) => plan.start(state?.codes ?? codesInAddress()),
    });
    shared.begin();
  }
}
