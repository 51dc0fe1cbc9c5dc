/** The page of a code: what its faults share, and one plan for them. The page's own words stay where that cannot be. */

import { bikeName, myBike } from "./bike.js";
import { existsOn } from "./core/evidence.js";
import { say } from "./core/plan-words.js";
import { el } from "./dom.js";
import { withCodes } from "./joint-links.js";
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
 * What makes the plan, and the pages of the faults, weigh more than this page: on a first visit they are fetched when the
 * reader comes near, or once the service worker keeps them for the road. Whoever has a bike sees its own shares at once.
 * @param {HTMLElement} section @param {() => void} begin
 */
function whenWanted(section, begin) {
  let isBegun = false;
  const start = () => {
    if (!isBegun) {
      isBegun = true;
      begin();
    }
  };
  if (myBike() || navigator.serviceWorker?.controller || location.hash) {
    start();
    return;
  }
  navigator.serviceWorker?.addEventListener("controllerchange", start, { once: true });
  for (const event of ["beforeprint", "hashchange"]) {
    addEventListener(event, start, { once: true });
  }
  for (const event of ["lookchange", "bikechange"]) {
    document.addEventListener(event, start, { once: true });
  }
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

/** All modules of a plan at once: else each is asked for only after one that imports it. */
function fetchLater() {
  const names = document.querySelector("[data-later]")?.dataset.later.split(" ") ?? [];
  document.head.append(...names.map((name) => el("link", { rel: "modulepreload", href: new URL(`./${name}.js`, import.meta.url).href })));
}

/** @param {PageElements["[data-joint]"]} place @param {CodeData} data @param {string[]} labels @param {JointFaultRow[]} faults */
async function planLater(place, data, labels, faults) {
  fetchLater();
  try {
    const { planAll } = await import("./code-joint.js");
    planAll(place, data, labels, faults);
  } catch {
    // The page's own words stay, and with them the way to each fault.
    /** @type {HTMLElement} */ (place).toggleAttribute("data-joint-done", true);
  }
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
    whenWanted(/** @type {HTMLElement} */ (document.getElementById("plan")), () => planLater(place, data, labels, faults));
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
