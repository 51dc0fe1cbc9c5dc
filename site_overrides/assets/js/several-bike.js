/** The bike that the page about several codes reckons with: the remembered one, another of the club's models, or any. */

import { keepBike, myBike } from "./bike.js";

export class SeveralBike {
  /** @param {HTMLFormElement} form @param {() => void} changed told when another bike, or any, is to be reckoned with */
  constructor(form, changed) {
    this.changed = changed;
    this.model = form.querySelector("[data-several-model]");
    this.year = form.querySelector("[data-several-year]");
    this.yearPart = form.querySelector("[data-several-year-part]");
    this.mine = myBike();
    /** Whatever bike is remembered. */
    this.isAny = false;
    /** @type {ModelRow[]} */
    this.models = [];
  }

  listen() {
    this.model.addEventListener("change", () => this.chooseModel());
    this.year.addEventListener("change", () => this.chooseYear());
    document.addEventListener("bikechange", ({ detail }) => {
      this.mine = detail;
      this.isAny = false;
      this.changed();
    });
  }

  /** Null: any. The owner may ask for that, and of a bike that the club does not know nothing is known. @returns {Bike} */
  get used() {
    const { mine } = this;
    const isKnown = mine && this.models.some(([id, , years]) => id === mine.model && years.includes(mine.year));
    return isKnown && !this.isAny ? [mine.model, mine.year] : null;
  }

  /** @param {ModelRow[]} models those that the club knows */
  fill(models) {
    this.models = models;
    this.model.replaceChildren(new Option("Any", ""), ...models.map(([id, name]) => new Option(name, id)));
    this.show();
  }

  show() {
    const bike = this.used;
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
        year: years.find((year) => year === this.mine?.year) ?? years[years.length - 1],
      });
    } else {
      this.chooseAny();
    }
  }

  chooseAny() {
    this.isAny = true;
    this.changed();
  }

  chooseYear() {
    const model = this.models.find(([id]) => id === this.model.value);
    if (model) {
      keepBike({ model: model[0], name: model[1], year: Number(this.year.value) });
    }
  }
}
