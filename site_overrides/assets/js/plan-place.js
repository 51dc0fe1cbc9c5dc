/**
 * By the road or at home: which tools are there. Remembered for the day; where storage fails, it holds for the page.
 */

import { el } from "./dom.js";
import { today } from "./look-store.js";
import { remember, remembered } from "./memory.js";

export const PLACE = "place";

/** @returns {boolean} */
export function isByTheRoad() {
  const kept = /** @type {?Record<string, unknown>} */ (remembered(PLACE));
  return kept?.day === today() && kept.road === true;
}

/** As it is remembered. @param {boolean} road */
export function placeRecord(road) {
  return { day: today(), road };
}

/**
 * What there is by the road: what lies under the seat, whatever else the owner has at home.
 * @param {Means} means @param {PlanPage} page @returns {Means}
 */
export function meansByTheRoad(means, page) {
  const tools = Object.entries(page.problem.tools);
  const isOn = (/** @type {string} */ tool) => page.on_bike.includes(tool);
  return {
    ...means,
    has: tools.filter(([tool, usual]) => isOn(tool) && !usual).map(([tool]) => tool),
    lacks: tools.filter(([tool, usual]) => !isOn(tool) && usual).map(([tool]) => tool),
  };
}

export class Place {
  /** @param {PlanPage} page @param {(road: boolean) => void} changed */
  constructor(page, changed) {
    this.road = isByTheRoad();
    /** @type {[boolean, HTMLButtonElement][]} */
    this.buttons = [false, true].map((road) => [
      road,
      el("button", { type: "button", class: "place__button", onclick: () => this.choose(road, changed) }, road ? "By the road" : "At home"),
    ]);
    this.told = roadside(page);
    this.element = el(
      "div",
      { class: "place" },
      el("div", { class: "place__switch", role: "group", "aria-label": "Where are you?" }, this.buttons.map(([, each]) => each)),
      this.told,
    );
    this.show();
  }

  /** @param {boolean} road @param {(road: boolean) => void} changed */
  choose(road, changed) {
    this.road = road;
    remember(PLACE, placeRecord(road));
    this.show();
    changed(road);
  }

  show() {
    this.buttons.forEach(([road, each]) => each.setAttribute("aria-pressed", String(road === this.road)));
    this.told.hidden = !this.road;
  }
}

/** What comes before any check, and whom to ring. @param {PlanPage} page */
function roadside({ breakdown, names, on_bike }) {
  const tools = on_bike.map((tool) => names.tools[tool].toLowerCase());
  return el(
    "div",
    { class: "place__road" },
    el("p", { class: "place__first" }, "First off the road: out of the traffic, the bike where others see it, you behind the barrier. Do nothing where cars pass."),
    breakdown && el("p", {}, "If it does not go on: ", el("a", { href: `tel:${breakdown.phone.replace(/[^+\d]/gu, "")}` }, breakdown.phone), `. ${breakdown.say ?? ""}`),
    el("p", { class: "place__tools" }, tools.length ? `The plan reckons with what lies under the seat: ${tools.join("; ")}.` : "The plan reckons without any tool."),
  );
}
