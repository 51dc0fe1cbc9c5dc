/** What is looked at first in the systems of several faults, where the page does not have it itself. */

import { el } from "./dom.js";
import { addLooks } from "./first-looks.js";
import { copyOf } from "./plan-frame.js";

export class JointLooks {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    this.shown = "";
  }

  /** Each once, as the pages of the faults have them. @param {FaultPage[]} pages */
  show(pages) {
    const rows = pages.flatMap(({ shown }) => [...shown.querySelectorAll("[data-look]")]);
    const unique = [...new Map(rows.map((row) => [row.dataset.look, row])).values()];
    const ids = unique.map((row) => row.dataset.look).join(" ");
    this.place.toggleAttribute("hidden", unique.length === 0);
    if (ids !== this.shown) {
      this.shown = ids;
      this.place.querySelector("[data-looks]")?.remove();
      const list = el("ul", { class: "looks__list", "data-looks": true }, unique.map(copyOfLook));
      this.place.append(list);
      addLooks(list);
    }
  }
}

/** @param {WithData<HTMLElement, "look" | "results">} row */
function copyOfLook(row) {
  const copy = copyOf(row);
  // Its answers are named after it.
  copy.querySelector(".look__do")?.setAttribute("id", `look-${row.dataset.look}`);
  return copy;
}
