/**
 * The page about several codes at once: `?codes=P0562,U0121`. Codes are added and removed; the answer is reckoned anew
 * each time by `core/several.js`. Its data is fetched when there is something to look up.
 */

import { keepBike, myBike } from "./bike.js";
import { listText, sentence } from "./core/plan-words.js";
import { withoutFault } from "./core/joint-parts.js";
import { hasState } from "./core/shared-fragment.js";
import { componentName, concerned, Lookup, strictest } from "./core/several-lookup.js";
import { suspects } from "./core/several.js";
import { codesIn, textOf } from "./core/typed-codes.js";
import { withBreaks } from "./dom.js";
import { JointPlace } from "./joint-place.js";
import { showVerdict } from "./joint-ride.js";
import { codesKey } from "./plan-store.js";
import { SharedLink } from "./shared-link.js";
import { chipsView, codesView, rideWhy, suspectsView } from "./several-views.js";

const MOST_CODES = 30;

class SeveralCodes {
  /** @param {PageElements["[data-several]"]} article */
  constructor(article) {
    this.article = article;
    this.form = article.querySelector("[data-several-form]");
    this.field = this.form.querySelector("textarea");
    this.model = this.form.querySelector("[data-several-model]");
    this.year = this.form.querySelector("[data-several-year]");
    this.yearPart = this.form.querySelector("[data-several-year-part]");
    this.status = article.querySelector("[data-several-status]");
    this.list = article.querySelector("[data-several-codes]");
    this.fold = article.querySelector("[data-several-fold]");
    this.foldWord = article.querySelector("[data-several-fold-word]");
    this.ride = /** @type {HTMLElement} */ (document.getElementById("ride"));
    this.parts = article.querySelector("[data-several-parts]");
    this.each = article.querySelector("[data-several-each]");
    this.shown = article.querySelectorAll("[data-several-shown]");
    this.joint = new JointPlace(
      article,
      (ride, why) => this.showRide(ride, why),
      () => this.chooseAny(),
    );
    this.root = new URL(article.dataset.root, document.baseURI);
    this.shared = new SharedLink({
      key: (codes) => codesKey(codes),
      models: () => this.models ?? [],
      takesCodes: true,
      elsewhere: ({ fault }) => (fault ? new URL(`faults/${fault}/`, this.root).href : null),
      stop: () => this.joint.drop(),
      restart: (state) => this.restart(state),
    });
    this.data = new URL(article.dataset.src, document.baseURI);
    /** @type {FaultCode[][]} */
    this.codes = [];
    /** @type {?Promise<Lookup>} */
    this.lookup = null;
    this.bike = myBike();
    this.anyBike = false;
    /** @type {CodeRow[]} */
    this.rows = [];
    this.asked = 0;
  }

