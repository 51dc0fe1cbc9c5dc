/**
 * The finder on a page: fetches its data when it is first used, and only the files that a question needs; shows the
 * answers; moves by keyboard.
 *
 * What is found, and in which order, is `core/finder.js`; how it looks is `finder-answers.js`. The keys are those of
 * the combobox pattern of the WAI-ARIA Authoring Practices: arrows choose, Enter opens what is chosen or else the one
 * answer that is sure, Escape closes the list and then empties the field; `/` goes to the field from anywhere on the page.
 *
 * Nothing waits for an answer: each letter asks anew, and an answer that a later question has overtaken is dropped.
 */

import { bikeName } from "./bike.js";
import { el } from "./dom.js";
import { BikeChooser } from "./finder-bike.js";

// Browsers refuse an address that changes with every letter.
const ADDRESS_PAUSE = 400;

class GoneError extends Error {}

/**
 * What finds and shows: a quarter of what a page weighs, and most pages are read without a question. Fails with a
 * GoneError where the site has it no more.
 */
async function finding() {
  try {
    return await modules();
  } catch (error) {
    // A module that is gone fails like one for which there is no network.
    const { ok, status } = await fetch(new URL("./core/finder.js", import.meta.url));
    throw ok ? error : new GoneError(`${status}`);
  }
}

/** All of them are named, or each would be asked for only after one that needs it. */
function modules() {
  return Promise.all([
    import("./core/finder.js"),
    import("./core/shelves.js"),
    import("./finder-answers.js"),
    import("./core/asked.js"),
    import("./core/codes.js"),
    import("./core/marks.js"),
    import("./core/query.js"),
    import("./core/ranking.js"),
    import("./core/stem.js"),
    import("./core/stops.js"),
    import("./core/sure.js"),
    import("./core/told.js"),
    import("./core/words.js"),
  ]);
}

class Finder {
  /** @param {PageElements["[data-finder]"]} form */
  constructor(form) {
    this.form = form;
    this.isHome = form.dataset.finder === "home";
    this.field = form.querySelector("#finder");
    this.sheet = form.querySelector("[data-finder-sheet]");
    this.results = form.querySelector("#finder-results");
    this.status = form.querySelector("#finder-status");
    this.stops = form.querySelector("[data-finder-stops]");
    this.others = form.querySelector("[data-finder-others]");
    this.clear = form.querySelector("[data-finder-clear]");
    this.root = new URL(form.dataset.root.replace(/\/?$/, "/"), document.baseURI);
    this.data = new URL(form.dataset.src, document.baseURI);
    /** @type {?Promise<Search>} */
    this.search = null;
    this.question = 0;
    this.everywhere = false;
    this.chosen = -1;
    this.pause = 0;
  }

  start() {
    const dialog = document.querySelector("[data-bike-dialog]");
    /** @type {BikeChooser} */
    this.chooser = new BikeChooser(this.form, dialog, async () => (await this.load()).shelves.root.models);
    this.field.addEventListener("focus", () => this.enter());
    this.field.addEventListener("input", () => this.ask());
    this.field.addEventListener("paste", (event) => this.paste(event));
    this.clear.addEventListener("click", () => this.empty());
    this.others.addEventListener("click", () => this.turn());
    this.form.addEventListener("submit", (event) => this.submit(event));
    this.form.addEventListener("keydown", (event) => this.press(event));
    document.addEventListener("keydown", (event) => this.pressAnywhere(event));
    document.addEventListener("bikechange", () => this.ask());
    this.results.addEventListener("click", () => this.keep(this.text));
    visualViewport?.addEventListener("resize", measure);
    measure();
    if (!this.isHome) {
      this.form.addEventListener("focusout", (event) => this.leave(event));
      // Who comes back to the list has the focus elsewhere.
      document.addEventListener("pointerdown", ({ target }) => this.form.contains(/** @type {Node} */ (target)) || this.close());
      // Else a press on a part of an answer takes the focus away, and the list closes before the click.
      this.results.addEventListener("pointerdown", (event) => event.preventDefault());
    }
    const asked = this.isHome ? new URL(location.href).searchParams.get("q") : askedBefore();
    this.field.value = asked ? oneLine(asked) : this.field.value;
    if (this.field.value) {
      this.run();
    } else if (this.isHome) {
      // The page is there for its finder; elsewhere it is asked for when the owner goes to the field.
      this.load().catch(() => {});
    }
  }

  get text() {
    return this.field.value.trim();
  }

