/**
 * One plan for the faults that may be behind codes: what it is reckoned with, and the cards of the faults' own pages that
 * its steps are shown by.
 */

import { NO_ANSWERS } from "./core/plan-answers.js";
import { badBeforeRiding, strictest } from "./core/plan-beside.js";
import { jointAdvice, jointFree } from "./core/joint.js";
import { listText, say } from "./core/plan-words.js";
import { UNLISTED } from "./core/evidence.js";
import { el } from "./dom.js";
import { codesKey, keepAnswers, storedAnswers } from "./plan-store.js";
import { fromCard } from "./plan-frame.js";

/** @implements {PlanSource} */
export class SeveralFaults {
  /** @param {Joint} joint @param {FaultPage[]} pages of its faults @param {JointAsked} asked */
  constructor(joint, pages, asked) {
    this.joint = joint;
    this.asked = asked;
    this.pages = new Map(pages.map((page) => [page.id, page]));
    this.fault = "";
    this.key = codesKey(asked.labels);
    this.codes = asked.labels;
    this.isOfOneBike = true;
    this.anyBike = "Any";
    this.page = pageOf(joint, pages);
    this.answers = NO_ANSWERS;
  }

  used() {
    return this.asked.bike;
  }

  /** @param {?MyBike} bike */
  choose(bike) {
    return this.asked.choose(bike);
  }

  problem() {
    return this.page.problem;
  }

  /** @param {string} name `check-` and a check's id, or `fix-cause-` and a cause's */
  card(name) {
    const isCheck = name.startsWith("check-");
    const id = name.slice(isCheck ? "check-".length : "fix-cause-".length);
    const [fault, own] = isCheck ? (this.joint.uses.get(id)?.[0] ?? ["", ""]) : this.member(id);
    return this.pages.get(fault)?.shown.getElementById(isCheck ? `check-${own}` : `fix-cause-${own}`) ?? null;
  }

  /** @param {string} cause */
  member(cause) {
    const [fault, own] = cause.split("/");
    return [fault, own];
  }

  /** Of all its uses: a fault may add one to a check that it shares. @param {string} check */
  cautions(check) {
    const uses = this.joint.uses.get(check) ?? [];
    const found = uses.flatMap(([fault, own]) => fromCard(this.pages.get(fault)?.shown.getElementById(`check-${own}`) ?? null, ".caution"));
    return [...new Map(found.map((each) => [each.textContent, each])).values()];
  }

  /** The faults that have this cause. @param {string} cause */
  whose(cause) {
    if (cause === UNLISTED) {
      return null;
    }
    const faults = (this.joint.members.get(cause) ?? []).map(([fault]) => this.pages.get(fault)?.data?.title ?? fault);
    return listText([...new Set(faults)]);
  }

  /** @param {string} cause */
  causeAddress(cause) {
    const [fault, own] = this.member(cause);
    return this.address(fault, `cause-${own}`);
  }

  /** Of a fault's page; it is told which codes were read. @param {string} fault @param {string} place */
  address(fault, place) {
    const address = new URL(this.pages.get(fault)?.address ?? "", document.baseURI);
    address.searchParams.set("codes", this.asked.labels.join(","));
    address.hash = place;
    return address.href;
  }

  /** The way on from a cause: its fault's page, which is told what was found here; and what several codes may mean. @param {string} cause */
  after(cause) {
    const links = (this.joint.members.get(cause) ?? []).map(([fault, own]) => {
      const title = this.pages.get(fault)?.data?.title ?? fault;
      const link = el("a", { href: this.address(fault, `fix-cause-${own}`), "data-joint-end": fault, onclick: () => this.handOn(fault) }, title);
      return el("p", { class: "now__fault" }, "All about it: ", link);
    });
    return [...links, this.readAgain()];
  }

  readAgain() {
    return this.asked.labels.length > 1 && el("p", { class: "now__again" }, say(this.asked.words, "read_again"));
  }

  /** What was found counts on the fault's page too, unless something was answered there already. @param {string} fault */
  handOn(fault) {
    const problem = this.pages.get(fault)?.data?.problem;
    if (problem && storedAnswers(fault, problem).list.length === 0) {
      const list = this.answers.list.flatMap((answer) => this.own(answer, fault));
      keepAnswers(fault, { ...this.answers, list, covered: [] });
    }
  }

