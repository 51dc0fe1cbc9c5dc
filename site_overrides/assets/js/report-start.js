/** What a report begins with, before anything is typed: from the address, the plan, the remembered bike and its history. */

import { myBike } from "./bike.js";
import { readCodes } from "./core/given-codes.js";
import { planOf } from "./report-fault.js";
import { historyBike, historyEntries } from "./report-history.js";
import { today } from "./report-store.js";

/** Of these a form without its fault has some answers only. */
const OF_FAULT = ["fault", "cause", "also"];

/** @param {URLSearchParams} asked @returns {[model: string, year: string]} */
function machine(asked) {
  const own = myBike();
  const model = asked.get("model") ?? own?.model ?? "";
  const ofOwn = own && own.model === model ? String(own.year) : "";
  return [model.slice(0, 100), (asked.get("year") ?? ofOwn).slice(0, 4)];
}

/** What the history says of this fault last. @param {?string} bike @param {?ReportFault} fault */
function lastSeen(bike, fault) {
  const rows = bike && fault ? historyEntries(bike) : [];
  return rows.find((each) => each.fault === fault?.id && each.day <= today()) ?? null;
}

/** What a plan of several faults says that it was. @param {?string} cause @param {ReportFault} fault @returns {Filled} */
function ending(cause, fault) {
  return cause !== null && fault.causes.some(({ id }) => id === cause) ? { state: ["solved"], cause: [cause] } : {};
}

/** @param {URLSearchParams} asked @param {?ReportFault} fault @param {ReportClub} club @returns {Filled} */
export function knownValues(asked, fault, club) {
  const [model, year] = machine(asked);
  const bike = historyBike(model, Number(year));
  const last = lastSeen(bike ? bike.id : null, fault);
  const kind = asked.get("kind") ?? "";
  return {
    kind: [["wrong", "new"].includes(kind) ? kind : "ended"],
    model: [model],
    year: [year],
    unit: [bike ? bike.unit : club.unit],
    odometer: last?.odometer ? [String(last.odometer)] : [],
    seen: [last ? last.day : today()],
    codes: [...new Set([...readCodes(asked.get("codes") ?? ""), ...(last ? last.codes : [])])],
    fault: [fault ? fault.id : ""],
    bike: bike ? [bike.id] : [],
    ...(fault ? { ...ending(asked.get("cause"), fault), ...planOf(fault, asked.get("plan")) } : {}),
  };
}

/** What was typed of a form, without what it says of itself. @param {Filled} filled @returns {Filled} */
export function typedOf(filled) {
  return Object.fromEntries(Object.entries(filled).filter(([name]) => name !== "fault" && name !== "order"));
}

/**
 * What is kept of a form whose fault's page did not come: what it has no place for stays as it was kept before.
 * @param {HTMLFormElement} form @param {Filled} filled @param {Filled} before @returns {Filled}
 */
export function withoutPage(form, filled, before) {
  const others = Object.entries(before).filter(([name]) => OF_FAULT.includes(name) || form.elements.namedItem(name) === null);
  return { ...Object.fromEntries(others), ...typedOf(filled) };
}
