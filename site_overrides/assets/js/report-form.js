/** The fields of a report that depend on its fault and its bike, and what stands in all of them. Only texts are set. */

import { button, el } from "./dom.js";

const RESULT = /** @type {Record<string, string>} */ ({ good: "Good", bad: "Not good", low: "Too low", high: "Too high", unclear: "Could not tell" });
/** What a field is called where it is said that it is missing. */
const CALLED = /** @type {Record<string, string>} */ ({
  model: "Model", year: "Model year", odometer: "Odometer", seen: "Day", codes: "Codes", symptoms: "Noticed", conditions: "When it shows",
  modified: "Changed on the bike", fault: "Fault", state: "How it ended", cause: "What it was", after: "Ridden since", note: "A word for the next one",
  parts: "Parts", labour: "Labour", part: "What it is about", wrong: "What is wrong", right: "What is right", known_from: "How you know it", story: "What happened",
});
const FIX = /** @type {Record<string, string>} */ ({ helped: "Helped", "no-change": "Did not help", worse: "Made it worse" });

/** @param {string} name @param {string} value @param {string} word @param {"radio" | "checkbox"} kind */
function pick(name, value, word, kind) {
  return el("label", { class: "pick" }, el("input", { class: "pick__mark", type: kind, name, value }), el("span", { class: "pick__word" }, word));
}

/** @param {string} name @param {[value: string, word: string][]} options @param {string} label */
function choose(name, options, label) {
  return el("select", { class: "field__select", name, "aria-label": label }, options.map(([value, word]) => el("option", { value }, word)));
}

/** A check with what can come out of it, and room for a reading. @param {ReportCheck} check */
function checkRow({ id, title, results, unit }) {
  const options = /** @type {[string, string][]} */ ([["", "not done"], ...results.map((each) => [each, RESULT[each]])]);
  const reading = el("input", { class: "field__text field__text--reading", name: `reading ${id}`, type: "text", inputmode: "decimal", maxlength: 60, "aria-label": `Reading, ${title}`, placeholder: unit });
  return el(
    "div",
    { class: "try field", "data-field": `check ${id}` },
    el("span", { class: "try__name" }, title),
    el("span", { class: "try__answer field", "data-field": `reading ${id}` }, choose(`check ${id}`, options, title), unit && reading),
  );
}

/** @param {{id: string, title: string}} cause */
function fixRow({ id, title }) {
  const options = /** @type {[string, string][]} */ ([["", "not done"], ...Object.entries(FIX)]);
  return el(
    "div",
    { class: "try field", "data-field": `fix ${id}` },
    el("span", { class: "try__name" }, `Mended: ${title}`),
    el("span", { class: "try__answer" }, choose(`fix ${id}`, options, `Mended: ${title}`)),
  );
}

/** @param {HTMLSelectElement} select @param {[value: string, word: string][]} options */
function fillSelect(select, options) {
  const { value } = select;
  select.replaceChildren(...options.map(([each, word]) => el("option", { value: each }, word)));
  select.value = options.some(([each]) => each === value) ? value : (options[0]?.[0] ?? "");
}

/** The models that the club knows, and the years of the chosen one. @param {HTMLFormElement} form @param {FinderModel[]} models */
export function fillModels(form, models) {
  fillSelect(form.querySelector("[name=model]"), [["", "Choose"], ...models.map(({ id, name }) => /** @type {[string, string]} */ ([id, name]))]);
}

/** @param {HTMLFormElement} form @param {FinderModel[]} models @param {string} year chosen, where the model was built then */
export function fillYears(form, models, year) {
  const model = models.find(({ id }) => id === form.querySelector("[name=model]").value);
  const years = model ? Array.from({ length: model.last - model.first + 1 }, (_each, at) => String(model.first + at)) : [];
  const select = form.querySelector("[name=year]");
  fillSelect(select, [["", "Choose"], ...years.map((each) => /** @type {[string, string]} */ ([each, each]))]);
  select.value = years.includes(year) ? year : "";
}

/**
 * What is asked of a fault: its checks and causes, its signs. Checks that were done stand first.
 * @param {HTMLFormElement} form @param {?ReportFault} fault @param {(name: string) => boolean} isDone whether a check's or fix's field is filled in
 */
