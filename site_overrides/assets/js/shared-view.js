/**
 * A shared state that is looked at: what the link's fragment says takes the place of what this browser remembers, in this page
 * alone, and a note at the top says so. What the reader has stays as it is until he keeps the other, which says what it replaces.
 */

import { BIKE, bikeName, ownBike, tellBike } from "./bike.js";
import { NO_MEANS, cleanMeans } from "./core/plan-answers.js";
import { hasState } from "./core/shared-fragment.js";
import { decodeState } from "./core/shared-state.js";
import { countText, listText, sentence } from "./core/plan-words.js";
import { button, el } from "./dom.js";
import { isLent, keepLent, lend, ownMemory, takeBack } from "./memory.js";
import { PLACE, placeRecord } from "./plan-place.js";
import { answersKey, MEANS } from "./plan-store.js";

const TROUBLE = {
  version: "This link was made by a newer version of this site than the one that your browser has kept. Load the page again where there is a network.",
  damaged: "This link is damaged: what was shared cannot be read. What you see is your own.",
  cut: "This link was cut off: what stood behind the cut is missing.",
};

export class SharedView {
  /** @param {SharedPlace} place */
  constructor(place) {
    this.place = place;
    /** @type {?SharedState} */
    this.state = null;
    /** The bike of it, where the page knows it. @type {?MyBike} */
    this.bike = null;
    /** What is said of the link itself. @type {(string | false | null)[]} */
    this.words = [];
    this.isFitted = false;
    this.element = el("section", { class: "shared", "aria-label": "Shared state" });
    document.addEventListener("planchange", ({ detail }) => this.fit(detail));
  }

  /** The state that the link carries, if this page has use for it: the page then shows that one. @returns {?SharedState} */
  open() {
    if (!hasState(location.hash)) {
      return null;
    }
    this.leave();
    const { trouble, state } = decodeState(location.hash);
    if (state === null) {
      this.say([trouble && TROUBLE[trouble]], [this.closing()]);
      return null;
    }
    const way = this.place.elsewhere(state);
    if (way !== null) {
      const link = el("a", { href: way + location.hash }, "Open it there");
      this.say(["What was shared belongs to another page. What you see is your own. ", link], [this.closing()]);
      return null;
    }
    this.lend(state, trouble);
    return state;
  }

  /** @param {SharedState} state @param {ReadState["trouble"]} trouble */
  lend(state, trouble) {
    // First, or a plan that is shown would write its own answers into what was shared.
    this.place.stop();
    const { bike, answers, means, road, codes } = state;
    const model = bike && this.place.models().find(([id, , years]) => id === bike[0] && years.includes(bike[1]));
    /** @type {?MyBike} */
    const named = model && bike ? { model: bike[0], year: bike[1], name: model[1] } : null;
    this.state = state;
    this.bike = named;
    this.words = [
      trouble && TROUBLE[trouble],
      bike !== null && named === null && "The bike of it is not in the club's list any more, or is none that this page is about: what you see holds for any.",
    ];
    lend({
      [answersKey(this.place.key(codes))]: { ...answers, any: named === null },
      [MEANS]: means,
      [PLACE]: placeRecord(road),
      ...(named ? { [BIKE]: named } : {}),
    });
    document.documentElement.toggleAttribute("data-shared", true);
    tellBike();
    this.show([]);
  }

  /** Once the plan is there: what of the state it has no use for. @param {?PlanChange} change */
  fit(change) {
    if (this.state === null || this.isFitted) {
      return;
    }
    this.isFitted = true;
    const { list, covered, opened } = this.state.answers;
    const { given } = change ?? { given: null };
    const isKnown = (/** @type {Answer} */ one) => given?.list.some(({ check, fix }) => check === one.check && fix === one.fix) ?? false;
    const lost = [
      ...list.filter((answer) => !isKnown(answer)),
      ...covered.filter((cause) => !given?.covered.includes(cause)),
      ...opened.filter((job) => !given?.opened.includes(job)),
    ].length;
    const all = list.length + covered.length + opened.length;
    this.show([
      change === null && "There is no plan here now that could show it.",
      change !== null && lost > 0 && `${sentence(countText(lost, "answer"))} of ${all} ${lost === 1 ? "is" : "are"} about what this site has no more, or has otherwise: left out here.`,
    ]);
  }

  /** @param {(string | false)[]} more */
  show(more) {
    const { answers, road } = /** @type {SharedState} */ (this.state);
    const what = [
      this.bike ? bikeName(this.bike) : "any bike",
      answers.list.length ? countText(answers.list.length, "answer") : "nothing answered yet",
      road && "by the road",
    ].filter(Boolean);
    const replaced = this.replaced();
    this.say(
      [
        el("strong", {}, "You look at a shared state"),
        `: ${what.join(", ")}. What you change here is not kept.`,
        ...[...(this.words ?? []), ...more].map((text) => text && el("span", { class: "shared__word shared__word--trouble" }, text)),
        replaced.length > 0 && el("span", { class: "shared__word" }, `Keeping it replaces ${listText(replaced)}.`),
      ],
      [button("strong shared__keep", () => this.keep(), "Keep it"), button("quiet", () => this.back(), "Back to mine")],
    );
  }

  /** What the reader has, and would have no more. */
  replaced() {
    const mine = /** @type {?Answers} */ (ownMemory(answersKey(this.place.key(this.state?.codes ?? []))));
    const means = cleanMeans(ownMemory(MEANS));
    const bike = ownBike();
    const { bike: other } = this;
    const isOther = bike && other && (bike.model !== other.model || bike.year !== other.year);
    const isSet = JSON.stringify(means) !== JSON.stringify(NO_MEANS) && JSON.stringify(means) !== JSON.stringify(this.state?.means);
    return [mine?.list?.length ? "your own answers here" : "", isOther ? `your bike, the ${bikeName(bike)}` : "", isSet ? "what you said of your tools, skill and time" : ""].filter(Boolean);
  }

  keep() {
    keepLent();
    this.ended(this.state?.codes ?? []);
    this.say(["Kept on this device: it is yours now."], [this.closing()]);
    tellBike();
  }

  back() {
    this.leave();
    this.ended([]);
    this.place.restart(null);
    this.say(["What you see is your own again."], [this.closing()]);
    document.querySelector("#content").focus({ preventScroll: true });
  }

  /** Nothing of a shared state is left in the page. */
  leave() {
    if (isLent()) {
      // First, or a plan would keep what was shared as the reader's own.
      this.place.stop();
      takeBack();
      this.state = null;
      tellBike();
    }
    this.isFitted = false;
    document.documentElement.toggleAttribute("data-shared", false);
  }

  /** The address says no more what is no more looked at. @param {string[]} codes that are read from now on */
  ended(codes) {
    this.state = null;
    document.documentElement.toggleAttribute("data-shared", false);
    const here = new URL(location.href);
    here.hash = "";
    if (codes.length && this.place.takesCodes) {
      here.searchParams.set("codes", codes.join(","));
    }
    history.replaceState(history.state, "", here);
  }

  /** @param {Child[]} texts @param {HTMLElement[]} buttons */
  say(texts, buttons) {
    this.element.replaceChildren(el("p", { class: "shared__text", role: "status" }, texts), el("p", { class: "shared__buttons" }, buttons));
    document.querySelector("#content").prepend(this.element);
  }

  closing() {
    return button("quiet", () => this.close(), "Close this note");
  }

  close() {
    this.element.remove();
    if (hasState(location.hash)) {
      this.ended([]);
    }
    document.querySelector("#content").focus({ preventScroll: true });
  }
}
