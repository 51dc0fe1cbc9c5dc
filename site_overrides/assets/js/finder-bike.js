/** My bike beside the finder: shown, chosen in a dialogue, dropped. */

import { bikeName, keepBike, myBike } from "./bike.js";

export class BikeChooser {
  /**
   * `models` gives a promise of the models that the finder knows.
   * @param {HTMLElement} form @param {HTMLDialogElement} dialog @param {() => Promise<FinderModel[]>} models
   */
  constructor(form, dialog, models) {
    this.models = models;
    this.form = form;
    this.name = document.querySelector("[data-bike-name]");
    this.drop = document.querySelector("[data-bike-drop]");
    this.dialog = dialog;
    this.model = dialog.querySelector("[data-bike-model]");
    this.year = dialog.querySelector("[data-bike-year]");
    this.problem = dialog.querySelector("[data-bike-problem]");
    this.bike = myBike();
    document.querySelectorAll("[data-bike-choose]").forEach((button) => button.addEventListener("click", () => this.open()));
    this.drop.addEventListener("click", () => {
      keepBike(null);
      document.querySelector("#content").focus({ preventScroll: true });
    });
    dialog.querySelector("[data-bike-cancel]").addEventListener("click", () => dialog.close());
    dialog.querySelector("form").addEventListener("submit", () => this.keep());
    this.model.addEventListener("change", () => this.fillYears());
    document.addEventListener("bikechange", ({ detail }) => this.show(detail));
    this.show(this.bike);
  }

  /** @param {?MyBike} bike */
  show(bike) {
    this.bike = bike;
    this.name.textContent = bike ? `Your ${bikeName(bike)}` : "My bike";
    this.name.setAttribute("aria-label", bike ? `Your ${bikeName(bike)}. Choose another` : "Choose my bike");
  }

  async open() {
    this.problem.textContent = "";
    this.dialog.showModal();
    try {
      this.known = await this.models();
    } catch {
      this.problem.textContent = "The list of models did not arrive. Try again when there is a network.";
      return;
    }
    this.model.replaceChildren(...this.known.map(({ id, name }) => new Option(name, id)));
    this.model.value = (this.known.find(({ id }) => id === this.bike?.model) ?? this.known[0])?.id ?? "";
    this.fillYears();
  }

  fillYears() {
    const model = this.known?.find(({ id }) => id === this.model.value);
    const before = Number(this.year.value) || (this.bike?.year ?? 0);
    const years = model ? Array.from({ length: model.last - model.first + 1 }, (_, at) => model.first + at) : [];
    this.year.replaceChildren(...years.map((year) => new Option(String(year), String(year))));
    this.year.value = String(years.includes(before) ? before : (years.at(0) ?? ""));
  }

  keep() {
    const model = this.known?.find(({ id }) => id === this.model.value);
    if (model && this.year.value) {
      keepBike({ model: model.id, year: Number(this.year.value), name: model.name });
    }
  }
}
