/** The history as a file: saved, taken in after it was shown what that brings, and kept from being forgotten. */

import { arrivals, fileText, MOST_BYTES, readFile } from "./core/history-file.js";
import { arrivalText } from "./core/history-words.js";
import { button, el } from "./dom.js";
import { chooseBike, everything, takeIn } from "./history-store.js";
import { myBike } from "./bike.js";
import { today } from "./look-store.js";

/** @type {Record<FileProblem, string>} */
const PROBLEMS = {
  huge: "That file is too big to be a history. Nothing was taken in.",
  damaged: "That file is damaged or was cut off. Nothing was taken in; what is here stays.",
  newer: "That file was saved by a newer version of this site, and would not come over whole. Nothing was taken in. Load this page anew with a network, then try again.",
  other: "That is not a history that this site saved. Nothing was taken in.",
};

/** Hands the browser a file to save. */
export function saveFile() {
  const address = URL.createObjectURL(new Blob([fileText(everything(), today())], { type: "application/json" }));
  const link = el("a", { href: address, download: `bike-history-${today()}.json`, hidden: true });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** @param {File} file @returns {Promise<HistoryFile>} */
async function readIn(file) {
  if (file.size > MOST_BYTES) {
    return { problem: "huge", bikes: [], odd: 0 };
  }
  try {
    return readFile(await file.text());
  } catch {
    return { problem: "other", bikes: [], odd: 0 };
  }
}

/**
 * Shows what the file would bring, before anything of it is kept.
 * @param {File} file @param {HTMLElement} place @param {(word: string, undo?: () => void) => void} say
 */
export async function offerFile(file, place, say) {
  const leave = () => place.replaceChildren();
  const { problem, bikes, odd } = await readIn(file);
  leave();
  if (problem) {
    say(PROBLEMS[problem]);
    return;
  }
  const own = everything();
  const coming = arrivals(own, bikes);
  const some = coming.filter(({ isNew, fresh, changed }) => isNew || fresh.length || changed.length);
  const left = odd ? `${odd} ${odd === 1 ? "part" : "parts"} of it could not be read, and would be left out.` : "";
  say("");
  place.append(
    el("h3", { class: "history-form__title" }, "In this file"),
    el("ul", { class: "history__facts" }, [...coming.map(arrivalText), left].filter(Boolean).map((text) => el("li", { dir: "auto" }, text))),
    some.length ? el("p", { class: "history-form__buttons" }, button("my-bike__button my-bike__button--main", () => take(some, own, say, leave), "Take it in"), " ", button("my-bike__button", leave, "Leave it")) : el("p", {}, "Nothing new is in it."),
  );
  place.querySelector("button")?.focus();
}

/** @param {Arrival[]} some @param {BikeHistory[]} own @param {(word: string, undo?: () => void) => void} say @param {() => void} leave */
function take(some, own, say, leave) {
  const rows = some.map(({ bike, fresh, changed }) => ({ bike, entries: [...fresh, ...changed] }));
  leave();
  if (!takeIn(rows)) {
    say("This browser has no room for all of it, so nothing was taken in. What was here is here still.");
    return;
  }
  if (!myBike()) {
    chooseBike(rows[0].bike);
  }
  const count = rows.reduce((sum, { entries }) => sum + entries.length, 0);
  say(`${count} ${count === 1 ? "entry" : "entries"} came in.`, () => takeBack(some, own));
}

/** @param {Arrival[]} some @param {BikeHistory[]} own */
async function takeBack(some, own) {
  const { remove, removeBikes } = await import("./history-store.js");
  removeBikes(some.filter(({ isNew }) => isNew).map(({ bike }) => bike));
  const before = new Map(own.map(({ bike, entries }) => [bike.id, new Map(entries.map((entry) => [entry.id, entry]))]));
  some.filter(({ isNew }) => !isNew).forEach(({ bike, fresh }) => fresh.forEach(({ id }) => remove(bike.id, id)));
  takeIn(
    some
      .filter(({ isNew }) => !isNew)
      .map(({ bike, changed }) => ({ bike, entries: changed.flatMap(({ id }) => before.get(bike.id)?.get(id) ?? []) })),
  );
}

/** Whether the browser was asked to keep it, where browsers can be asked. @param {HTMLElement} place */
export async function showPersist(place) {
  const { storage } = navigator;
  if (!storage?.persist) {
    return;
  }
  const isKept = await storage.persisted();
  const ask = async () => {
    const isGranted = await storage.persist();
    place.textContent = isGranted ? "This browser keeps it until you delete it." : "This browser does not promise to keep it: save the file now and then.";
  };
  place.replaceChildren(isKept ? "This browser keeps it until you delete it." : button("my-bike__button", ask, "Ask this browser not to forget it"));
}
