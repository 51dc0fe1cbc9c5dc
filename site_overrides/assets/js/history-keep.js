/**
 * A code or a fault kept in my bike's history with one press, from the page of a fault, of a code or of
 * several; and from the end of a plan, what it was. Then what else is known can be added, or all of it taken back.
 */

import { myBike } from "./bike.js";
import { readCodes } from "./core/given-codes.js";
import { STATUSES } from "./core/history.js";
import { bikeText, codeText, distanceText, statusText } from "./core/history-words.js";
import { button, el } from "./dom.js";
import { add, change, keepChosen, lastEntries, put, remove, whereKept } from "./history-store.js";
import { lastingText } from "./history-views.js";
import { today } from "./look-store.js";
import { checkTask } from "./plan-sides.js";

const MOST_OFFERED = 8;

/** The fault that the page is about. @returns {?Named} */
function faultHere() {
  const { fault } = /** @type {?HTMLElement} */ (document.querySelector("article[data-fault]"))?.dataset ?? {};
  return fault ? { id: fault, title: document.querySelector("h1").textContent.trim() } : null;
}

/** Codes that the page's address brings, or that it is about. */
function codesGiven() {
  const { code } = /** @type {?HTMLElement} */ (document.querySelector("article[data-code]"))?.dataset ?? {};
  return code ? [code] : readCodes(new URL(location.href).searchParams.get("codes") ?? "");
}

/** Codes that the entry of the fault has. */
function codesListed() {
  return [...new Set([...document.querySelectorAll("#codes .code__text")].map((each) => (each.textContent ?? "").trim()))].slice(0, MOST_OFFERED);
}

/** The bike, which its owner chooses first where none is. @returns {Promise<?MyBike>} */
function bikeToKeepFor() {
  const bike = myBike();
  const choose = document.querySelector("[data-bike-choose]");
  if (bike || !choose) {
    return Promise.resolve(bike);
  }
  choose.click();
  return new Promise((resolve) => document.querySelector("[data-bike-dialog]").addEventListener("close", () => resolve(myBike()), { once: true }));
}

/** Where something is said of what was kept, and what else can be told of it. */
class Place {
  /** @param {Element} within */
  constructor(within) {
    this.word = el("p", { class: "seen__word", role: "status" });
    this.more = el("div", { class: "seen__more" });
    this.within = within;
    within.append(this.word, this.more);
  }

  /** The focus stays on what was pressed, though it is made anew. @param {string} word @param {...(Child | false)} more */
  show(word, ...more) {
    const { activeElement } = document;
    const pressed = activeElement && this.within.contains(activeElement) ? activeElement.textContent : null;
    this.word.textContent = word;
    this.more.replaceChildren(...more.filter((each) => each !== null && each !== false && each !== undefined));
    const buttons = [...this.more.querySelectorAll("button")];
    const next = pressed === null ? null : (buttons.find(({ textContent }) => textContent === pressed) ?? buttons[0]);
    next?.focus();
  }

  /** @param {OwnBike} bike @param {HistoryEntry} entry @param {() => void} undo */
  showKept(bike, entry, undo) {
    const what = entry.codes.map(codeText).join(", ") || entry.cause?.title || entry.fault?.title || "";
    const kept = [`Kept for ${bikeText(bike)}, today`, what].filter(Boolean).join(": ");
    /** @param {Partial<NewEntry>} changes */
    const also = (changes) => {
      const changed = change(bike.id, entry, changes);
      return changed && this.showKept(bike, changed, undo);
    };
    const takeBack = () => {
      undo();
      this.show("Taken back.");
    };
    this.show(
      [`${kept}.`, entry.cleared !== null && "Cleared today.", lastingText(whereKept())].filter(Boolean).join(" "),
      entry.codes.length > 0 && !entry.mended && statusRow(entry, also),
      odometerRow(bike, entry, also),
      el(
        "p",
        { class: "seen__row" },
        button("quiet", takeBack, "Undo"),
        entry.codes.length > 0 && entry.cleared === null && button("quiet", () => also({ cleared: today() }), "I cleared it today"),
        el("a", { href: new URL("my-bike/#history", new URL(document.querySelector("[data-strip]").dataset.root, document.baseURI)).href }, "My bike's history"),
      ),
    );
  }
}

/** @param {Place} place @returns {Promise<?OwnBike>} */
async function bikeFor(place) {
  const bike = (await bikeToKeepFor()) && keepChosen();
  if (!bike) {
    place.show("Choose your bike first: a history is that of one bike.");
  }
  return bike;
}

/** Asks which code it was where the page has several. @param {HTMLElement} within */
export function see(within) {
  const place = placeIn(within);
  const given = codesGiven();
  const listed = given.length ? [] : codesListed();
  if (listed.length === 0) {
    keep(place, given);
    return;
  }
  place.show(
    "Which code did you read?",
    el(
      "p",
      { class: "seen__row" },
      listed.map((code) => button("chip", () => keep(place, [code]), code)),
      button("quiet", () => keep(place, []), "None, I noticed it"),
    ),
  );
  place.more.querySelector("button")?.focus();
}

