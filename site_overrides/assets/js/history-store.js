/**
 * The history of the owner's bikes, in this browser alone. Nothing here ever sends anything.
 *
 * Each bike and each entry has a key of its own, so two tabs never write over each other's work. Where the browser's storage
 * is full or forbidden, what is written holds until the tab is closed, or, failing that too, for the page: `whereKept` says
 * so. Which bike is "my bike" says `bike.js` as before. Others hear of a change by the event `historychange`, also where
 * another tab made it.
 */

import { keepBike, myBike } from "./bike.js";
import { cleanBike, cleanEntry, newestFirst } from "./core/history.js";

const BIKE = "bike:";
const ENTRY = "entry:";

/** What no storage took: it holds for the page. @type {Map<string, string>} */
const onPage = new Map();
let lastMade = 0;

/** The storages that this browser allows, the lasting one first. @returns {Storage[]} */
function storages() {
  return [() => localStorage, () => sessionStorage].flatMap((get) => {
    try {
      return [get()];
    } catch {
      return [];
    }
  });
}

/** @param {Storage} storage @param {string} start */
function keysIn(storage, start) {
  return Object.keys(storage).filter((key) => key.startsWith(start));
}

/** @param {string} start */
function keysOf(start) {
  const here = [...onPage.keys()].filter((key) => key.startsWith(start));
  return [...new Set([...here, ...storages().flatMap((each) => keysIn(each, start))])];
}

/** @param {string} key @param {Storage[]} [all] @returns {unknown} */
function read(key, all = storages()) {
  const text = onPage.get(key) ?? all.reduceRight((/** @type {?string} */ found, each) => found ?? each.getItem(key), null);
  try {
    return JSON.parse(text ?? "null");
  } catch {
    // What another page wrote.
    return null;
  }
}

/** @param {string} key */
function drop(key) {
  onPage.delete(key);
  storages().forEach((each) => each.removeItem(key));
}

