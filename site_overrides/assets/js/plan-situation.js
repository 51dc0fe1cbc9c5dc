/**
 * The owner's situation: bike, skill, tools, what an own hour is worth, whether the fault is there, what is open.
 *
 * The form is made once and only shown anew, so that the focus stays where it is while the plan changes beside it.
 */

import { SKILLS, typedNumber } from "./core/plan-answers.js";
import { numberText } from "./core/plan-words.js";
import { el } from "./dom.js";

const SKILL_TEXT = {
  home: ["Simple work", "pulling a plug, measuring, cleaning", "simple work yourself"],
  experienced: ["Experienced", "taking things apart, a torque wrench, a manual", "experienced owner"],
  workshop: ["As in a workshop", "everything", "as in a workshop"],
};

export class Situation {
  /**
   * @param {Page} page the page's data
   * @param {(change: Change) => void} changed told of `{means}`, `{answers}` or `{bike}`: what is different
   */
  constructor(page, changed) {
    this.page = page;
    this.changed = changed;
    this.tools = Object.keys(page.problem.tools);
    this.summary = el("span", { class: "situation__now" });
    this.element = el(
      "details",
      { class: "situation" },
      el(
        "summary",
        { class: "situation__summary" },
        el("span", { class: "situation__word" }, "Your situation"),
        " ",
        this.summary,
      ),
      el(
        "form",
        { class: "situation__form", onsubmit: (event) => event.preventDefault() },
        this.bikePart(),
        this.skillPart(),
        this.toolPart(),
        this.hourPart(),
        this.herePart(),
      ),
    );
  }

  bikePart() {
    const { models } = this.page;
    const change = () => this.changed({ bike: this.chosenBike() });
    /** @type {HTMLSelectElement} */
    this.model = el(
      "select",
      {
        id: "plan-model",
        onchange: () => {
          this.fillYears();
          change();
        },
      },
      new Option(this.page.source.anyBike, ""),
      models.map(([id, name]) => new Option(name, id)),
    );
    /** @type {HTMLSelectElement} */
    this.year = el("select", { id: "plan-year", onchange: change });
    /** @type {HTMLElement} */
    this.yearPart = el("p", {}, el("label", { for: "plan-year" }, "Model year"), this.year);
    /** @type {HTMLElement} */
    this.elsewhere = el("p", { class: "situation__note" });
    return el(
      "div",
      { class: "situation__part situation__part--bike" },
      el("p", {}, el("label", { for: "plan-model" }, "My bike"), this.model),
      this.yearPart,
      this.elsewhere,
    );
  }

  fillYears(wanted = Number(this.year.value)) {
    const model = this.page.models.find(([id]) => id === this.model.value);
    const years = model ? model[2] : [];
    this.year.replaceChildren(...years.map((year) => new Option(String(year), String(year))));
    this.year.value = String(years.includes(wanted) ? wanted : (years.at(-1) ?? ""));
    this.yearPart.hidden = years.length === 0;
  }

  chosenBike() {
    const model = this.page.models.find(([id]) => id === this.model.value);
    return model ? { model: model[0], year: Number(this.year.value), name: model[1] } : null;
  }

  skillPart() {
    /** @type {HTMLInputElement[]} */
    this.skills = SKILLS.map((skill) =>
      el("input", {
        type: "radio",
        name: "plan-skill",
        value: skill,
        onchange: () => this.changed({ means: { skill } }),
      }),
    );
    return fieldset(
      "What you do yourself",
      this.skills.map((input, at) => {
        const [word, more] = SKILL_TEXT[SKILLS[at]];
        return option(input, word, more);
      }),
    );
  }

  toolPart() {
    const { names } = this.page;
    /** @type {HTMLInputElement[]} */
    this.toolBoxes = this.tools.map((tool, at) =>
      el("input", {
        type: "checkbox",
        value: tool,
        onchange: () => this.setTool(tool, this.toolBoxes[at].checked),
      }),
    );
    return this.tools.length
      ? fieldset(
          "Tools at hand",
          this.toolBoxes.map((box, at) => option(box, names.tools[this.tools[at]] ?? this.tools[at])),
        )
      : null;
  }

  /** @param {string} tool @param {boolean} isThere */
  setTool(tool, isThere) {
    const usual = this.page.problem.tools[tool];
    /** @param {string[]} list */
    const without = (list) => list.filter((each) => each !== tool);
    const { has, lacks } = this.means;
    this.changed({
      means: {
        has: isThere && !usual ? [...without(has), tool] : without(has),
        lacks: !isThere && usual ? [...without(lacks), tool] : without(lacks),
      },
    });
  }

