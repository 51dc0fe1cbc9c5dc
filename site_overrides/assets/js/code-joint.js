/** One plan for the faults of a code, fetched when it is wanted (`code-plan.js`). */

import { JointPlace } from "./joint-place.js";
import { showVerdict } from "./joint-ride.js";
import { codesKey } from "./plan-store.js";
import { SharedLink } from "./shared-link.js";

/** @param {PageElements["[data-joint]"]} place @param {CodeData} data @param {string[]} labels @param {JointFaultRow[]} faults */
export function planAll(place, data, labels, faults) {
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
  const shared = new SharedLink({
    key: () => codesKey(labels),
    models: () => data.models,
    takesCodes: false,
    elsewhere: ({ fault, codes }) => (!fault && isSame(codes, labels) ? null : new URL(fault ? `faults/${fault}/` : "several/", root).href),
    stop: () => joint.drop(),
    restart: () => isAsked && ask(),
  });
  // First what was shared: else the plan would begin with what the reader has.
  shared.begin().then(() => {
    document.addEventListener("bikechange", ask);
    ask();
  });
}

/** @param {string[]} one @param {string[]} other */
function isSame(one, other) {
  return one.length === other.length && one.every((each) => other.includes(each));
}
