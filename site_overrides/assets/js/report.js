/**
 * Report how it ended: one question a screen on a telephone, all on one page elsewhere. It is filled in from the plan and the
 * remembered bike, says what is missing or leads to a person, and leaves by the ways that the club has. What is typed is kept
 * on the device until it is sent or thrown away.
 */

import { awaited, GoneError, json, showLost } from "./arriving.js";
import { caseOf, counts } from "./core/report-case.js";
import { withDraft, withoutDraft, withSent } from "./core/report-kept.js";
import { correctionOf, newFaultOf } from "./core/report-other.js";
import { reportText } from "./core/report-yaml.js";
import { button } from "./dom.js";
import { faultOf, planOf } from "./report-fault.js";
import { fill, fillFault, fillModels, filledOf, fillYears, openView, showProblems } from "./report-form.js";
import { historyBike } from "./report-history.js";
import { noteSent } from "./report-noted.js";
import { waysView } from "./report-send.js";
import { knownValues, typedOf, withoutPage } from "./report-start.js";
import { ReportSteps } from "./report-steps.js";
import { keep, kept, ownBike, today } from "./report-store.js";

const OF_KIND = {
  ended: { make: caseOf, mark: "report", subject: "Report", about: "ended" },
  wrong: { make: correctionOf, mark: "correction", subject: "Correction", about: "wrong" },
  new: { make: newFaultOf, mark: "new fault", subject: "New fault", about: "new" },
};
const BIKE = /^(?:bike-[a-z]{8}|b[0-9a-z]{6})$/u;

class Report {
  /** @param {PageElements["[data-report]"]} article @param {ReportClub} club */
  constructor(article, club) {
    this.article = article;
    this.club = club;
    this.form = article.querySelector("[data-report-form]");
    this.status = article.querySelector("[data-report-status]");
    this.asked = new URL(location.href).searchParams;
    this.root = new URL(document.querySelector("[data-finder]").dataset.root.replace(/\/?$/u, "/"), document.baseURI);
    /** @type {?ReportFault} */
    this.fault = null;
    /** @type {FinderRoot | null} */
    this.known = null;
    /** @type {Set<string>} */
    this.touched = new Set();
    /** @type {string[]} */
    this.order = [];
    this.bike = "";
    /** Of which model and year that is. */
    this.bikeFor = "";
    this.steps = new ReportSteps(this.form, () => this.kind, (step) => this.touch(step));
    this.steps.asksKind = !this.asked.has("fault") && !this.asked.has("kind");
    /** The page of its fault did not come. */
    this.isFaultLost = false;
  }

  async start() {
    try {
      const { src } = document.querySelector("[data-finder]").dataset;
      this.known = await awaited(this.status, json(new URL(src, document.baseURI)));
    } catch (error) {
      showLost(this.status, error, "The club's list of models did not arrive. What you had typed is kept.", () => this.start());
      return;
    }
    await this.findFault();
    this.fillIn();
    this.listen();
    this.form.hidden = false;
    this.show();
    this.steps.go(this.asked.has("again") ? "ended" : this.steps.first, false);
  }

  async findFault() {
    const id = this.asked.get("fault");
    if (id === null) {
      return;
    }
    try {
      this.fault = await awaited(this.status, faultOf(id, this.root));
      this.isFaultLost = false;
    } catch (error) {
      this.isFaultLost = !(error instanceof GoneError);
      if (this.isFaultLost) {
        showLost(this.status, error, "The entry's page did not arrive, so its checks and causes are not known here.", () => this.findAgain());
        return;
      }
    }
    this.status.textContent = this.fault ? "" : "The club has withdrawn that entry, or has none of that name. What you tell is still worth a report: as a fault that nobody knows.";
  }

  /** The fault's page is asked for once more; what was typed meanwhile stays. */
  async findAgain() {
    await this.findFault();
    if (this.fault) {
      this.fillIn(typedOf(this.filled()));
      this.show();
    }
  }

  get key() {
    return this.fault ? this.fault.id : (this.asked.get("fault") ?? "").slice(0, 100);
  }