  /** What every question needs; asked for again with the next letter where it did not come. */
  load() {
    this.search ??= Promise.all([this.file("root.json"), finding()]).then(
      ([root, [{ find }, { Shelves }, views]]) => ({ find, views, shelves: new Shelves(root, (name) => this.file(name)) }),
      (error) => {
        this.search = null;
        throw error;
      },
    );
    return this.search;
  }

  /** @param {string} name */
  async file(name) {
    const answer = await fetch(new URL(name, this.data));
    if (!answer.ok) {
      throw new GoneError(`${answer.status}`);
    }
    return answer.json();
  }

  /** A question that the owner has just put or changed. */
  ask() {
    this.everywhere = false;
    this.run();
  }

  /** Shows the answers to what stands in the field; false where they cannot be had, or another question came after. */
  async run() {
    const { text } = this;
    this.question += 1;
    const { question } = this;
    this.clear.hidden = this.field.value === "";
    clearTimeout(this.pause);
    this.pause = setTimeout(() => this.keep(text), ADDRESS_PAUSE);
    if (text === "") {
      this.results.replaceChildren();
      this.sayFirst([]);
      this.others.hidden = true;
      this.close();
      this.status.textContent = "";
      return true;
    }
    let found = null;
    let search = null;
    let error = null;
    try {
      search = await this.load();
      found = await search.find(text, search.shelves, { bike: this.chooser.bike, everywhere: this.everywhere });
    } catch (thrown) {
      error = thrown;
    }
    if (question !== this.question) {
      return false;
    }
    if (found && search) {
      this.show(found, search);
      this.showLater(found, search, question);
    } else {
      this.fail(error);
    }
    return found !== null;
  }

  /**
   * Appends the answers that the first ones did not wait for. They come below, so nothing moves.
   * @param {FinderAnswers} found @param {Search} search @param {number} question
   */
  async showLater(found, search, question) {
    try {
      const later = await found.later();
      if (question === this.question) {
        search.views.place(this.results, this.options(later, search, found.answers.length));
      }
    } catch {
      // The first ones stand; the next letter asks for all again.
    }
  }

  /** @param {FinderAnswer[]} answers @param {Search} search @param {number} from */
  options(answers, { views, shelves }, from) {
    const { bike } = this.chooser;
    const look = { address: (/** @type {string} */ path) => new URL(path, this.root).href, bike: bike && bikeName(bike) };
    return answers.map((answer, at) => ({ answer, link: views.option(answer, from + at, shelves.root, look) }));
  }

  /** @param {FinderAnswers} found @param {Search} search */
  show(found, search) {
    this.results.replaceChildren();
    this.sayFirst(found.stops);
    search.views.place(this.results, this.options(found.answers, search, 0));
    this.sheet.scrollTop = 0;
    this.status.textContent = search.views.summary(found, search.shelves.root);
    this.others.hidden = found.hidden === 0 && !this.everywhere;
    this.others.textContent = this.everywhere ? "Only my bike" : "Show all models";
    this.choose(-1);
    this.open();
  }

  /**
   * What the club wants said whatever was found. Said again only where it changes, or each letter would repeat it.
   * @param {string[]} stops
   */
  sayFirst(stops) {
    if ([...this.stops.children].map((each) => each.textContent).join("\n") !== stops.join("\n")) {
      this.stops.replaceChildren(...stops.map((text) => el("p", { class: "finder__stop", dir: "auto" }, text)));
    }
  }

  /** @returns {HTMLElement[]} */
  get listed() {
    return [...this.results.querySelectorAll('[role="option"]')].map((each) => /** @type {HTMLElement} */ (each));
  }

  /** @param {unknown} error */
  fail(error) {
    this.results.replaceChildren();
    this.sayFirst([]);
    this.others.hidden = true;
    this.close();
    const isGone = error instanceof GoneError;
    this.status.textContent = isGone
      ? "The site was renewed since this page was opened. Load the page again."
      : "The finder's data did not arrive. Try again when there is a network.";
    this.sheet.hidden = false;
  }

  open() {
    const { childElementCount: count } = this.results;
    const isNew = this.results.hidden && count > 0;
    this.results.hidden = count === 0;
    this.sheet.hidden = !this.isHome && this.status.textContent === "";
    this.field.setAttribute("aria-expanded", String(count > 0));
    if (isNew && document.activeElement === this.field) {
      this.toTop();
    }
  }

  close() {
    this.choose(-1);
    this.results.hidden = true;
    this.sheet.hidden = !this.isHome;
    this.field.setAttribute("aria-expanded", "false");
  }

