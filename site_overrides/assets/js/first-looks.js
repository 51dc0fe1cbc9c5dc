/** "Look at these first": each can be answered once, and is remembered for this bike and this day. */

import { bikeName, myBike } from "./bike.js";
import { button, el } from "./dom.js";
import { keepLook, looksOfToday } from "./look-store.js";

/** @type {Record<string, string>} */
const WORD = { good: "Good", bad: "Not good", low: "Too low", high: "Too high" };

class Looks {
  /** @param {HTMLElement} list */
  constructor(list) {
    this.rows = [...list.querySelectorAll("[data-look]")].map((row) => this.row(row));
    this.told = list.parentElement?.querySelector("[data-looks-told]") ?? null;
    this.told?.setAttribute("role", "status");
    document.addEventListener("lookchange", () => this.show());
    document.addEventListener("bikechange", () => this.show());
    this.show();
  }

  /** @param {WithData<HTMLElement, "look" | "results">} row */
  row(row) {
    const { look: id, results } = row.dataset;
    const buttons = results.split(" ").map((result) => {
      const press = () => keepLook(id, looksOfToday()[id] === result ? null : result);
      return { result, element: button("quiet look__answer", press, WORD[result]) };
    });
    const group = el("div", { class: "look__answers", role: "group", "aria-labelledby": `look-${id}` });
    group.append(...buttons.map(({ element }) => element));
    row.append(group);
    return { id, row, buttons };
  }

  show() {
    const looks = looksOfToday();
    const bike = myBike();
    for (const { id, row, buttons } of this.rows) {
      const found = looks[id] ?? null;
      row.toggleAttribute("data-looked", found !== null);
      for (const { result, element } of buttons) {
        element.setAttribute("aria-pressed", String(result === found));
      }
    }
    const done = this.rows.filter(({ id }) => id in looks).length;
    if (this.told) {
      const whose = bike ? `, on the ${bikeName(bike)}` : "";
      this.told.textContent = done ? `${done} of ${this.rows.length} looked at today${whose}.` : "";
    }
  }
}

/** @param {HTMLElement} list */
export function addLooks(list) {
  new Looks(list);
}

document.querySelectorAll("[data-looks]").forEach(addLooks);
