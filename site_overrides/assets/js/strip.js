/**
 * What a page means for my bike: said in the strip below the header, and rows that do not concern it are folded away.
 *
 * Pages say whom they concern in `data-whom`; the bike is what this browser remembers. Only texts are set.
 */

import { myBike } from "./bike.js";
import { concerns } from "./core/whom.js";
import { button, el } from "./dom.js";

const strip = document.querySelector("[data-strip]");
const word = strip.querySelector("[data-strip-word]");
const KNOWN = "bike-known";

/** @param {MyBike} bike @returns {[state: string, text: string]} */
function meaning(bike) {
  const article = document.querySelector("article[data-whom]");
  if (article) {
    return ofFault(article, bike);
  }
  const model = document.querySelector("article[data-model]");
  if (model) {
    const { model: id, year } = model.dataset;
    const isMine = id === bike.model && (!year || Number(year) === bike.year);
    return isMine ? ["yes", year ? "this is its page" : "this is its model"] : ["no", year && id === bike.model ? "this is another year" : "this is another model"];
  }
  return ofRows([...document.querySelectorAll("main [data-whom]")], bike);
}

/** A fault that stands under several models counts once. @param {Element[]} rows @param {MyBike} bike @returns {[string, string]} */
function ofRows(rows, bike) {
  /** @type {Map<unknown, boolean>} */
  const found = new Map();
  for (const row of rows) {
    const about = row.querySelector("a")?.href ?? row;
    found.set(about, (found.get(about) ?? false) || isFor(row, bike));
  }
  const own = [...found.values()].filter(Boolean).length;
  return found.size ? [own ? "yes" : "no", own === found.size ? "all of these concern it" : `${own} of ${found.size} of these concern it`] : ["", ""];
}

/** @param {HTMLElement} article @param {MyBike} bike @returns {[string, string]} */
function ofFault(article, bike) {
  const { whom = "", asked = "" } = article.dataset;
  if (!concerns(whom, bike)) {
    return ["no", "not concerned. What follows is about other bikes"];
  }
  const notices = [...article.querySelectorAll("[data-notice]")].filter((each) => isFor(each, bike));
  const names = notices.map((each) => each.dataset.notice);
  const state = concerns(asked, bike) ? "perhaps" : "yes";
  const told = state === "perhaps" ? "perhaps concerned" : "concerned";
  return [state, names.length ? `${told}. Ask a dealer about ${names.join(" and ")} before you pay` : told];
}

/** @param {Element} row @param {MyBike} bike */
function isFor(row, bike) {
  return concerns(/** @type {HTMLElement} */ (row).dataset.whom ?? "", bike);
}

/** Rows of lists that do not concern the bike, each with what is said about it below. @param {?MyBike} bike */
function foldRows(bike) {
  for (const list of document.querySelectorAll("main .rows")) {
    const rows = [...list.querySelectorAll(":scope > [data-whom]")];
    const others = bike ? rows.filter((row) => !isFor(row, bike)) : [];
    const hidden = new Set(others.flatMap((row) => [row, row.nextElementSibling?.matches(".row__because") ? row.nextElementSibling : row]));
    const more = list.querySelector(":scope > .row--others");
    more?.remove();
    [...list.children].forEach((row) => row.toggleAttribute("hidden", hidden.has(row)));
    if (others.length) {
      const one = others.length === 1;
      const press = () => {
        hidden.forEach((row) => row.removeAttribute("hidden"));
        list.querySelector(":scope > .row--others")?.remove();
        others[0].querySelector("a")?.focus();
      };
      list.append(el("li", { class: "row row--others" }, button("rows-more", press, `${others.length} that ${one ? "does" : "do"} not concern your bike`)));
    }
  }
}

/**
 * Whether the club's list still has the bike: asked once a visit. Without an answer nothing is said.
 * @param {MyBike} bike
 */
async function isGone(bike) {
  const { content: build } = document.querySelector('meta[name="build"]');
  const mark = `${build} ${bike.model} ${bike.year}`;
  try {
    if (sessionStorage.getItem(KNOWN) === mark) {
      return false;
    }
    const answer = await fetch(new URL(document.querySelector("[data-finder]").dataset.src, document.baseURI));
    /** @type {FinderRoot} */
    const root = await answer.json();
    const isThere = root.models.some(({ id, first, last }) => id === bike.model && first <= bike.year && bike.year <= last);
    if (isThere) {
      sessionStorage.setItem(KNOWN, mark);
    }
    return !isThere;
  } catch {
    return false;
  }
}

async function show() {
  const bike = myBike();
  foldRows(bike);
  markNotices(bike);
  if (!bike) {
    return;
  }
  const [state, text] = meaning(bike);
  tell(state, text);
  const page = strip.querySelector("[data-strip-page]");
  page.href = new URL(`models/${encodeURIComponent(bike.model)}/${bike.year}/`, new URL(strip.dataset.root, document.baseURI)).href;
  if ((await isGone(bike)) && bike.model === myBike()?.model && bike.year === myBike()?.year) {
    page.href = new URL("my-bike/", new URL(strip.dataset.root, document.baseURI)).href;
    tell("gone", "the club's list has no such bike any more. Choose it again");
  }
}

/** @param {string} state @param {string} text */
function tell(state, text) {
  strip.dataset.state = state;
  word.textContent = text ? `: ${text}.` : "";
}

/** A recall that covers other bikes only is not said again to this one. @param {?MyBike} bike */
function markNotices(bike) {
  for (const row of document.querySelectorAll("[data-covers]")) {
    row.toggleAttribute("hidden", bike !== null && !concerns(row.dataset.covers, bike));
  }
  for (const list of document.querySelectorAll("[data-joint-free]")) {
    const rows = [...list.querySelectorAll("[data-covers]")];
    list.toggleAttribute("hidden", rows.length > 0 && rows.every((row) => row.hidden));
  }
  for (const line of document.querySelectorAll(".again--free")) {
    const notices = [...line.querySelectorAll("[data-whom]")];
    line.toggleAttribute("hidden", bike !== null && notices.every((each) => !isFor(each, bike)));
  }
}

document.addEventListener("bikechange", show);
show();