export function fillFault(form, fault, isDone) {
  /** @param {string} selector @param {Element[]} rows */
  const put = (selector, rows) => form.querySelector(selector)?.replaceChildren(...rows);
  put("[data-report-fault]", fault ? [pick("fault", fault.id, fault.title, "radio")] : []);
  put("[data-report-causes]", (fault?.causes ?? []).map(({ id, title }) => pick("cause", id, title, "radio")));
  put("[data-report-also]", (fault?.causes ?? []).map(({ id, title }) => pick("also", id, title, "checkbox")));
  put("[data-report-codes]", (fault?.codes ?? []).map((code) => pick("codes", code, code, "checkbox")));
  put("[data-report-symptoms]", (fault?.symptoms ?? []).map((each) => pick("symptoms", each, each, "checkbox")));
  const rows = fault ? [...fault.checks.map((check) => /** @type {const} */ ([`check ${check.id}`, checkRow(check)])), ...fault.causes.map((cause) => /** @type {const} */ ([`fix ${cause.id}`, fixRow(cause)]))] : [];
  const first = rows.filter(([name]) => isDone(name));
  put("[data-report-tried]", first.map(([, row]) => row));
  put("[data-report-tried-rest]", rows.filter((row) => !first.includes(row)).map(([, row]) => row));
  form.querySelector("[data-report-tried-none]").hidden = rows.length > 0;
  form.querySelector("[data-report-tried-fold]").hidden = rows.length === first.length;
  form.querySelector("[data-report-wrong-of]").textContent = fault ? fault.title : "Open the entry that it is about, and come here from there.";
}

/** What stands in the form, by name. @param {HTMLFormElement} form @returns {Filled} */
export function filledOf(form) {
  /** @type {Filled} */
  const filled = {};
  for (const [name, value] of new FormData(form)) {
    if (typeof value === "string" && value !== "") {
      (filled[name] ??= []).push(value);
    }
  }
  return filled;
}

/** Puts it there. Ticks and typed texts may share a name: what no tick has goes into the text. @param {HTMLFormElement} form @param {Filled} filled */
export function fill(form, filled) {
  /** @type {Map<string, string[]>} */
  const left = new Map(Object.entries(filled).map(([name, values]) => [name, [...values]]));
  for (const mark of form.querySelectorAll("input[type=radio], input[type=checkbox]")) {
    const input = /** @type {HTMLInputElement} */ (mark);
    const values = left.get(input.name);
    if (values) {
      input.checked = values.includes(input.value);
      if (input.type === "checkbox" && input.checked) {
        values.splice(values.indexOf(input.value), 1);
      }
    }
  }
  for (const place of form.querySelectorAll("input:not([type=radio], [type=checkbox]), select, textarea")) {
    const field = /** @type {HTMLInputElement} */ (place);
    const values = left.get(field.name);
    if (values?.length) {
      field.value = values.join(field.tagName === "TEXTAREA" ? "\n" : ", ");
    }
  }
}

/**
 * What is wrong, at its field; pieces that lead to a person are marked.
 * @param {HTMLFormElement} form @param {Problem[]} problems @param {(problem: Problem) => boolean} isShown
 */
export function showProblems(form, problems, isShown) {
  form.querySelectorAll(".field__problem").forEach((each) => each.remove());
  form.querySelectorAll("[aria-invalid]").forEach((each) => each.removeAttribute("aria-invalid"));
  /** @type {Set<string>} */
  const said = new Set();
  for (const problem of problems.filter(isShown)) {
    const place = [...form.querySelectorAll("[data-field]")].find((each) => each.getAttribute("data-field") === problem.field && !each.closest("[data-step]")?.hasAttribute("data-off"));
    const key = `${problem.field} ${problem.say}`;
    if (!place || said.has(key)) {
      continue;
    }
    said.add(key);
    const id = `problem-${problem.field.replace(/[^a-z0-9-]/gu, "-")}`;
    const pieces = problem.personal.flatMap((piece, at) => [at ? ", " : " ", el("mark", { class: "field__piece" }, piece)]);
    place.append(el("p", { class: "field__problem", id: said.size === 1 || !document.getElementById(id) ? id : null }, problem.say, ...pieces));
    for (const field of place.querySelectorAll("input, select, textarea")) {
      if (field.getAttribute("name") === problem.field) {
        field.setAttribute("aria-invalid", "true");
      }
    }
  }
}

/** What is missing or wrong, each with the way to its field. @param {Problem[]} problems @param {(field: string) => void} goTo */
export function openView(problems, goTo) {
  /** @type {Map<string, string>} */
  const rows = new Map(problems.map(({ field, say }) => /** @type {[string, string]} */ ([field, say])));
  const links = [...rows].map(([field, say]) => el("li", {}, button("report__to", () => goTo(field), CALLED[field] ?? "What was tried"), ` ${say}`));
  return [el("p", {}, rows.size === 1 ? "One thing is open before the report is finished:" : `${rows.size} things are open before the report is finished:`), el("ul", { class: "report__open" }, links)];
}
