/** The questions of a report as steps: one a screen on a telephone, each a visit that the browser's Back leads to. */

export class ReportSteps {
  /**
   * @param {HTMLFormElement} form @param {() => string} kind of report, which says what is asked
   * @param {(step: HTMLElement) => void} leave told of a step that is to be left forwards; what is wrong in it is shown then
   */
  constructor(form, kind, leave) {
    this.form = form;
    this.kind = kind;
    this.leave = leave;
    this.step = "";
    /** Whether it is a question what is to be told. */
    this.asksKind = false;
  }

  listen() {
    for (const each of this.form.querySelectorAll("[data-report-next]")) {
      each.addEventListener("click", () => this.next(1));
    }
    for (const each of this.form.querySelectorAll("[data-report-back]")) {
      each.addEventListener("click", () => this.next(-1));
    }
    for (const each of this.form.querySelectorAll("[data-report-end]")) {
      each.addEventListener("click", () => this.go("send"));
    }
    addEventListener("popstate", () => this.go(location.hash.replace("#step-", ""), false));
  }

  /** Those that are asked, in their order. */
  get asked() {
    const kind = this.kind();
    return [...this.form.querySelectorAll("[data-step]")].filter(({ dataset }) => dataset.kinds.split(" ").includes(kind) && (dataset.step !== "kind" || this.asksKind));
  }

  get first() {
    return this.asked[0]?.dataset.step ?? "send";
  }

  /** Which of them are asked may have changed. */
  show() {
    const { asked } = this;
    for (const each of this.form.querySelectorAll("[data-step]")) {
      each.toggleAttribute("data-off", !asked.includes(each));
    }
  }

  /** @param {number} by */
  next(by) {
    const { asked } = this;
    const at = asked.findIndex(({ dataset }) => dataset.step === this.step);
    if (by > 0 && asked[at]) {
      this.leave(asked[at]);
      const wrong = asked[at].querySelector(".field__problem");
      if (wrong) {
        wrong.closest("[data-field]")?.querySelector("input, select, textarea")?.focus();
        return;
      }
    }
    this.go(asked[Math.max(0, at + by)]?.dataset.step ?? "send");
  }

  /** @param {string} name @param {boolean} isNew a visit of its own, to which the browser's Back leads */
  go(name, isNew = true) {
    const { asked } = this;
    const at = Math.max(0, asked.findIndex(({ dataset }) => dataset.step === name));
    const step = asked[at];
    this.step = step?.dataset.step ?? "";
    for (const each of this.form.querySelectorAll("[data-step]")) {
      each.toggleAttribute("data-now", each === step);
    }
    this.form.querySelector("[data-report-progress]").textContent = `Step ${at + 1} of ${asked.length}`;
    this.form.querySelector("[data-report-bar]").value = (at + 1) / asked.length;
    if (isNew && step) {
      history.pushState(null, "", `#step-${this.step}`);
      step.querySelector("h2")?.focus({ preventScroll: true });
      this.form.scrollIntoView({ block: "start" });
    }
    this.form.toggleAttribute("data-first", at === 0);
  }
}