/** @type {WeakMap<Element, Place>} */
const places = new WeakMap();

/** @param {Element} within */
function placeIn(within) {
  const place = places.get(within) ?? new Place(within);
  places.set(within, place);
  return place;
}

/** @param {Place} place @param {string[]} codes */
async function keep(place, codes) {
  const bike = await bikeFor(place);
  if (!bike) {
    return;
  }
  const fault = faultHere();
  const day = today();
  // Pressed on another page on the same day, it is the same thing that was seen.
  const before = lastEntries(bike.id).find((each) => each.day === day && isOpen(each) && (!fault || !each.fault || each.fault.id === fault.id));
  const known = before?.codes.map(({ code }) => code) ?? [];
  const fresh = codes.filter((code) => !known.includes(code)).map((code) => ({ code, status: null }));
  const entry = before ? change(bike.id, before, { codes: [...before.codes, ...fresh], fault: fault ?? before.fault }) : add(bike.id, { day, codes: fresh, fault });
  if (entry) {
    place.showKept(bike, entry, () => (before ? put(bike.id, before) : remove(bike.id, entry.id)));
  }
}

/** Only seen, nothing done yet. @param {HistoryEntry} entry */
function isOpen({ done, cleared, mended, report }) {
  return done === "" && cleared === null && !mended && report === null;
}

/** At the end of a plan: it was mended, or a workshop will. @param {HTMLElement} within @param {PlanChange} plan */
export function offerMended(within, plan) {
  const cause = within.dataset.historyMended;
  if (cause && !cause.endsWith("unlisted")) {
    const did = plan.given.list.some(({ fix, result }) => fix === cause && result === "helped");
    const press = () => keepMended(placeIn(within), plan, cause);
    within.replaceChildren(button("quiet", press, did ? "Keep it in my bike's history" : "It is mended: keep it in my bike's history"));
  }
}

/** @param {Place} place @param {PlanChange} plan @param {string} cause */
async function keepMended(place, { given, page }, cause) {
  const bike = await bikeFor(place);
  if (!bike) {
    return;
  }
  const [own, of] = cause.split("/").reverse();
  const day = today();
  // The panel is made anew with each answer, and its button with it.
  const before = lastEntries(bike.id).find((each) => each.day === day && each.mended && each.cause?.id === own);
  const entry = before ?? add(bike.id, {
    day,
    codes: (page.source.codes ?? []).map((code) => ({ code, status: null })),
    fault: of ? { id: of, title: page.source.whose(cause) ?? of } : faultHere(),
    cause: { id: own, title: page.names.causes[cause] ?? own },
    mended: true,
    tried: given.list.map((answer) => triedStep(answer, page)),
  });
  if (entry) {
    place.within.querySelector("button")?.remove();
    place.showKept(bike, entry, () => remove(bike.id, entry.id));
  }
}

/** @param {Answer} answer @param {Page} page @returns {TriedStep} */
function triedStep(answer, page) {
  const id = answer.check ?? answer.fix;
  const title = answer.check ? checkTask(id, page, page.source) : page.names.causes[id];
  return { kind: answer.check ? "check" : "fix", id: id.slice(id.lastIndexOf("/") + 1), title: title ?? id, result: answer.result };
}

/** @param {HistoryEntry} entry @param {(changes: Partial<NewEntry>) => unknown} also */
function statusRow({ codes }, also) {
  const chosen = codes.every(({ status }) => status === codes[0].status) ? codes[0].status : null;
  const buttons = STATUSES.map((status) => {
    const press = () => also({ codes: codes.map(({ code }) => ({ code, status: status === chosen ? null : status })) });
    const one = button("quiet", press, statusText(status));
    one.setAttribute("aria-pressed", String(status === chosen));
    return one;
  });
  return el("p", { class: "seen__row", role: "group", "aria-label": "What the reader says of it" }, el("span", {}, "The reader says:"), buttons);
}

/** @param {OwnBike} bike @param {HistoryEntry} entry @param {(changes: Partial<NewEntry>) => unknown} also */
function odometerRow({ id, unit }, { odometer }, also) {
  const last = lastEntries(id).find((each) => each.odometer !== null)?.odometer ?? null;
  const field = el("input", { class: "seen__odometer", type: "text", inputmode: "numeric", autocomplete: "off", maxlength: 9, value: odometer ?? "", "aria-describedby": "seen-last" });
  const take = () => {
    const typed = field.value.replace(/[\s.,'\u202f\u00a0]/g, "");
    if (/^\d{1,7}$/.test(typed)) {
      also({ odometer: Number(typed) });
    } else {
      field.setAttribute("aria-invalid", "true");
      field.focus();
    }
  };
  field.addEventListener("keydown", (event) => event.key === "Enter" && take());
  return el(
    "p",
    { class: "seen__row" },
    el("label", {}, `Odometer, ${unit} `, field),
    button("quiet", take, odometer === null ? "Add it" : "Change it"),
    el("span", { class: "seen__last", id: "seen-last" }, odometer === null && last !== null ? `It was ${distanceText(last, unit)}.` : ""),
  );
}