  /** @param {Filled} typed what stands in the form already */
  fillIn(typed = {}) {
    const { form, fault } = this;
    const { models } = /** @type {FinderRoot} */ (this.known);
    fillModels(form, models);
    const done = fault ? planOf(fault, this.asked.get("plan")) : {};
    fillFault(form, fault, (name) => name in done || Boolean(this.draft?.filled[name]));
    if (fault) {
      this.article.querySelector("[data-report-about]").textContent = fault.title;
    }
    const filled = { ...this.startValues(), ...typed };
    this.order = filled.order ?? [];
    this.bike = filled.bike?.[0] ?? "";
    fill(form, { ...filled, year: [] });
    fillYears(form, models, filled.year?.[0] ?? "");
    form.querySelector("[data-report-tried-fold]").open = false;
  }

  /** Says what the form begins with, unless something is said of its fault. @param {string} words */
  tell(words) {
    if (!this.isFaultLost) {
      this.status.textContent = words;
    }
  }

  get draft() {
    return kept().drafts.find(({ key }) => key === this.key);
  }

  /** What was typed before, else what is known. @returns {Filled} */
  startValues() {
    const again = this.asked.has("again") ? kept().sent.find(({ key }) => key === this.key) : undefined;
    if (again) {
      const reports = kept();
      keep({ ...reports, sent: reports.sent.map((each) => (each === again || each.key === again.key ? { ...each, asked: true } : each)) });
      this.tell(`You reported this on ${again.on}. How far has it run since, and did the mending hold?`);
      return { ...again.filled, after: [] };
    }
    if (this.draft) {
      this.tell("This is what you had filled in.");
      return { ...knownValues(this.asked, this.fault, this.club), ...this.draft.filled };
    }
    return knownValues(this.asked, this.fault, this.club);
  }

  listen() {
    this.form.addEventListener("submit", (event) => event.preventDefault());
    this.form.addEventListener("input", ({ target }) => this.changed(/** @type {HTMLInputElement} */ (target)));
    this.form.addEventListener("focusout", ({ target }) => {
      const { name, value } = /** @type {HTMLInputElement} */ (target);
      if (name && value) {
        this.touched.add(name);
      }
    });
    this.steps.listen();
    this.form.querySelector("[data-report-drop]").addEventListener("click", ({ currentTarget }) => this.drop(/** @type {HTMLElement} */ (currentTarget)));
    addEventListener("online", () => this.show());
  }

  /** @param {HTMLInputElement} field */
  changed(field) {
    if (field.name === "model") {
      fillYears(this.form, /** @type {FinderRoot} */ (this.known).models, this.form.querySelector("[name=year]").value);
    }
    if (/^(?:check|fix) /u.test(field.name)) {
      this.order = [...this.order.filter((each) => each !== field.name), ...(field.value ? [field.name] : [])];
    }
    if (field.name === "kind") {
      this.steps.asksKind = true;
    }
    this.touched.add(field.name);
    this.show();
    this.save();
  }

  /** @returns {Filled} */
  filled() {
    const filled = filledOf(this.form);
    return { ...filled, fault: filled.fault ?? [""], order: this.order, bike: [this.bikeOf(filled)] };
  }

  /** @param {Filled} filled */
  bikeOf(filled) {
    const [model, year] = [filled.model?.[0] ?? "", Number(filled.year?.[0])];
    const mark = `${model}/${year}`;
    if (!BIKE.test(this.bike) || (this.bikeFor && this.bikeFor !== mark)) {
      this.bike = model && year ? (historyBike(model, year)?.id ?? ownBike(model, year)) : "";
    }
    this.bikeFor = mark;
    return this.bike;
  }

  made() {
    const filled = this.filled();
    const { models, formats, tables } = /** @type {FinderRoot} */ (this.known);
    const kind = OF_KIND[this.kind];
    const facts = { ...this.club, fault: this.fault, models, formats, tables, bike: this.bike, today: today() };
    const { tree, problems } = kind.make(filled, facts);
    const title = this.fault?.title ?? models.find(({ id }) => id === filled.model?.[0])?.name ?? "";
    return { filled, facts, problems, text: reportText(kind.mark, tree), subject: title ? `${kind.subject}: ${title}` : kind.subject };
  }

  /** @returns {keyof typeof OF_KIND} */
  get kind() {
    const { kind } = filledOf(this.form);
    return kind?.[0] === "wrong" || kind?.[0] === "new" ? kind[0] : "ended";
  }

