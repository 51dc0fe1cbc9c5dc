/** The form for one entry of the history, new or changed. */

import { codeText, dayText, distanceText, statusText } from "./core/history-words.js";
import { dayNumber, daysBetween, MOST, saysSomething, STATUSES } from "./core/history.js";
import { codesIn, textOf } from "./core/typed-codes.js";
import { button, el } from "./dom.js";
import { today } from "./look-store.js";

const CONDITIONS = ["cold", "warm", "wet", "rough road", "at idle", "at speed"];
const GROUPING = /[\s.,'\u202f\u00a0]/g;

/** @type {Omit<HistoryEntry, "id" | "changed">} */
const BLANK = { day: "", odometer: null, codes: [], conditions: [], done: "", tried: [], fault: null, cause: null, mended: false, cleared: null, back: null, report: null };

/** @param {string} label @param {Node} field @param {string} [hint] */
function row(label, field, hint = "") {
  return el("p", { class: "history-form__row" }, el("label", {}, el("span", { class: "history-form__label" }, label), field), hint && el("span", { class: "history-form__hint" }, hint));
}

/** @param {?number} value */
function distanceField(value) {
  return el("input", { type: "text", inputmode: "numeric", autocomplete: "off", maxlength: 9, value: value ?? "" });
}

export class EntryForm {
  /**
   * @param {OwnBike} bike @param {HistoryEntry[]} others @param {?HistoryEntry} entry that is changed
   * @param {{club: () => Promise<?{formats: CodeFormat[], tables: CodeTables}>, keep: (entry: NewEntry) => void, leave: () => void}} act
   */
  constructor(bike, others, entry, act) {
    const told = entry ?? { ...BLANK, day: today() };
    this.others = others.filter(({ id }) => id !== entry?.id);
    this.bike = bike;
    this.act = act;
    this.entry = entry;
    this.codes = told.codes;
    /** What is odd about it was said once. */
    this.warned = "";
    const last = this.others.find(({ odometer }) => odometer !== null);
    this.day = el("input", { type: "date", required: true, max: today(), min: "1950-01-01", value: told.day });
    this.odometer = distanceField(told.odometer);
    this.typed = el("input", { type: "text", autocomplete: "off", autocapitalize: "none", spellcheck: "false", maxlength: 400 });
    this.chips = el("ul", { class: "history-form__codes" });
    this.conditions = CONDITIONS.map((word) => el("input", { type: "checkbox", value: word, checked: told.conditions.includes(word) }));
    this.other = el("input", { type: "text", maxlength: 200, value: told.conditions.filter((word) => !CONDITIONS.includes(word)).join(", ") });
    this.done = el("textarea", { rows: 3, maxlength: MOST.text });
    this.done.value = told.done;
    this.mended = el("input", { type: "checkbox", checked: told.mended });
    this.isCleared = el("input", { type: "checkbox", checked: told.cleared !== null });
    this.cleared = el("input", { type: "date", max: today(), value: told.cleared ?? "", "aria-label": "Cleared on" });
    this.back = distanceField(told.back);
    this.problem = el("p", { class: "history-form__problem", role: "alert" });
    this.keepButton = el("button", { class: "my-bike__button my-bike__button--main", type: "submit" }, "Keep it");
    this.element = el(
      "form",
      { class: "history-form", novalidate: true, onsubmit: (event) => this.submit(event) },
      el("h3", { class: "history-form__title" }, entry ? "Change the entry" : "A new entry"),
      el("div", { class: "history-form__pair" }, row("Day", this.day), row(`Odometer, ${bike.unit}`, this.odometer, last ? `It was ${distanceText(Number(last.odometer), bike.unit)} on ${dayText(last.day)}.` : "")),
      row("Codes that were read", el("span", { class: "history-form__add" }, this.typed, button("my-bike__button", () => this.addTyped(), "Add")), "As the reader or the lamp shows them, one or more."),
      this.chips,
      el("fieldset", { class: "history-form__set" }, el("legend", {}, "When it was seen"), this.conditions.map((box) => el("label", { class: "history-form__tick" }, box, ` ${box.value}`)), row("Anything else, with commas", this.other)),
      row("What was done", this.done),
      el("p", { class: "history-form__ticks" }, el("label", { class: "history-form__tick" }, this.mended, " I take it to be mended"), el("label", { class: "history-form__tick" }, this.isCleared, " Codes were cleared"), this.cleared),
      row(`It came back after, ${bike.unit}`, this.back, "Only if no later entry says so: from two entries it is worked out."),
      this.problem,
      el("p", { class: "history-form__buttons" }, this.keepButton, " ", button("my-bike__button", () => act.leave(), "Cancel")),
    );
    this.typed.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && this.typed.value.trim()) {
        event.preventDefault();
        this.addTyped();
      }
    });
    this.isCleared.addEventListener("change", () => this.showCleared());
    this.showCleared();
    this.showCodes();
  }

  showCleared() {
    this.cleared.hidden = !this.isCleared.checked;
    this.cleared.value ||= this.isCleared.checked ? this.day.value : "";
  }

  showCodes() {
    this.chips.hidden = this.codes.length === 0;
    this.chips.replaceChildren(
      ...this.codes.map(({ code, status }) => {
        const choice = el("select", { "aria-label": `${code}: what the reader says` }, new Option("not said", ""), STATUSES.map((each) => new Option(statusText(each), each)));
        choice.value = status ?? "";
        choice.addEventListener("change", () => {
          this.codes = this.codes.map((each) => (each.code === code ? { code, status: choice.value || null } : each));
        });
        const out = () => {
          this.codes = this.codes.filter((each) => each.code !== code);
          this.showCodes();
          this.typed.focus();
        };
        return el("li", {}, el("span", { class: "code__text" }, code), choice, button("history-form__out", out, el("span", { "aria-hidden": "true" }, "×"), el("span", { class: "visually-hidden" }, `${code}: take it out`)));
      }),
    );
  }

  /** Whether all that was typed could be read. */
  async addTyped() {
    const text = this.typed.value.trim();
    if (text === "") {
      return true;
    }
    const club = await this.act.club();
    // Without the club's notations: as it is written.
    const found = club ? codesIn(text, club).map(textOf) : text.split(/[,;\s]+/).map((each) => each.toUpperCase());
    const known = new Set(this.codes.map(({ code }) => code));
    this.codes = [...this.codes, ...found.filter((code) => !known.has(code)).map((code) => ({ code, status: null }))].slice(0, MOST.codes);
    this.showCodes();
    this.typed.value = found.length ? "" : text;
    this.say(found.length ? "" : "No code could be read in that. Write it as the reader or the lamp shows it.", found.length ? null : this.typed);
    return found.length > 0;
  }

  /** @param {string} problem @param {?HTMLElement} field */
  say(problem, field) {
    this.problem.textContent = problem;
    field?.focus();
  }

  /** A whole distance; null: none was written; undefined: what was written is none. @param {HTMLInputElement} field */
  distance(field) {
    const typed = field.value.replace(GROUPING, "");
    return typed === "" ? null : /^\d{1,7}$/.test(typed) ? Number(typed) : undefined;
  }

  /** @returns {?NewEntry} null where something is wrong, which is said */
  read() {
    const { value: day } = this.day;
    const odometer = this.distance(this.odometer);
    const back = this.distance(this.back);
    const cleared = this.isCleared.checked ? this.cleared.value || day : null;
    if (dayNumber(day) === null || (cleared !== null && dayNumber(cleared) === null)) {
      this.say("Write the day as day, month and year.", this.day);
    } else if (daysBetween(today(), day) > 0 || (cleared !== null && daysBetween(today(), cleared) > 0)) {
      this.say("That day is still to come.", daysBetween(today(), day) > 0 ? this.day : this.cleared);
    } else if (odometer === undefined) {
      this.say("The odometer is a whole number of at most seven digits.", this.odometer);
    } else if (back === undefined) {
      this.say("After how far it came back is a whole number.", this.back);
    } else {
      const others = this.other.value.split(",").map((each) => each.trim());
      const conditions = [...this.conditions.filter(({ checked }) => checked).map(({ value }) => value), ...others].filter(Boolean);
      return { day, odometer, codes: this.codes, conditions, done: this.done.value.trim(), mended: this.mended.checked, cleared, back };
    }
    return null;
  }

  /** Said once; who keeps it all the same has a reason. @param {NewEntry} entry */
  oddity({ day, odometer = null }) {
    const [before] = this.others.filter((each) => each.odometer !== null && each.day <= day);
    return odometer !== null && before && before.day < day && Number(before.odometer) > odometer
      ? `That is less than on ${dayText(before.day)} (${distanceText(Number(before.odometer), this.bike.unit)}). If the instrument was changed, keep it all the same.`
      : "";
  }

  /** @param {Event} event */
  async submit(event) {
    event.preventDefault();
    if (!(await this.addTyped())) {
      return;
    }
    const entry = this.read();
    const odd = entry ? this.oddity(entry) : "";
    if (!entry) {
      return;
    }
    if (!saysSomething({ ...BLANK, ...this.entry, ...entry })) {
      this.say("Nothing is written yet: a code, what was done, or the odometer.", this.typed);
    } else if (odd && odd !== this.warned) {
      this.warned = odd;
      this.say(odd, this.keepButton);
    } else {
      this.act.keep(entry);
    }
  }

  start() {
    this.day.focus();
  }
}

/** What an entry is called where it was taken away. @param {HistoryEntry} entry */
export function entryName({ day, codes }) {
  return [dayText(day), codes.map(codeText).join(", ")].filter(Boolean).join(": ");
}