  hourPart() {
    const club = this.page.problem.own_time_value;
    /** @type {HTMLInputElement} */
    this.hour = el("input", {
      id: "plan-hour",
      type: "text",
      inputmode: "decimal",
      maxlength: 8,
      autocomplete: "off",
      placeholder: numberText(club),
      "aria-describedby": "plan-hour-note",
      oninput: () => this.setHour(),
    });
    return el(
      "div",
      { class: "situation__part" },
      el("label", { for: "plan-hour" }, `What an hour of your own time is worth, ${this.page.currency}`),
      this.hour,
      el(
        "p",
        { class: "situation__note", id: "plan-hour-note" },
        `Nothing typed: ${numberText(club)}, as the club sees it. Type 0 if you do not count your own time.`,
      ),
    );
  }

  setHour() {
    const value = typedNumber(this.hour.value);
    const isFine = value !== null && value >= 0 && value <= 10_000;
    this.hour.toggleAttribute("aria-invalid", false);
    if (this.hour.value.trim() === "" || isFine) {
      this.changed({ means: { hour: isFine ? value : null } });
    } else {
      this.hour.setAttribute("aria-invalid", "true");
    }
  }

  herePart() {
    const { problem, names } = this.page;
    /** @type {HTMLInputElement} */
    this.absent = el("input", {
      type: "checkbox",
      onchange: () => this.changed({ answers: { absent: this.absent.checked } }),
    });
    /** @type {HTMLInputElement[]} */
    this.jobs = problem.access.map((job) =>
      el("input", {
        type: "checkbox",
        value: job.id,
        onchange: () =>
          this.changed({ answers: { opened: this.jobs.filter((box) => box.checked).map((box) => box.value) } }),
      }),
    );
    const minds = problem.checks.some((check) => check.only_while_present);
    if (!minds && this.jobs.length === 0) {
      return null;
    }
    return fieldset("How the bike stands", [
      ...(minds ? [option(this.absent, "The fault is not there now", "some checks say nothing then")] : []),
      ...this.jobs.map((box, at) =>
        option(box, `Done already: ${names.access[problem.access[at].id] ?? problem.access[at].id}`),
      ),
    ]);
  }

  /**
   * Shows what holds now. `bike` is the one remembered, `used` the one reckoned with, `opened` all that is open.
   * @param {Now} now
   */
  show({ means, road, answers, bike, used, opened }) {
    /** @type {Means} */
    this.means = means;
    const { problem } = this.page;
    this.model.value = used ? used[0] : "";
    this.fillYears(used ? used[1] : bike?.year);
    this.elsewhere.textContent =
      bike && !used && !answers.any ? this.page.source.elsewhere(`${bike.name}, ${bike.year}`) : "";
    this.skills.forEach((input) => {
      input.checked = input.value === means.skill;
    });
    this.toolBoxes.forEach((box, at) => {
      box.checked = this.hasTool(this.tools[at]);
      // By the road it is what lies under the seat.
      box.disabled = road;
    });
    if (document.activeElement !== this.hour) {
      this.hour.value = means.hour === null ? "" : numberText(means.hour);
    }
    this.absent.checked = answers.absent;
    this.jobs.forEach((box) => {
      box.disabled = opened.results.has(box.value);
      box.checked = opened.all.has(box.value);
    });
    this.summary.textContent = [
      used ? `${this.model.selectedOptions[0].textContent}, ${used[1]}` : "any bike",
      SKILL_TEXT[means.skill][2],
      ...(road ? ["by the road"] : this.toolWords()),
      `${numberText(means.hour ?? problem.own_time_value)} ${this.page.currency} an hour`,
      ...(answers.absent && problem.checks.some((check) => check.only_while_present) ? ["fault not there now"] : []),
    ].join("; ");
  }

  /** What tools there are beside the usual ones, and which of those are not. @returns {string[]} */
  toolWords() {
    const { names, problem } = this.page;
    const lacking = this.tools
      .filter((tool) => problem.tools[tool] && !this.hasTool(tool))
      .map((tool) => `no ${(names.tools[tool] ?? tool).toLowerCase()}`);
    const more = this.tools
      .filter((tool) => !problem.tools[tool] && this.hasTool(tool))
      .map((tool) => (names.tools[tool] ?? tool).toLowerCase());
    return lacking.length + more.length ? [...lacking, ...more] : ["usual tools"];
  }

  /** @param {string} tool */
  hasTool(tool) {
    return (this.page.problem.tools[tool] || this.means.has.includes(tool)) && !this.means.lacks.includes(tool);
  }
}

/** @param {string} legend @param {Child[]} options */
function fieldset(legend, options) {
  return el("fieldset", { class: "situation__part" }, el("legend", {}, legend), ...options);
}

/** @param {HTMLElement} input @param {string} word @param {?string} more */
function option(input, word, more = null) {
  return el(
    "label",
    { class: "situation__option" },
    input,
    el("span", {}, word, more && el("span", { class: "situation__more" }, ` ${more}`)),
  );
}
