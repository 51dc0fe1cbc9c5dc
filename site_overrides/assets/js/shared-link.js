/** A page that may be opened by a link with a shared state: what reads and shows the state is fetched only then. */

import { hasState } from "./core/shared-fragment.js";
import { el } from "./dom.js";

/** Both at once, or the one would be asked for after the other. @param {SharedPlace} place */
async function viewOf(place) {
  const [{ SharedView }] = await Promise.all([import("./shared-view.js"), import("./core/shared-state.js")]);
  return new SharedView(place);
}

export class SharedLink {
  /** @param {SharedPlace} place */
  constructor(place) {
    this.place = place;
    /** @type {ReturnType<typeof viewOf> | null} */
    this.view = null;
    // Where another link is opened in the same page.
    addEventListener("hashchange", () => hasState(location.hash) && this.open());
  }

  /** With what the link carries, if anything. */
  async begin() {
    if (hasState(location.hash)) {
      await this.open();
    } else {
      this.place.restart(null);
    }
  }

  async open() {
    this.view ??= viewOf(this.place);
    let view;
    try {
      view = await this.view;
    } catch {
      this.view = null;
      this.sayLost();
      this.place.restart(null);
      return;
    }
    this.place.restart(view.open());
  }

  sayLost() {
    const text = "What reads this link did not arrive. What you see is your own. Load the page again when there is a network.";
    const note = el("section", { class: "shared", "aria-label": "Shared state" }, el("p", { class: "shared__text", role: "status" }, text));
    document.querySelector("#content").prepend(note);
  }
}
