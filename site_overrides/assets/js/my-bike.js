/** The page "My bike": what is known about it, how much that takes, and keeping it for the road. */

import { bikeName, myBike } from "./bike.js";
import { Shelves } from "./core/shelves.js";

/** @template {MyBikePart} N @param {N} name */
const part = (name) => document.querySelector(/** @type {const} */ (`[data-my-bike-${name}]`));
const { root, src } = document.querySelector("[data-finder]").dataset;
const home = new URL(root.replace(/\/?$/, "/"), document.baseURI);
const data = new URL(src, document.baseURI);
const { content: build } = document.querySelector('meta[name="build"]');

/** @param {URL} url */
const json = async (url) => {
  const answer = await fetch(url);
  if (!answer.ok) {
    throw new Error(String(answer.status));
  }
  return answer.json();
};

/** @param {number} bytes */
const megabytes = (bytes) => `${Math.max(0.1, bytes / 1e6).toFixed(1)} MB`;
/** @param {number} number @param {string} one */
const count = (number, one) => `${number} ${one}${number === 1 ? "" : "s"}`;
/** @param {string} text */
const day = (text) => new Date(text).toLocaleDateString("en-GB", { dateStyle: "long" });
/** @param {?MyBike} one @param {?MyBike} other */
const isSame = (one, other) => Boolean(one && other && one.model === other.model && one.year === other.year);

/**
 * Asks the service worker; `heard` is told how far it is. Gives its last word.
 * @param {ServiceWorker} active @param {Question} question @param {(said: Progress) => void} heard
 * @returns {Promise<LastWord>}
 */
function ask(active, question, heard = () => {}) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data: said }) => (said.done ? resolve(said) : heard(said));
    active.postMessage(question, [port2]);
  });
}

async function worker() {
  if (!("serviceWorker" in navigator)) {
    return null;
  }
  // Where none was registered, the page was served without one.
  const none = new Promise((resolve) => setTimeout(() => resolve(null), 15_000));
  return (await Promise.race([navigator.serviceWorker.ready, none]))?.active ?? null;
}

/** @param {MyBike} bike */
async function showSize(bike) {
  try {
    /** @type {[FinderRoot, number[], BuildFiles]} */
    const [known, sizes, list] = await Promise.all([
      json(data),
      json(new URL(`build/${build}-sizes.json`, home)),
      json(new URL(`build/${build}.json`, home)),
    ]);
    const places = await new Shelves(known, (name) => json(new URL(name, data))).bike(bike);
    if (!isSame(bike, myBike())) {
      return;
    }
    if (!places) {
      part("size").textContent = "The club's list has no such model year any more. Choose again.";
      part("links").hidden = true;
      return;
    }
    const faults = [...places].filter((place) => place < known.faults).length;
    const ofPages = [...places].reduce((sum, place) => sum + sizes[place], 0);
    const ofFinder = list.files.filter(([name]) => data.pathname.endsWith(`${name.slice(0, name.indexOf("/", 5) + 1)}root.json`));
    const bytes = ofPages + ofFinder.reduce((sum, [, size]) => sum + size, 0);
    const what = `${count(faults, "fault")} and ${count(places.size - faults, "code")}`;
    part("size").textContent = `${what}, about ${megabytes(bytes)} with the finder.`;
  } catch {
    part("size").textContent = "How much that takes is not known without a network.";
  }
}

/** @param {?KeptBike} kept @param {?MyBike} bike */
function showKept(kept, bike) {
  const isKept = isSame(kept, bike);
  part("remove").hidden = !kept;
  part("start").textContent = isKept ? "Keep it again" : "Keep on this device";
  if (kept && isKept) {
    const size = `${count(kept.pages.length, "page")}, ${megabytes(kept.bytes)}`;
    part("status").textContent = `Kept on ${day(kept.on)}: ${size}. Ride advice may have changed since; look again when there is a network.`;
  } else {
    part("status").textContent = kept ? `This device keeps another bike: ${bikeName(kept)}.` : "";
  }
}

/** @param {MyBike} bike */
function showLinks({ model, year }) {
  for (const link of document.querySelectorAll("[data-my-bike-to]")) {
    link.href = new URL(`models/${encodeURIComponent(model)}/${year}/${link.dataset.myBikeTo}`, home).href;
  }
}

async function show() {
  const bike = myBike();
  part("choose").hidden = false;
  part("choose").textContent = bike ? "Choose another" : "Choose my bike";
  part("name").textContent = bike ? bikeName(bike) : "No bike is chosen yet.";
  part("keep").hidden = !bike;
  part("links").hidden = !bike;
  part("size").textContent = "";
  if (bike) {
    showLinks(bike);
    showSize(bike);
    const active = await worker();
    if (active) {
      showKept((await ask(active, { do: "tell" })).bike, bike);
    } else {
      part("start").disabled = true;
      part("status").textContent = "This browser cannot keep pages here.";
    }
  }
}

/** @param {Question} question */
async function run(question) {
  const active = await worker();
  const [start, remove, progress] = [part("start"), part("remove"), part("progress")];
  if (!active) {
    return;
  }
  start.disabled = true;
  remove.disabled = true;
  part("status").textContent = question.do === "keep" ? "Keeping…" : "";
  progress.hidden = question.do !== "keep";
  progress.value = 0;
  const said = await ask(active, question, ({ kept, of }) => {
    progress.value = kept / of;
  });
  start.disabled = false;
  remove.disabled = false;
  progress.hidden = true;
  showKept(said.bike, myBike());
  if (said.failed) {
    const before = isSame(said.bike, myBike()) ? ` ${part("status").textContent}` : "";
    part("status").textContent = `Not everything arrived. Try again when there is a good network.${before}`;
  }
}

part("start").addEventListener("click", () => run({ do: "keep", bike: myBike() }));
part("remove").addEventListener("click", () => run({ do: "drop" }));
document.addEventListener("bikechange", show);
show();