  /** Chooses an answer by its place; -1 is the field itself. @param {number} at */
  choose(at) {
    const { listed } = this;
    listed[this.chosen]?.setAttribute("aria-selected", "false");
    this.chosen = at;
    const answer = listed[at];
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
    this.ask();
    this.field.focus();
  }

  /** Shows what concerns other machines too, or no longer. */
  async turn() {
    this.everywhere = !this.everywhere;
    await this.run();
    this.field.focus();
  }

  /**
   * A field of one line swallows line breaks, and would make one word of a report's last and next first.
   * @param {ClipboardEvent} event
   */
  paste(event) {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (/[\r\n]/.test(text)) {
      event.preventDefault();
      const { selectionStart, selectionEnd } = this.field;
      this.field.setRangeText(oneLine(text).slice(0, this.field.maxLength), selectionStart ?? 0, selectionEnd ?? 0, "end");
      this.ask();
    }
  }

  /** @param {Event} event */
  async submit(event) {
    event.preventDefault();
    if (this.text === "") {
      return;
    }
    const { chosen } = this;
    if (await this.run()) {
      // run() made the answers anew, in the same order. Of several that are sure, or of none, the owner chooses.
      const { listed } = this;
      const sure = listed.filter(({ dataset }) => dataset.sure === "yes");
      (chosen < 0 ? (sure.length === 1 ? sure[0] : null) : listed[chosen])?.click();
    } else if (!this.isHome) {
      // The home page asks again, and the address keeps the question.
      this.form.submit();
    }
  }

  /** @param {KeyboardEvent} event */
  press(event) {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const count = this.listed.length;
    if (by && count && event.target === this.field) {
      event.preventDefault();
      this.open();
      this.choose(((this.chosen + 1 + by + count + 1) % (count + 1)) - 1);
    } else if (event.key === "Escape" && (this.field.value || !this.sheet.hidden)) {
      event.preventDefault();
      this.escape();
    }
  }

  escape() {
    if (this.results.hidden && (this.isHome || this.sheet.hidden)) {
      this.empty();
    } else {
      this.field.focus();
      this.close();
    }
  }

  /** @param {KeyboardEvent} event */
  pressAnywhere(event) {
    const { target } = event;
    const isTyping = target instanceof Element && target.closest("input, textarea, select, dialog, [contenteditable]");
    if (event.key === "/" && !isTyping && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      this.field.focus();
      this.field.select();
    }
  }

  enter() {
    // Whoever goes to the field will ask; what fails now is told when they do.
    this.load().catch(() => {});
    if (this.results.childElementCount) {
      this.open();
    }
    this.toTop();
  }

  /** On a small screen the keyboard takes the lower half: the field goes to the top, its answers below it. */
  toTop() {
    if (matchMedia("(max-width: 48rem), (max-height: 34rem)").matches) {
      (this.isHome ? this.form : this.form.closest("header"))?.scrollIntoView({ block: "start", behavior: "instant" });
    }
  }

  /** @param {FocusEvent} event */
  leave(event) {
    if (!this.form.contains(/** @type {?Node} */ (event.relatedTarget))) {
      this.close();
    }
  }

  /**
   * For who comes back: the address of the home page has the question, elsewhere it is put beside the page's address.
   * @param {string} text
   */
  keep(text) {
    clearTimeout(this.pause);
    const here = new URL(location.href);
    if (!this.isHome) {
      history.replaceState({ ...history.state, question: text }, "");
      return;
    }
    if (text) {
      here.searchParams.set("q", text);
    } else {
      here.searchParams.delete("q");
    }
    history.replaceState(history.state, "", here);
  }
}

/** What was asked on this page, where the owner has come back to it. @returns {?string} */
function askedBefore() {
  const [entry] = performance.getEntriesByType("navigation");
  const isBack = entry instanceof PerformanceNavigationTiming && entry.type === "back_forward";
  const question = isBack ? history.state?.question : null;
  return typeof question === "string" ? question : null;
}

/** How much of the page is in sight: some browsers lay a keyboard over it without saying so to the styles. */
function measure() {
  if (visualViewport) {
    document.documentElement.style.setProperty("--seen", `${Math.round(visualViewport.height)}px`);
  }
}

/** @param {string} text */
function oneLine(text) {
  return text.trim().replace(/\s*[\r\n]+\s*/g, "; ");
}

const form = document.querySelector("[data-finder]");
if (form) {
  new Finder(form).start();
}
