/** The page of a code: what its faults share, and one plan for them. The page's own words stay where that cannot be. */

import { bikeName, myBike } from "./bike.js";
import { existsOn } from "./core/evidence.js";
import { say } from "./core/plan-words.js";
import { el } from "./dom.js";
import { JointPlace, withCodes } from "./joint-place.js";
import { codesKey } from "./plan-store.js";
import { SharedView } from "./shared-view.js";
import { showVerdict } from "./joint-ride.js";

/** @param {HTMLElement} place @returns {?CodeData} */
function readData(place) {
  try {
    return JSON.parse(place.querySelector("script.joint-data").textContent);
  } catch {
    return null;
  }
}

/**
 * One plan for several faults.
 * @param {PageElements["[data-joint]"]} place @param {CodeData} data @param {string[]} labels @param {JointFaultRow[]} faults
 */
function planAll(place, data, labels, faults) {
  const ride = /** @type {HTMLElement} */ (document.getElementById("ride"));
  /** @type {JointQuestion} */
  const question = {
    labels,
    given: data.codes.map((code) => ({ code, unit: null })),
    faults,
    without: data.without,
    words: data.words,
    rides: data.rides,
    isPart: false,
  };
  const joint = new JointPlace(
    /** @type {HTMLElement} */ (place),
    (row, why) => showVerdict(ride, row, why),
    () => joint.ask(question, true),
  );
  let isAsked = false;
  const ask = () => {
    isAsked = true;
    joint.ask(question);
  };
  const root = new URL(/** @type {PageElements["[data-strip]"]} */ (document.querySelector("[data-strip]")).dataset.root, document.baseURI);
  const shared = new SharedView({
    key: () => codesKey(labels),
    models: () => data.models,
    takesCodes: false,
    elsewhere: ({ fault, codes }) => (!fault && isSame(codes, labels) ? null : new URL(fault ? `faults/${fault}/` : "several/", root).href),
    stop: () => joint.drop(),
    restart: () => isAsked && ask(),
  });
  shared.begin();
  document.addEventListener("bikechange", ask);
  whenWanted(/** @type {HTMLElement} */ (document.getElementById("plan")), () => isAsked || ask());
}

/** @param {string[]} one @param {string[]} other */
function isSame(one, other) {
  return one.length === other.length && one.every((each) => other.includes(each));
}

/**
 * The pages of the faults weigh as much as this one: on a first visit they are fetched when the reader comes near, or once
 * the service worker keeps them for the road. Whoever has a bike sees its own shares at once.
 * @param {HTMLElement} section @param {() => void} start
 */
function whenWanted(section, start) {
  if (myBike() || navigator.serviceWorker?.controller || location.hash) {
    start();
    return;
  }
  navigator.serviceWorker?.addEventListener("controllerchange", start, { once: true });
  addEventListener("beforeprint", start, { once: true });
  document.addEventListener("lookchange", start, { once: true });
  document.querySelector("[data-first-step]")?.addEventListener("click", start, { once: true });
  const near = new IntersectionObserver(
    (entries) => {
      if (entries.some(({ isIntersecting }) => isIntersecting)) {
        near.disconnect();
        start();
      }
    },
    { rootMargin: "0px 0px 25% 0px" },
  );
  near.observe(section);
}

/**
 * A code that leads to one fault says all about it in the page itself, unless it concerns other bikes.
 * @param {HTMLElement} told @param {CodeData} data @param {string} code @param {JointFaultRow[]} faults
 */
function tellElsewhere(told, data, code, faults) {
  const ride = /** @type {HTMLElement} */ (document.getElementById("ride"));
  const unknown = data.rides.find(({ level }) => level === "unknown") ?? null;
  const own = data.rides.find(({ level }) => level === (ride.querySelector("[data-verdict]")?.getAttribute("data-verdict"))) ?? null;
  const before = [...told.childNodes];
  const answer = ride.querySelector("[data-verdict]")?.textContent ?? "";
  const why = document.querySelector("[data-verdict-why]")?.textContent ?? "";
  const show = () => {
    const bike = myBike();
    const isElsewhere = bike !== null && !faults.some((row) => existsOn(row, [bike.model, bike.year]));
    const text = isElsewhere && say(data.words, "none_here", { code, bike: bikeName(bike) });
    told.replaceChildren(...(text ? [el("p", {}, text)] : before));
    showVerdict(ride, isElsewhere ? unknown : own && { ...own, answer }, "", isElsewhere ? "" : why);
  };
  document.addEventListener("bikechange", show);
  show();
}

const place = document.querySelector("[data-joint]");
const data = place && readData(place);
if (place && data) {
  const root = new URL(place.dataset.root, document.baseURI);
  const labels = [...new Set(data.codes.map(([, text]) => text))];
  const faults = data.faults.map((row) => ({ ...row, address: new URL(`faults/${row.id}/`, root).href }));
  if (place.querySelector("[data-joint-plan]")) {
    planAll(place, data, labels, faults);
  } else {
    tellElsewhere(place.querySelector("[data-joint-told]"), data, labels[0], faults);
  }
  // Whoever goes on to a fault from here has read this code.
  for (const link of document.querySelectorAll("main a[href*='/faults/']")) {
    if (faults.some(({ address }) => link.href.split("#")[0] === address)) {
      link.href = withCodes(link.href, labels);
    }
  }
}
