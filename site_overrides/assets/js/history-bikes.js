/** The bikes whose history is kept: which is mine now, one more, what they are called, taking one away. */

import { myBike } from "./bike.js";
import { bikeText } from "./core/history-words.js";
import { MOST } from "./core/history.js";
import { button, el } from "./dom.js";
import { addBike, bikes, callBike, chooseBike, chosenBike, countOf, keepChosen } from "./history-store.js";

/** @param {number} count */
function entriesText(count) {
  return count === 1 ? "1 entry" : `${count} entries`;
}

/** The dialogue of the finder; what is chosen in it is one more bike, also if it is of the same model year as another. */
function addAnother() {
  keepChosen();
  const dialog = document.querySelector("[data-bike-dialog]");
  const form = dialog.querySelector("form");
  const added = () => {
    const chosen = myBike();
    if (chosen) {
      chooseBike(addBike(chosen));
    }
  };
  // After the chooser's own word.
  form.addEventListener("submit", added, { once: true });
  dialog.addEventListener("close", () => form.removeEventListener("submit", added), { once: true });
  document.querySelector("[data-bike-choose]")?.click();
}

/** @param {OwnBike} bike @param {() => void} leave */
function nameForm(bike, leave) {
  const field = el("input", { type: "text", maxlength: MOST.word, value: bike.call, autocomplete: "off" });
  const keep = (/** @type {Event} */ event) => {
    event.preventDefault();
    callBike(bike, field.value);
    leave();
  };
  return el(
    "form",
    { class: "bikes__name", onsubmit: keep },
    el("label", {}, "What you call it ", field),
    el("button", { class: "my-bike__button", type: "submit" }, "Keep the name"),
    button("my-bike__button", leave, "Cancel"),
  );
}

/**
 * @param {OwnBike} bike @param {boolean} isChosen @param {{remove: (bike: OwnBike) => void, show: () => void}} act
 */
function bikeRow(bike, isChosen, { remove, show }) {
  const row = el("li", { class: "row bikes__row" });
  const name = bikeText(bike);
  /** @param {string} word @param {() => void} press */
  const way = (word, press) => button("history__way", press, word, el("span", { class: "visually-hidden" }, `: ${name}`));
  const rename = () => {
    row.replaceChildren(nameForm(bike, show));
    row.querySelector("input")?.focus();
  };
  row.append(
    el("span", { class: "bikes__what", dir: "auto" }, name, el("span", { class: "bikes__count" }, `${isChosen ? "shown now, " : ""}${entriesText(countOf(bike.id))}`)),
    ...(isChosen ? [] : [way("Choose", () => chooseBike(bike))]),
    way("Name it", rename),
    way("Remove", () => remove(bike)),
  );
  return row;
}

/** @param {HTMLElement} place @param {(bike: OwnBike) => void} remove */
export function showBikes(place, remove) {
  const show = () => showBikes(place, remove);
  const own = bikes();
  const chosen = chosenBike();
  const list = own.length ? el("ul", { class: "rows" }, own.map((bike) => bikeRow(bike, bike.id === chosen?.id, { remove, show }))) : null;
  const more = own.length || myBike() ? el("p", {}, button("my-bike__button", addAnother, "Add another bike")) : null;
  place.replaceChildren(...[list, more].filter((each) => each !== null));
}
