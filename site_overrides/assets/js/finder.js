/**
 * The finder on a page: fetches its data once, when it is first used; shows the answers; moves by keyboard.
 *
 * What is found, and in which order, is `core/finder.js`; how it looks is `finder-answers.js`. The keys are those of
 * the combobox pattern of the WAI-ARIA Authoring Practices: arrows choose, Enter opens what is chosen or else the first
 * answer, Escape closes the list and then empties the field; `/` goes to the field from anywhere on the page.
 */

import { find, prepare } from "./core/finder.js";
import { option, summary } from "./finder-answers.js";

// Browsers refuse an address that changes with every letter.
const ADDRESS_PAUSE = 400;

class Finder {
  constructor(form) {
    this.form = form;
    this.isHome = form.dataset.finder === "home";
    this.field = form.querySelector("#finder");
    this.results = form.querySelector("#finder-results");
    this.status = form.querySelector("#finder-status");
    this.clear = form.querySelector("[data-finder-clear]");
    this.root = new URL(form.dataset.root.replace(/\/?$/, "/"), document.baseURI);
    this.loading = null;
    this.chosen = -1;
    this.pause = 0;
  }

  start() {
    this.field.addEventListener("focus", () => this.enter());
    this.field.addEventListener("input", () => this.run());
    this.clear.addEventListener("click", () => this.empty());
    this.form.addEventListener("submit", (event) => this.submit(event));
    this.form.addEventListener("keydown", (event) => this.press(event));
    document.addEventListener("keydown", (event) => this.pressAnywhere(event));
    if (!this.isHome) {
      this.form.addEventListener("focusout", (event) => this.leave(event));
      // Else a press on a part of an answer takes the focus away, and the list closes before the click.
      this.results.addEventListener("pointerdown", (event) => event.preventDefault());
    }
    this.field.value = (this.isHome && new URL(location.href).searchParams.get("q")) || this.field.value;
    if (this.field.value) {
      this.run();
    }
  }

  get text() {
    return this.field.value.trim();
  }

  /** The data, ready for searching; null where it cannot be had now. */
  load() {
    this.loading ??= fetch(this.form.dataset.src)
      .then((answer) => (answer.ok ? answer.json() : Promise.reject(new Error(String(answer.status)))))
      .then(prepare)
      .catch(() => {
        // Tried again with the next letter: the network may be back.
        this.loading = null;
        return null;
      });
    return this.loading;
  }

  /** Shows the answers to what stands in the field; false where they cannot be had. */
  async run() {
    const { text } = this;
    this.clear.hidden = this.field.value === "";
    if (this.isHome) {
      this.keepInAddress(text);
    }
    if (text === "") {
      this.results.replaceChildren();
      this.close();
      this.status.textContent = "";
      return true;
    }
    const index = await this.load();
    if (this.text === text) {
      this.show(index && find(text, index), index?.data);
    }
    return index !== null;
  }

  show(found, data) {
    const address = (path) => new URL(path, this.root).href;
    const options = found ? found.answers.map((answer, place) => option(answer, place, data, address)) : [];
    this.results.replaceChildren(...options);
    this.results.scrollTop = 0;
    this.status.textContent = found
      ? summary(found, data)
      : "The finder's data did not arrive. Try again when there is a network.";
    this.choose(-1);
    this.open();
  }

  open() {
    this.results.hidden = this.results.childElementCount === 0;
    this.field.setAttribute("aria-expanded", String(!this.results.hidden));
  }

  close() {
    this.choose(-1);
    this.results.hidden = true;
    this.field.setAttribute("aria-expanded", "false");
  }

  /** Chooses an answer by its place; -1 is the field itself. */
  choose(place) {
    this.results.children[this.chosen]?.setAttribute("aria-selected", "false");
    this.chosen = place;
    const answer = this.results.children[place];
    if (answer) {
      answer.setAttribute("aria-selected", "true");
      answer.scrollIntoView({ block: "nearest" });
      this.field.setAttribute("aria-activedescendant", answer.id);
    } else {
      this.field.removeAttribute("aria-activedescendant");
    }
  }

  empty() {
    this.field.value = "";
    this.run();
    this.field.focus();
  }

  async submit(event) {
    event.preventDefault();
    if (this.text === "") {
      return;
    }
    const { chosen } = this;
    if (await this.run()) {
      // run() made the answers anew, in the same order.
      this.results.children[Math.max(0, chosen)]?.click();
    } else if (!this.isHome) {
      // The home page asks again, and the address keeps the question.
      this.form.submit();
    }
  }

  press(event) {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const count = this.results.childElementCount;
    if (by && count && event.target === this.field) {
      event.preventDefault();
      this.open();
      this.choose(((this.chosen + 1 + by + count + 1) % (count + 1)) - 1);
    } else if (event.key === "Escape" && this.field.value) {
      event.preventDefault();
      this.escape();
    }
  }

  escape() {
    if (this.results.hidden) {
      this.empty();
    } else {
      this.field.focus();
      this.close();
    }
  }

  pressAnywhere(event) {
    const isTyping = event.target.closest?.("input, textarea, select, [contenteditable]");
    if (event.key === "/" && !isTyping && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      this.field.focus();
      this.field.select();
    }
  }

  enter() {
    this.load();
    this.open();
  }

  leave(event) {
    if (!this.form.contains(event.relatedTarget)) {
      this.close();
    }
  }

  keepInAddress(text) {
    clearTimeout(this.pause);
    this.pause = setTimeout(() => {
      const here = new URL(location.href);
      if (text) {
        here.searchParams.set("q", text);
      } else {
        here.searchParams.delete("q");
      }
      history.replaceState(history.state, "", here);
    }, ADDRESS_PAUSE);
  }
}

const form = document.querySelector("[data-finder]");
if (form) {
  new Finder(form).start();
}
