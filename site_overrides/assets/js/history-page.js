/** The history on the page "My bike": its entries, what they say together, the bikes, the file. */

import { keepBike, myBike } from "./bike.js";
import { bikeText } from "./core/history-words.js";
import { el, button } from "./dom.js";
import { showBikes } from "./history-bikes.js";
import { offerFile, saveFile, showPersist } from "./history-files.js";
import { EntryForm, entryName } from "./history-form.js";
import { lineView } from "./history-line.js";
import { add, bikes, change, chooseBike, chosenBike, entries, everything, keepChosen, put, remove, removeBikes, takeIn, whereKept } from "./history-store.js";
import { factsView, lastingText, listView } from "./history-views.js";
import { today } from "./look-store.js";

/** @template {string} N @param {N} name */
const part = (name) => /** @type {HTMLElement} */ (document.querySelector(`[data-history-${name}]`));
const { root, src } = document.querySelector("[data-finder]").dataset;
const home = new URL(root.replace(/\/?$/, "/"), document.baseURI);

/** How codes are written in this club; null where that cannot be had now. @returns {Promise<?FinderRoot>} */
async function club() {
  try {
    const answer = await fetch(new URL(src, document.baseURI));
    return answer.ok ? await answer.json() : null;
  } catch {
    return null;
  }
}

/** @param {string} word @param {() => void} [undo] */
function say(word, undo) {
  part("status").textContent = word;
  const press = () => {
    say("Taken back.");
    undo?.();
  };
  part("undo").replaceChildren(...(undo ? [button("my-bike__button", press, "Undo")] : []));
}

function show() {
  const bike = chosenBike();
  const own = bike ? entries(bike.id) : [];
  showBikes(part("bikes"), removeBike);
  part("new").hidden = !myBike();
  part("none").hidden = own.length > 0;
  part("none").textContent = myBike()
    ? "Nothing is noted yet. Note a code here, or press “I read this code today” on its page."
    : "Choose your bike first: a history is that of one bike.";
  part("lasting").textContent = own.length ? lastingText(whereKept()) : "";
  /** @param {string} name @param {?Element} view */
  const fill = (name, view) => part(name).replaceChildren(...(view ? [view] : []));
  fill("facts", bike && factsView(own, bike));
  fill("line", bike && lineView(own, bike));
  fill("list", bike && own.length ? listView(own, bike, { home, today: today(), change: (entry) => edit(entry), remove: (entry) => removeEntry(bike, entry) }) : null);
  const isAny = bikes().length > 0;
  /** @type {HTMLButtonElement} */ (part("save")).disabled = !isAny;
  part("delete").hidden = !isAny;
}

/** @param {?HistoryEntry} entry null: a new one */
function edit(entry) {
  const bike = keepChosen();
  if (!bike) {
    return;
  }
  const place = part("form");
  const leave = () => {
    place.replaceChildren();
    part("new").hidden = false;
    part("new").focus();
  };
  /** @param {NewEntry} written */
  const keep = (written) => {
    const kept = entry ? change(bike.id, entry, written) : add(bike.id, written);
    leave();
    say(kept ? "Kept." : "", kept ? () => (entry ? put(bike.id, entry) : remove(bike.id, kept.id)) : undefined);
  };
  const form = new EntryForm(bike, entries(bike.id), entry, { club, keep, leave });
  place.replaceChildren(form.element);
  part("new").hidden = true;
  place.scrollIntoView({ block: "nearest" });
  form.start();
}

/** @param {OwnBike} bike @param {HistoryEntry} entry */
function removeEntry(bike, entry) {
  remove(bike.id, entry.id);
  say(`Deleted: ${entryName(entry)}.`, () => put(bike.id, entry));
  part("undo").querySelector("button")?.focus();
}

/** @param {OwnBike} bike */
function removeBike(bike) {
  const isChosen = chosenBike()?.id === bike.id;
  const gone = removeBikes([bike]);
  if (isChosen) {
    keepBike(null);
  }
  const bringBack = () => {
    takeIn(gone);
    if (isChosen) {
      chooseBike(bike);
    }
  };
  say(`${bikeText(bike)} is removed, with its history.`, bringBack);
  part("undo").querySelector("button")?.focus();
}

/** Asked once more, as it takes everything. */
function deleteAll() {
  const all = everything();
  const count = all.reduce((sum, { entries: own }) => sum + own.length, 0);
  const place = part("sure");
  const leave = () => {
    place.replaceChildren();
    part("delete").focus();
  };
  const really = () => {
    const gone = removeBikes(bikes());
    leave();
    say("All of it is deleted from this device.", () => takeIn(gone));
    part("undo").querySelector("button")?.focus();
  };
  place.replaceChildren(
    el("p", {}, `Delete ${count} ${count === 1 ? "entry" : "entries"} of ${all.length} ${all.length === 1 ? "bike" : "bikes"}? Save the file first if you may want it again.`),
    el("p", { class: "history-form__buttons" }, button("my-bike__button", really, "Delete it all"), " ", button("my-bike__button", leave, "Leave it")),
  );
  place.querySelector("button")?.focus();
}

part("new").addEventListener("click", () => edit(null));
part("save").addEventListener("click", saveFile);
part("delete").addEventListener("click", deleteAll);
const opened = /** @type {HTMLInputElement} */ (part("open"));
opened.addEventListener("change", () => {
  const file = opened.files?.[0];
  if (file) {
    // The same file may be chosen again.
    offerFile(file, part("arrival"), say).finally(() => {
      opened.value = "";
    });
  }
});
document.querySelectorAll("[data-history]").forEach((each) => each.toggleAttribute("hidden", false));
document.addEventListener("historychange", show);
document.addEventListener("bikechange", () => {
  part("form").replaceChildren();
  show();
});
show();
showPersist(part("persist")).catch(() => {});
// Whoever comes by a link to the history: it was hidden until now.
if (location.hash === "#history") {
  document.getElementById("history")?.scrollIntoView();
}
