/**
 * The page about several codes at once: `?codes=P0562,U0121`. Codes are added and removed; the answer is reckoned anew
 * each time by `core/several.js`. Its data is fetched when there is something to look up.
 */

import { awaited, json, showLost } from "./arriving.js";
import { withoutFault } from "./core/joint-parts.js";
import { hasState } from "./core/shared-fragment.js";
import { componentName, faultRows, Lookup, rowOf, strictest } from "./core/several-lookup.js";
import { suspects } from "./core/several.js";
import { codesIn, textOf } from "./core/typed-codes.js";
import { withBreaks } from "./dom.js";
import { JointPlace } from "./joint-place.js";
import { showVerdict } from "./joint-ride.js";
import { codesKey } from "./plan-store.js";
import { SharedLink } from "./shared-link.js";
import { SeveralBike } from "./several-bike.js";
import { chipsView, codesView, rideWhy, summary, suspectsView } from "./several-views.js";

const MOST_CODES = 30;

class SeveralCodes {
  /** @param {PageElements["[data-several]"]} article */
  constructor(article) {
    this.article = article;
    this.form = article.querySelector("[data-several-form]");
    this.field = this.form.querySelector("textarea");
    this.bike = new SeveralBike(this.form, () => this.show());
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
      () => this.bike.chooseAny(),
    );
    this.root = new URL(article.dataset.root, document.baseURI);
    this.shared = new SharedLink({
      key: (codes) => codesKey(codes),
      models: () => this.bike.models,
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
    this.bike.listen();
    this.begin();
  }

  /** With the shared state of the address, or else with its codes. */
  begin() {
    if (hasState(location.hash)) {
      // Which models there are stands in the data.
      this.load().then(
        () => this.shared.begin(),
        (error) => this.fail(error, () => this.begin()),
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
      this.load().catch((error) => this.fail(error, () => this.show()));
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
        this.bike.fill(root.models);
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
  file(name) {
    return awaited(this.status, json(new URL(name, this.data)));
  }

  /** @param {unknown} error @param {() => void} again */
  fail(error, again) {
    this.article.toggleAttribute("data-joint-done", true);
    showLost(this.status, error, "The data did not arrive.", again);
  }

  /** @param {string} text */
  async add(text, { typed = false } = {}) {
    let lookup;
    try {
      lookup = await this.load();
    } catch (error) {
      this.fail(error, () => this.add(text, { typed }));
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
    if (!(await this.show())) {
      return;
    }
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

  /** Gives whether the answer is there. */
  async show() {
    this.asked += 1;
    const { asked } = this;
    this.keepInAddress();
    let found;
    try {
      const lookup = await this.load();
      const faults = await Promise.all(this.codes.map((matches) => lookup.faults(matches)));
      found = { root: lookup.root, faults, given: lookup.given(this.codes), without: await lookup.without(this.codes) };
    } catch (error) {
      if (asked === this.asked) {
        this.fail(error, () => this.show());
      }
      return false;
    }
    if (asked !== this.asked) {
      return false;
    }
    this.draw(found);
    return true;
  }

  /** @param {{root: SeveralRoot, faults: CodeFault[][], given: GivenCode[], without: CaseWithoutFault[]}} found */
  draw({ root, faults, given, without }) {
    const bike = this.bike.used;
    this.bike.show();
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
      this.joint.ask(question, this.bike.isAny);
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

const article = document.querySelector("[data-several]");
if (article) {
  new SeveralCodes(article).start();
}