  start() {
    this.form.hidden = false;
    this.fold.hidden = false;
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.add(this.field.value, { typed: true });
    });
    this.field.addEventListener("keydown", (event) => {
      // A reader's list has one code a line; whoever types one wants it taken.
      if (event.key === "Enter" && !event.shiftKey) {
        event.preventDefault();
        this.add(this.field.value, { typed: true });
      }
    });
    this.model.addEventListener("change", () => this.chooseModel());
    this.year.addEventListener("change", () => this.chooseYear());
    document.addEventListener("bikechange", ({ detail }) => {
      this.bike = detail;
      this.anyBike = false;
      this.show();
    });
    if (hasState(location.hash)) {
      // Which models there are stands in the data.
      this.load().then(
        () => this.shared.begin(),
        () => this.fail(),
      );
    } else {
      this.ask(new URL(location.href).searchParams.get("codes") ?? "");
    }
  }

  /** @param {string} codes */
  ask(codes) {
    if (codes) {
      // The answer first: whoever comes with codes has nothing to type.
      this.fold.open = false;
      this.add(codes);
    } else {
      this.load().catch(() => this.fail());
    }
  }

  /** With the codes of a shared state, or with those that the page was asked for. @param {?SharedState} state */
  restart(state) {
    if (state) {
      this.codes = [];
      this.ask(state.codes.join(","));
    } else if (this.codes.length) {
      this.show();
    } else {
      this.ask(new URL(location.href).searchParams.get("codes") ?? "");
    }
  }

  load() {
    this.lookup ??= this.file("root.json").then(
      (root) => {
        this.fillModels(root.models);
        return new Lookup(root, (name) => this.file(name));
      },
      (error) => {
        this.lookup = null;
        throw error;
      },
    );
    return this.lookup;
  }

  /** @param {string} name */
  async file(name) {
    const answer = await fetch(new URL(name, this.data));
    if (!answer.ok) {
      throw new Error(`${answer.status}`);
    }
    return answer.json();
  }

  fail() {
    this.article.toggleAttribute("data-joint-done", true);
    this.status.textContent = "The data did not arrive. Try again when there is a network.";
  }

  /** @param {string} text */
  async add(text, { typed = false } = {}) {
    let lookup;
    try {
      lookup = await this.load();
    } catch {
      this.fail();
      return;
    }
    const found = codesIn(text, lookup.root);
    const known = new Set(this.codes.map(textOf));
    const fresh = found.filter((matches) => !known.has(textOf(matches)));
    this.codes = [...this.codes, ...fresh].slice(0, MOST_CODES);
    if (typed && found.length) {
      this.field.value = "";
      this.field.focus();
    }
    await this.show();
    if (found.length === 0 && text.trim()) {
      this.status.textContent = "No code could be read in that. Write it as the reader or the lamp shows it.";
    } else if (fresh.length === 0 && found.length) {
      this.status.textContent = "That is there already.";
    }
  }

  /** @param {string} text */
  async remove(text) {
    const at = this.codes.findIndex((matches) => textOf(matches) === text);
    this.codes = this.codes.filter((_matches, place) => place !== at);
    await this.show();
    const buttons = this.list.querySelectorAll("button");
    (buttons[Math.min(at, buttons.length - 1)] ?? this.field).focus();
  }

  /**
   * The bike reckoned with: the remembered one, where the club knows it and the owner does not ask for any.
   * @param {ModelRow[]} models @returns {Bike}
   */
  used(models) {
    const { bike } = this;
    const isKnown = bike && models.some(([id, , years]) => id === bike.model && years.includes(bike.year));
    return isKnown && !this.anyBike ? [bike.model, bike.year] : null;
  }

  async show() {
    this.asked += 1;
    const { asked } = this;
    this.keepInAddress();
    let found;
    try {
      const lookup = await this.load();
      const faults = await Promise.all(this.codes.map((matches) => lookup.faults(matches)));
      found = { root: lookup.root, faults, given: lookup.given(this.codes), without: await lookup.without(this.codes) };
    } catch {
      this.fail();
      return;
    }
    if (asked !== this.asked) {
      return;
    }
    this.draw(found);
  }

  /** @param {{root: SeveralRoot, faults: CodeFault[][], given: GivenCode[], without: CaseWithoutFault[]}} found */
  draw({ root, faults, given, without }) {
    const bike = this.used(root.models);
    this.showBike(bike);
    const found = suspects(
      this.codes.map((matches, at) => [textOf(matches), faults[at]]),
      bike,
    );
    const rows = this.codes.map((matches, at) => rowOf(matches, faults[at], bike, found));
    /** @type {SeveralLook} */
    const look = {
      address: (path) => new URL(path, this.root).href,
      remove: (text) => this.remove(text),
      rides: root.rides,
    };
    this.rows = rows;
    this.list.replaceChildren(...(rows.length ? [chipsView(rows, look)] : []));
    this.parts.replaceChildren(...(rows.length ? [suspectsView(found, faults.flat(), look)] : []).filter(Boolean));
    this.each.replaceChildren(...(rows.length ? [codesView(rows, look)] : []));
    const said = rows.length ? summary(rows, found, (id) => componentName(id, faults.flat())) : "";
    this.status.replaceChildren(...withBreaks(said));
    this.foldWord.textContent = rows.length ? "Add codes, or choose another bike" : "The codes and the bike";
    this.article.toggleAttribute("data-several-asked", rows.length > 0);
    this.shown.forEach((part) => part.toggleAttribute("hidden", rows.length === 0));
    // Until the plan is there.
    this.showRide(strictest(rows.flatMap((row) => row.faults), root.rides, this.unknown().length > 0), "");
    if (rows.length) {
      const question = {
        labels: rows.map(({ text }) => text),
        given,
        faults: faultRows(faults.flat(), look.address, root.rides),
        without: withoutFault(without, given),
        words: root.words,
        rides: root.rides,
        isPart: this.unknown().length > 0,
      };
      this.joint.ask(question, this.anyBike);
    }
  }

  /** Codes of which nothing is known on the bike. */
  unknown() {
    return this.rows.filter((row) => row.faults.length === 0).map((row) => row.text);
  }

  /** @param {?RideRow} ride @param {string} why */
  showRide(ride, why) {
    showVerdict(this.ride, ride, why, rideWhy(this.unknown()));
  }

  /** @param {ModelRow[]} models */
  fillModels(models) {
    /** @type {ModelRow[]} */
    this.models = models;
    this.model.replaceChildren(new Option("Any", ""), ...models.map(([id, name]) => new Option(name, id)));
    this.showBike(this.used(models));
  }

  /** @param {Bike} bike */
  showBike(bike) {
    this.model.value = bike ? bike[0] : "";
    const years = this.models.find(([id]) => id === this.model.value)?.[2] ?? [];
    this.year.replaceChildren(...years.map((year) => new Option(String(year), String(year))));
    this.year.value = bike ? String(bike[1]) : "";
    this.yearPart.hidden = years.length === 0;
  }

  chooseModel() {
    const model = this.models.find(([id]) => id === this.model.value);
    if (model) {
      const years = model[2];
      keepBike({
        model: model[0],
        name: model[1],
        year: years.find((year) => year === this.bike?.year) ?? years[years.length - 1],
      });
    } else {
      this.chooseAny();
    }
  }

  chooseAny() {
    this.anyBike = true;
    this.show();
  }

  chooseYear() {
    const model = this.models.find(([id]) => id === this.model.value);
    if (model) {
      keepBike({ model: model[0], name: model[1], year: Number(this.year.value) });
    }
  }

  keepInAddress() {
    const here = new URL(location.href);
    if (this.codes.length) {
      here.searchParams.set("codes", this.codes.map(textOf).join(","));
    } else {
      here.searchParams.delete("codes");
    }
    history.replaceState(history.state, "", here);
  }
}

