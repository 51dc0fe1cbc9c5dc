/**
 * Report how it ended: one question a screen on a telephone, all on one page elsewhere. It is filled in from the plan and the
 * remembered bike, says what is missing or leads to a person, and leaves by the ways that the club has. What is typed is kept
 * on the device until it is sent or thrown away.
 */

import { caseOf, counts } from "./core/report-case.js";
import { withDraft, withoutDraft, withSent } from "./core/report-kept.js";
import { correctionOf, newFaultOf } from "./core/report-other.js";
import { reportText } from "./core/report-yaml.js";
import { button, el } from "./dom.js";
import { faultOf, planOf } from "./report-fault.js";
import { checkRow, fill, filledOf, fillSelect, fixRow, pick, showProblems } from "./report-form.js";
import { historyBike } from "./report-history.js";
import { noteSent } from "./report-noted.js";
import { waysView } from "./report-send.js";
import { knownValues } from "./report-start.js";
import { keep, kept, ownBike, today } from "./report-store.js";

const OF_KIND = {
  ended: { make: caseOf, mark: "report", subject: "Report", about: "ended" },
  wrong: { make: correctionOf, mark: "correction", subject: "Correction", about: "wrong" },
  new: { make: newFaultOf, mark: "new fault", subject: "New fault", about: "new" },
};
const BIKE = /^(?:bike-[a-z]{8}|b[0-9a-z]{6})$/u;
/** What a field is called where it is said that it is missing. */
const CALLED = /** @type {Record<string, string>} */ ({
  model: "Model", year: "Model year", odometer: "Odometer", seen: "Day", codes: "Codes", symptoms: "Noticed", conditions: "When it shows",
  modified: "Changed on the bike", fault: "Fault", state: "How it ended", cause: "What it was", after: "Ridden since", note: "A word for the next one",
  parts: "Parts", labour: "Labour", part: "What it is about", wrong: "What is wrong", right: "What is right", known_from: "How you know it", story: "What happened",
});

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
    this.step = "";
    this.asksKind = !this.asked.has("fault") && !this.asked.has("kind");
    this.isSent = false;
  }

  async start() {
    const id = this.asked.get("fault");
    try {
      const { src } = document.querySelector("[data-finder]").dataset;
      const answer = await fetch(new URL(src, document.baseURI));
      this.known = answer.ok ? await answer.json() : null;
    } catch {
      this.known = null;
    }
    if (!this.known) {
      this.status.textContent = "The club's list of models did not arrive. Open this page again when there is a network; what you had typed is kept.";
      return;
    }
    if (id !== null) {
      await this.findFault(id);
    }
    this.fillIn();
    this.listen();
    this.form.hidden = false;
    this.show();
    this.go(this.firstStep(), false);
  }

  /** @param {string} id */
  async findFault(id) {
    try {
      this.fault = await faultOf(id, this.root);
      this.status.textContent = this.fault ? "" : "The club has withdrawn that entry, or has none of that name. What you tell is still worth a report: as a fault that nobody knows.";
    } catch {
      this.status.textContent = "The entry's page did not arrive, so its checks and causes are not known here. Open this page again when there is a network.";
    }
  }

  get key() {
    return this.fault ? this.fault.id : (this.asked.get("fault") ?? "").slice(0, 100);
  }

  fillIn() {
    const { models } = /** @type {FinderRoot} */ (this.known);
    fillSelect(this.form.querySelector("[name=model]"), [["", "Choose"], ...models.map(({ id, name }) => /** @type {[string, string]} */ ([id, name]))]);
    this.fillFault();
    const filled = this.startValues();
    this.order = filled.order ?? [];
    this.bike = filled.bike?.[0] ?? "";
    fill(this.form, { ...filled, year: [] });
    this.fillYears(filled.year?.[0] ?? "");
    this.form.querySelector("[data-report-tried-fold]").open = false;
  }

  fillFault() {
    const { fault, form } = this;
    /** @param {string} selector @param {Element[]} rows */
    const put = (selector, rows) => form.querySelector(selector)?.replaceChildren(...rows);
    put("[data-report-fault]", fault ? [pick("fault", fault.id, fault.title, "radio")] : []);
    put("[data-report-causes]", (fault?.causes ?? []).map(({ id, title }) => pick("cause", id, title, "radio")));
    put("[data-report-also]", (fault?.causes ?? []).map(({ id, title }) => pick("also", id, title, "checkbox")));
    put("[data-report-codes]", (fault?.codes ?? []).map((code) => pick("codes", code, code, "checkbox")));
    put("[data-report-symptoms]", (fault?.symptoms ?? []).map((each) => pick("symptoms", each, each, "checkbox")));
    const done = fault ? planOf(fault, this.asked.get("plan")) : {};
    const rows = fault ? [...fault.checks.map((check) => /** @type {const} */ ([`check ${check.id}`, checkRow(check)])), ...fault.causes.map((cause) => /** @type {const} */ ([`fix ${cause.id}`, fixRow(cause)]))] : [];
    const first = rows.filter(([name]) => name in done || this.draft?.filled[name]);
    put("[data-report-tried]", first.map(([, row]) => row));
    put("[data-report-tried-rest]", rows.filter((row) => !first.includes(row)).map(([, row]) => row));
    form.querySelector("[data-report-tried-none]").hidden = rows.length > 0;
    form.querySelector("[data-report-tried-fold]").hidden = rows.length === first.length;
    form.querySelector("[data-report-wrong-of]").textContent = fault ? fault.title : "Open the entry that it is about, and come here from there.";
    if (fault) {
      this.article.querySelector("[data-report-about]").textContent = fault.title;
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
      this.status.textContent = `You reported this on ${again.on}. How far has it run since, and did the mending hold?`;
      return { ...again.filled, after: [] };
    }
    if (this.draft) {
      this.status.textContent = "This is what you had filled in.";
      return { ...knownValues(this.asked, this.fault, this.club), ...this.draft.filled };
    }
    return knownValues(this.asked, this.fault, this.club);
  }

  /** @param {string} year */
  fillYears(year) {
    const model = this.known?.models.find(({ id }) => id === this.form.querySelector("[name=model]").value);
    const years = model ? Array.from({ length: model.last - model.first + 1 }, (_each, at) => String(model.first + at)) : [];
    const select = this.form.querySelector("[name=year]");
    fillSelect(select, [["", "Choose"], ...years.map((each) => /** @type {[string, string]} */ ([each, each]))]);
    select.value = years.includes(year) ? year : "";
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
    for (const each of this.form.querySelectorAll("[data-report-next]")) {
      each.addEventListener("click", () => this.next(1));
    }
    for (const each of this.form.querySelectorAll("[data-report-back]")) {
      each.addEventListener("click", () => this.next(-1));
    }
    for (const each of this.form.querySelectorAll("[data-report-end]")) {
      each.addEventListener("click", () => this.go("send"));
    }
    this.form.querySelector("[data-report-drop]").addEventListener("click", ({ currentTarget }) => this.drop(/** @type {HTMLElement} */ (currentTarget)));
    addEventListener("popstate", () => this.go(location.hash.replace("#step-", ""), false));
    addEventListener("online", () => this.show());
  }

  /** @param {HTMLInputElement} field */
  changed(field) {
    if (field.name === "model") {
      this.fillYears(this.form.querySelector("[name=year]").value);
    }
    if (/^(?:check|fix) /u.test(field.name)) {
      this.order = [...this.order.filter((each) => each !== field.name), ...(field.value ? [field.name] : [])];
    }
    if (field.name === "kind") {
      this.asksKind = true;
    }
    this.touched.add(field.name);
    this.isSent = false;
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

  /** The steps that are asked, in their order. */
  get steps() {
    const { kind } = this;
    return [...this.form.querySelectorAll("[data-step]")].filter(({ dataset }) => dataset.kinds.split(" ").includes(kind) && (dataset.step !== "kind" || this.asksKind));
  }

  firstStep() {
    return this.asked.has("again") ? "ended" : (this.steps[0]?.dataset.step ?? "send");
  }

  save() {
    const { filled, problems, subject } = this.made();
    const isKept = keep(withDraft(kept(), { key: this.key, title: subject, address: location.search, ready: problems.length === 0, filled }));
    if (!isKept) {
      this.status.textContent = "This browser keeps nothing: what you type is gone when you leave the page.";
    }
  }

  show() {
    const made = this.made();
    const { steps } = this;
    for (const each of this.form.querySelectorAll("[data-step]")) {
      each.toggleAttribute("data-off", !steps.includes(each));
    }
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
    this.form.querySelector("[data-report-open]").replaceChildren(...(isWhole ? [] : this.openView(problems)));
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

  /** @param {Problem[]} problems */
  openView(problems) {
    /** @type {Map<string, string>} */
    const rows = new Map(problems.map(({ field, say }) => /** @type {[string, string]} */ ([field, say])));
    const links = [...rows].map(([field, say]) => {
      const name = CALLED[field] ?? "What was tried";
      return el("li", {}, button("report__to", () => this.goTo(field), name), ` ${say}`);
    });
    return [el("p", {}, rows.size === 1 ? "One thing is open before the report is finished:" : `${rows.size} things are open before the report is finished:`), el("ul", { class: "report__open" }, links)];
  }

  /** @param {string} field */
  goTo(field) {
    const place = [...this.form.querySelectorAll("[data-field]")].find((each) => each.dataset.field === field && !each.closest("[data-off]"));
    const step = place?.closest("[data-step]");
    this.touched.add(field);
    this.show();
    if (place && step) {
      this.go(step.getAttribute("data-step") ?? "");
      place.closest("details")?.toggleAttribute("open", true);
      place.querySelector("input, select, textarea")?.focus();
    }
  }

  /** @param {number} by */
  next(by) {
    const { steps } = this;
    const at = steps.findIndex(({ dataset }) => dataset.step === this.step);
    if (by > 0) {
      steps[at]?.querySelectorAll("[data-field]").forEach((each) => this.touched.add(/** @type {HTMLElement} */ (each).dataset.field ?? ""));
      this.show();
      const wrong = steps[at]?.querySelector(".field__problem");
      if (wrong) {
        wrong.closest("[data-field]")?.querySelector("input, select, textarea")?.focus();
        return;
      }
    }
    this.go(steps[Math.max(0, at + by)]?.dataset.step ?? "send");
  }

  /** @param {string} name @param {boolean} isNew a visit of its own, to which the browser's Back leads */
  go(name, isNew = true) {
    const { steps } = this;
    const at = Math.max(0, steps.findIndex(({ dataset }) => dataset.step === name));
    const step = steps[at];
    this.step = step?.dataset.step ?? "";
    for (const each of this.form.querySelectorAll("[data-step]")) {
      each.toggleAttribute("data-now", each === step);
    }
    this.form.querySelector("[data-report-progress]").textContent = `Step ${at + 1} of ${steps.length}`;
    this.form.querySelector("[data-report-bar]").value = (at + 1) / steps.length;
    if (isNew && step) {
      history.pushState(null, "", `#step-${this.step}`);
      step.querySelector("h2")?.focus({ preventScroll: true });
      this.form.scrollIntoView({ block: "start" });
    }
    this.form.toggleAttribute("data-first", at === 0);
  }

  /** @param {string} words */
  say(words) {
    this.form.querySelector("[data-report-sent]").textContent = words;
  }

  /** @param {Filled} filled @param {string} subject */
  sent(filled, subject) {
    this.isSent = true;
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
