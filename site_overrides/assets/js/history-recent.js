/** The codes that were read lately on my bike, offered where codes are asked for. Fetched only where something was kept. */

import { myBike } from "./bike.js";
import { recentCodes } from "./core/history-codes.js";
import { agoText } from "./core/history-words.js";
import { button, el } from "./dom.js";
import { chosenBike, lastEntries } from "./history-store.js";
import { today } from "./look-store.js";

/** @returns {RecentCode[]} */
function lately() {
  const bike = myBike() && chosenBike();
  return bike ? recentCodes(lastEntries(bike.id), today()) : [];
}

/**
 * Chips for those codes that are not there already; null where there are none.
 * @param {(code: string) => void} press @param {string[]} there
 */
export function recentView(press, there = []) {
  const codes = lately().filter(({ code }) => !there.includes(code));
  if (codes.length === 0) {
    return null;
  }
  return el(
    "div",
    { class: "recent", role: "group", "aria-label": "Codes that you read lately" },
    el("span", { class: "recent__word", "aria-hidden": "true" }, "You read lately:"),
    codes.map(({ code, day }) => button("recent__code", () => press(code), code, el("span", { class: "visually-hidden" }, `, ${agoText(day, today())}`))),
  );
}