/** @param {Storage} storage @param {string} key @param {string} text */
function wrote(storage, key, text) {
  try {
    storage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}

/** @param {string} key @param {OwnBike | HistoryEntry} value */
function write(key, value) {
  const text = JSON.stringify(value);
  drop(key);
  if (!storages().some((each) => wrote(each, key, text))) {
    onPage.set(key, text);
  }
}

function tell() {
  document.dispatchEvent(new CustomEvent("historychange"));
}

/** @param {string} bikeId @param {string} entryId */
function entryKey(bikeId, entryId) {
  return `${ENTRY}${bikeId}:${entryId}`;
}

/** @param {number} length */
function chance(length) {
  return [...crypto.getRandomValues(new Uint8Array(length))].map((byte) => (byte % 36).toString(36)).join("");
}

function newId() {
  lastMade = Math.max(Date.now(), lastMade + 1);
  return `e${lastMade.toString(36).padStart(9, "0")}${chance(5)}`;
}

/** How long what is kept here lasts: on the device, until the tab is closed, or until the page is left. @returns {"device" | "visit" | "page"} */
export function whereKept() {
  if (onPage.size) {
    return "page";
  }
  const [first, ...others] = storages();
  const isLasting = first !== undefined && others.length > 0 && others.every((each) => keysIn(each, BIKE).length + keysIn(each, ENTRY).length === 0);
  return isLasting ? "device" : first ? "visit" : "page";
}

/** All bikes whose history is kept, in the order of what they are called. @returns {OwnBike[]} */
export function bikes() {
  const found = keysOf(BIKE)
    .map((key) => cleanBike(read(key)))
    .filter((each) => each !== null);
  return found.sort((one, other) => `${one.name} ${one.year} ${one.call} ${one.id}`.localeCompare(`${other.name} ${other.year} ${other.call} ${other.id}`, "en"));
}

/** "My bike", where its history is kept; null: none is chosen, or nothing was kept of it yet. @returns {?OwnBike} */
export function chosenBike() {
  const chosen = myBike();
  if (!chosen) {
    return null;
  }
  const own = chosen.id ? cleanBike(read(BIKE + chosen.id)) : null;
  return own ?? bikes().find(({ model, year }) => model === chosen.model && year === chosen.year) ?? null;
}

/** Begins to keep the history of one more bike. @param {MyBike} bike @param {string} [call] what the owner calls it @returns {OwnBike} */
export function addBike({ model, year, name }, call = "") {
  const unit = document.documentElement.dataset.distance === "mi" ? "mi" : "km";
  const id = `b${chance(6)}`;
  const bike = cleanBike({ id, model, year, name, call, unit }) ?? { id, model, year, name, call, unit };
  write(BIKE + id, bike);
  tell();
  return bike;
}

/** The chosen bike with an id, which it is given now if it has none; null: no bike is chosen. */
export function keepChosen() {
  const chosen = myBike();
  return chosenBike() ?? (chosen && addBike(chosen));
}

/** Makes it "my bike", on all pages. @param {OwnBike} bike */
export function chooseBike({ id, model, year, name }) {
  keepBike({ model, year, name, id });
}

/** @param {OwnBike} bike @param {string} call */
export function callBike(bike, call) {
  write(BIKE + bike.id, cleanBike({ ...bike, call }) ?? bike);
  tell();
}

/** The entries of a bike, the newest first. @param {string} bikeId @returns {HistoryEntry[]} */
export function entries(bikeId) {
  return newestFirst(soundOf(keysOf(`${ENTRY}${bikeId}:`)));
}

/** @param {string} bikeId */
export function countOf(bikeId) {
  return keysOf(`${ENTRY}${bikeId}:`).length;
}

/** The entries that were made last, which is quicker than all; the newest first. @param {string} bikeId @param {number} [most] */
export function lastEntries(bikeId, most = 60) {
  return newestFirst(soundOf(keysOf(`${ENTRY}${bikeId}:`).sort().slice(-most)));
}

/** @param {string[]} keys */
function soundOf(keys) {
  const all = storages();
  return keys.map((key) => cleanEntry(read(key, all))).filter((each) => each !== null);
}

/** @param {string} bikeId @param {NewEntry} entry @returns {?HistoryEntry} as it was kept; null where its day is none */
export function add(bikeId, entry) {
  return put(bikeId, { ...entry, id: newId(), changed: Date.now() });
}

/** @param {string} bikeId @param {HistoryEntry} entry @param {Partial<NewEntry>} changes */
export function change(bikeId, entry, changes) {
  return put(bikeId, { ...entry, ...changes, id: entry.id, changed: Math.max(Date.now(), entry.changed + 1) });
}

/** Keeps an entry as it is: a new one, or one that was taken away. @param {string} bikeId @param {unknown} value */
export function put(bikeId, value) {
  const entry = cleanEntry(value);
  if (entry) {
    write(entryKey(bikeId, entry.id), entry);
    tell();
  }
  return entry;
}

/** @param {string} bikeId @param {string} id */
export function remove(bikeId, id) {
  drop(entryKey(bikeId, id));
  tell();
}

/** All that is kept. @returns {BikeHistory[]} */
export function everything() {
  return bikes().map((bike) => ({ bike, entries: entries(bike.id) }));
}

/** Takes bikes away with their entries; "my bike" stays chosen. What is given back brings them again by `takeIn`. @param {OwnBike[]} gone @returns {BikeHistory[]} */
export function removeBikes(gone) {
  const before = gone.map((bike) => ({ bike, entries: entries(bike.id) }));
  for (const { bike } of before) {
    [BIKE + bike.id, ...keysOf(`${ENTRY}${bike.id}:`)].forEach(drop);
  }
  tell();
  return before;
}

/**
 * Keeps all of it or nothing: false where the browser's storage has no room for all.
 * @param {BikeHistory[]} rows
 */
export function takeIn(rows) {
  const values = rows.flatMap(({ bike, entries: own }) => [
    /** @type {const} */ ([BIKE + bike.id, JSON.stringify(bike)]),
    ...own.map((entry) => /** @type {const} */ ([entryKey(bike.id, entry.id), JSON.stringify(entry)])),
  ]);
  const [storage] = storages();
  /** @type {[key: string, before: ?string][]} */
  const done = [];
  for (const [key, text] of values) {
    const before = storage ? storage.getItem(key) : null;
    if (!storage) {
      onPage.set(key, text);
    } else if (wrote(storage, key, text)) {
      done.push([key, before]);
    } else {
      done.forEach(([each, was]) => (was === null ? storage.removeItem(each) : wrote(storage, each, was)));
      return false;
    }
  }
  tell();
  return true;
}

addEventListener("storage", ({ key }) => {
  if (key === null || key.startsWith(BIKE) || key.startsWith(ENTRY)) {
    tell();
  }
});
