/** What a report begins with, before anything is typed: from the address, the plan, the remembered bike and its history. */

import { myBike } from "./bike.js";
import { readCodes } from "./core/given-codes.js";
import { planOf } from "./report-fault.js";
import { historyBike, historyEntries } from "./report-history.js";
import { today } from "./report-store.js";

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