/**
 * @param {FaultCode[]} matches @param {CodeFault[]} faults @param {Bike} bike @param {Suspects} found
 * @returns {CodeRow}
 */
function rowOf(matches, faults, bike, found) {
  const text = textOf(matches);
  const here = concerned(faults, bike);
  const isSkipped = here.length > 0 && found.follow_on.includes(text);
  const state = here.length ? (isSkipped ? "follow_on" : "known") : faults.length ? "elsewhere" : "unknown";
  // Only a code that an entry lists has a page.
  return { text, page: faults[0]?.listed ?? text, state, faults: here, elsewhere: faults.length };
}

/** @param {CodeRow[]} rows @param {Suspects} found @param {(id: string) => string} name */
function summary(rows, { suspects: parts, used }, name) {
  if (parts.length === 0) {
    return `The entries name no part for ${rows.length === 1 ? "this code" : "these codes"}.`;
  }
  const left = rows.map(({ text }) => text).filter((text) => !used.includes(text));
  const why = left.length ? ` ${sentence(listText(left))} ${left.length === 1 ? "does" : "do"} not help to find it: below it stands why.` : "";
  return `The part to look at first: ${name(parts[0].component)}.${why}`;
}

/**
 * Each fault once, with the strictest advice of its codes.
 * @param {CodeFault[]} faults @param {SeveralLook["address"]} address @param {RideRow[]} rides the strictest first
 * @returns {JointFaultRow[]}
 */
function faultRows(faults, address, rides) {
  const order = rides.map(({ level }) => level);
  /** @type {Map<string, JointFaultRow>} */
  const found = new Map();
  for (const { fault, title, applies, ride } of faults) {
    const before = found.get(fault);
    const isStricter = !before || order.indexOf(ride) < order.indexOf(before.level ?? "unknown");
    const level = isStricter ? (ride === "unknown" ? null : /** @type {RideLevel} */ (ride)) : before.level;
    found.set(fault, { id: fault, title, applies, level, address: address(`faults/${fault}/`) });
  }
  return [...found.values()];
}

const article = document.querySelector("[data-several]");
if (article) {
  new SeveralCodes(article).start();
}
