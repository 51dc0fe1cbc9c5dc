/**
 * The history drawn over the odometer: a line for each code, with a mark where it was read, cleared or mended. As the
 * drawings of the site it has no view box and gives lengths in percent, so it fits every width and its letters are not
 * stretched. Its text equivalent is the list below it.
 */

import { closingsOf } from "./core/history-codes.js";
import { distanceText } from "./core/history-words.js";
import { inOrder } from "./core/history.js";
import { el } from "./dom.js";

const SVG = "http://www.w3.org/2000/svg";
const MOST_LANES = 6;
const LANE = 46;
const FOOT = 30;
/** Percent left free on each side, so that marks and figures at the ends are whole. */
const EDGE = 3;

/** @param {string} name @param {Record<string, string | number>} attributes @param {...(Node | string)} children */
function draw(name, attributes, ...children) {
  const element = document.createElementNS(SVG, name);
  Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, String(value)));
  element.append(...children);
  return element;
}

/** Round figures between two, at most five. @param {number} from @param {number} to */
function ticksBetween(from, to) {
  const rough = Math.max(1, (to - from) / 4);
  const size = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((each) => each * size).find((each) => each >= rough) ?? rough;
  const first = Math.ceil(from / step) * step;
  return Array.from({ length: Math.floor((to - first) / step) + 1 }, (_, at) => first + at * step);
}

/** The codes that were seen most often, those seen last first among equals. @param {HistoryEntry[]} entries */
function lanesOf(entries) {
  /** @type {Map<string, number>} */
  const times = new Map();
  entries.forEach(({ codes }) => codes.forEach(({ code }) => times.set(code, (times.get(code) ?? 0) + 1)));
  return [...times].sort((one, other) => other[1] - one[1]).slice(0, MOST_LANES).map(([code]) => code);
}

/** @param {"read" | "cleared" | "mended"} what @param {string} x @param {number} y */
function mark(what, x, y) {
  if (what === "read") {
    return draw("circle", { class: "line__read", cx: x, cy: y, r: 5 });
  }
  const path = what === "cleared" ? "M0-10V10" : "M0-8L8 0L0 8L-8 0Z";
  return draw("svg", { x, y, overflow: "visible" }, draw("path", { class: `line__${what}`, d: path }));
}

/**
 * Null where too little is known to draw: two odometers and a code.
 * @param {HistoryEntry[]} entries @param {OwnBike} bike
 */
export function lineView(entries, { unit }) {
  const placed = inOrder(entries).filter(({ odometer }) => odometer !== null);
  const figures = placed.map(({ odometer }) => Number(odometer));
  const [from, to] = [figures.reduce((least, each) => Math.min(least, each), Infinity), figures.reduce((most, each) => Math.max(most, each), 0)];
  const lanes = lanesOf(placed);
  const closings = closingsOf(entries);
  if (lanes.length === 0 || to <= from) {
    return null;
  }
  /** @param {number} odometer */
  const x = (odometer) => `${(EDGE + ((100 - 2 * EDGE) * (odometer - from)) / (to - from)).toFixed(1)}%`;
  const height = lanes.length * LANE + FOOT;
  const drawing = draw("svg", {
    class: "line",
    width: "100%",
    height,
    role: "img",
    "aria-label": `When each code was read, from ${distanceText(from, unit)} to ${distanceText(to, unit)}. The entries below say the same in words.`,
  });
  for (const tick of ticksBetween(from, to)) {
    drawing.append(
      draw("line", { class: "line__tick", x1: x(tick), x2: x(tick), y1: 0, y2: height - FOOT + 6 }),
      draw("text", { class: "line__figure", x: x(tick), y: height - 8, "text-anchor": "middle" }, distanceText(tick, "").trim()),
    );
  }
  lanes.forEach((code, lane) => {
    const y = lane * LANE + 32;
    drawing.append(
      draw("line", { class: "line__lane", x1: "0", x2: "100%", y1: y, y2: y }),
      draw("text", { class: "line__code", x: "0", y: y - 15 }, code),
    );
    /** Thousands of marks in one place would be one to the eye. @type {Set<string>} */
    const there = new Set();
    /** @param {"read" | "cleared" | "mended"} what @param {HistoryEntry} entry */
    const put = (what, { odometer }) => {
      const at = odometer === null ? "" : x(odometer);
      if (at && !there.has(what + at)) {
        there.add(what + at);
        drawing.append(mark(what, at, y));
      }
    };
    const closed = closings.get(code) ?? [];
    closed.filter(({ cleared }) => cleared !== null).forEach((entry) => put("cleared", entry));
    closed.filter(({ mended }) => mended).forEach((entry) => put("mended", entry));
    placed.filter(({ codes }) => codes.some((each) => each.code === code)).forEach((entry) => put("read", entry));
  });
  const left = entries.length - placed.length;
  return el("figure", { class: "line-figure" }, drawing, keyView(unit, left));
}

/** @param {string} unit @param {number} left */
function keyView(unit, left) {
  const rows = /** @type {const} */ (["read", "cleared", "mended"]).map((what) =>
    el("span", { class: "line-key" }, draw("svg", { class: "line-key__mark", width: 20, height: 20, "aria-hidden": "true", focusable: "false" }, mark(what, "10", 10)), what),
  );
  const without = left ? ` ${left} ${left === 1 ? "entry has" : "entries have"} no odometer and ${left === 1 ? "stands" : "stand"} in the list alone.` : "";
  return el("figcaption", { class: "line-figure__key" }, rows, el("span", {}, `Odometer in ${unit}.${without}`));
}