  /** @param {Answer} answer @param {string} fault @returns {Answer[]} */
  own(answer, fault) {
    const members = answer.check === undefined ? this.joint.members.get(answer.fix) : this.joint.uses.get(answer.check);
    return (members ?? []).flatMap(([each, id]) => {
      if (each !== fault) {
        return [];
      }
      return [answer.check === undefined ? { ...answer, fix: id } : { ...answer, check: id }];
    });
  }

  verdict() {
    return null;
  }

  /** What holds now; where a fault that is not described is possible, of those that are not planned too. @param {PlanSituation} situation @returns {RideWord} */
  ride({ problem, owner, plan }) {
    const { chances } = plan;
    const own = jointAdvice(this.joint, chances, this.asked.codes, badBeforeRiding(problem, owner));
    const isOpen = Object.keys(chances).length === 0 || Object.hasOwn(chances, UNLISTED);
    const word = strictest([own, ...(isOpen ? this.asked.others : [])]);
    return word.level === "no-restriction" && this.asked.isPart ? { ...word, level: null } : word;
  }

  /** @param {PlanSituation} before @param {PlanSituation} after */
  rideChange(before, after) {
    const { level } = this.ride(after);
    return level === null || level === this.ride(before).level ? null : say(this.page.words, "now_ride", { answer: this.page.rides[level] });
  }

  /** @param {Bike} bike */
  free(bike) {
    return jointFree(this.joint, bike);
  }

  /** @param {string} bike */
  elsewhere(bike) {
    return this.asked.isAny ? "" : `No entry with ${this.asked.labels.length > 1 ? "these codes" : "this code"} names your ${bike}.`;
  }

  about() {
    return [`Codes that I read: ${this.asked.labels.join(", ")}`];
  }

  /** @param {PlanSituation} situation @param {Answers} answers @param {Page} page */
  shown(situation, answers, page) {
    this.answers = answers;
    this.asked.shown(situation, page, this);
  }

  /** What the signs are to stop at once, of the faults that are still possible. @param {PlanSituation} situation */
  stops({ plan: { chances } }) {
    const ids = Object.keys(chances).flatMap((cause) => (this.joint.members.get(cause) ?? []).map(([fault]) => fault));
    const isOpen = ids.length === 0 || Object.hasOwn(chances, UNLISTED);
    const pages = [...this.pages.values()].filter(({ id }) => isOpen || ids.includes(id));
    return [...new Set(pages.flatMap(({ data }) => data?.stop_if ?? []))];
  }
}

/** What the views of a plan show, of all the faults together. @param {Joint} joint @param {FaultPage[]} pages @returns {PlanPage} */
function pageOf(joint, pages) {
  const data = new Map(pages.flatMap(({ id, data: own }) => (own ? [[id, own]] : [])));
  const all = [...data.values()];
  const [first] = all;
  /** @template T @param {Map<string, [fault: string, id: string][]>} places @param {(own: PlanPage, id: string) => T | undefined} of */
  const named = (places, of) =>
    Object.fromEntries(
      [...places].flatMap(([name, [[fault, id]]]) => {
        const found = of(/** @type {PlanPage} */ (data.get(fault)), id);
        return found === undefined ? [] : [[name, found]];
      }),
    );
  const called = new Map([...joint.members.keys()].map((name) => [name, [/** @type {[string, string]} */ (name.split("/"))]]));
  return {
    ...first,
    problem: joint.problem,
    on_bike: [...new Set(all.flatMap(({ on_bike }) => on_bike))],
    names: {
      causes: named(called, (own, id) => own.names.causes[id]),
      checks: named(joint.uses, (own, id) => own.names.tasks[id] || own.names.checks[id]),
      tasks: {},
      access: Object.assign({}, ...all.map(({ names }) => names.access)),
      tools: Object.assign({}, ...all.map(({ names }) => names.tools)),
    },
    units: named(joint.uses, (own, id) => own.units[id]),
    shared: Object.assign({}, ...all.map(({ shared }) => shared)),
    models: modelsOf(all),
  };
}

/** Each model once, with all the years that any of the faults concerns. @param {PlanPage[]} all @returns {ModelRow[]} */
function modelsOf(all) {
  /** @type {Map<string, ModelRow>} */
  const found = new Map();
  for (const [id, name, years] of all.flatMap(({ models }) => models)) {
    const before = found.get(id)?.[2] ?? [];
    found.set(id, [id, name, [...new Set([...before, ...years])].sort((one, other) => one - other)]);
  }
  return [...found.values()];
}