  save() {
    const { filled, problems, subject } = this.made();
    const written = this.isFaultLost ? withoutPage(this.form, filled, this.draft?.filled ?? {}) : filled;
    const isKept = keep(withDraft(kept(), { key: this.key, title: subject, address: location.search, ready: problems.length === 0, filled: written }));
    if (!isKept) {
      this.status.textContent = "This browser keeps nothing: what you type is gone when you leave the page.";
    }
  }

  show() {
    const made = this.made();
    this.steps.show();
    const state = made.filled.state?.[0];
    this.form.querySelector("[data-report-over]").hidden = state !== "solved" && state !== "returned";
    this.form.querySelector("[data-report-causes]").hidden = made.filled.fault?.[0] === "";
    this.form.querySelector("[data-report-also-fold]").hidden = !this.fault || made.filled.fault?.[0] === "";
    this.form.querySelector("[data-report-unit]").textContent = made.filled.unit?.[0] === "mi" ? "miles" : "km";
    showProblems(this.form, made.problems, ({ field, missing }) => !missing || this.touched.has(field));
    for (const each of this.form.querySelectorAll("[data-report-end]")) {
      each.hidden = made.problems.length > 0;
    }
    this.showEnd(made);
  }

  /** @param {ReturnType<Report["made"]>} made */
  showEnd(made) {
    const { problems, text, filled, facts, subject } = made;
    const isWhole = problems.length === 0;
    const place = this.form.querySelector("#report-text");
    const isSame = place.textContent === text;
    this.form.querySelector("[data-report-whole]").hidden = !isWhole;
    this.form.querySelector("[data-report-open]").replaceChildren(...(isWhole ? [] : openView(problems, (field) => this.goTo(field))));
    if (!isWhole) {
      place.textContent = "";
      this.form.querySelector("[data-report-ways]").replaceChildren();
    } else if (!isSame) {
      place.textContent = text;
      const act = { said: (/** @type {string} */ words) => this.say(words), sent: () => this.sent(filled, subject) };
      this.form.querySelector("[data-report-ways]").replaceChildren(...waysView({ text, subject }, this.club, act));
      this.say("");
    }
    const isSolved = this.kind === "ended" && filled.state?.[0] === "solved";
    this.form.querySelector("[data-report-counts]").textContent = !isSolved ? "" : counts(filled, facts) ? "It counts from now on." : `It counts once it has held for ${this.club.solved_after_text}. This page asks you then, once.`;
  }

  /** @param {string} field */
  goTo(field) {
    const place = [...this.form.querySelectorAll("[data-field]")].find((each) => each.dataset.field === field && !each.closest("[data-off]"));
    const step = place?.closest("[data-step]");
    this.touched.add(field);
    this.show();
    if (place && step) {
      this.steps.go(step.getAttribute("data-step") ?? "");
      place.closest("details")?.toggleAttribute("open", true);
      place.querySelector("input, select, textarea")?.focus();
    }
  }

  /** What is missing in a step is said from now on. @param {HTMLElement} step */
  touch(step) {
    step.querySelectorAll("[data-field]").forEach((each) => this.touched.add(/** @type {HTMLElement} */ (each).dataset.field ?? ""));
    this.show();
  }

  /** @param {string} words */
  say(words) {
    this.form.querySelector("[data-report-sent]").textContent = words;
  }

  /** @param {Filled} filled @param {string} subject */
  sent(filled, subject) {
    keep(withSent(kept(), { key: this.key, title: subject, address: location.search, on: today(), asked: this.kind !== "ended", far: this.club.solved_after, filled }));
    if (this.kind === "ended") {
      noteSent(filled, this.fault && { id: this.fault.id, title: this.fault.title }, today());
    }
    const place = this.form.querySelector("[data-report-sent]");
    const again = button("report__end", () => {
      this.save();
      this.say("It is offered again.");
    }, "It did not go: keep it here");
    place.replaceChildren("Thank you. This device remembers it as sent. ", again);
  }

  /** @param {HTMLElement} pressed */
  drop(pressed) {
    if (!pressed.hasAttribute("data-sure")) {
      pressed.setAttribute("data-sure", "");
      pressed.replaceChildren("Really throw it away?");
      return;
    }
    keep(withoutDraft(kept(), this.key));
    location.href = this.fault ? new URL(`faults/${this.fault.id}/`, this.root).href : this.root.href;
  }
}

const article = document.querySelector("[data-report]");
if (article) {
  new Report(article, JSON.parse(article.querySelector("script.report-data").textContent)).start();
}
