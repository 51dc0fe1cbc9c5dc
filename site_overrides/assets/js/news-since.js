/** On the page "My bike": what is new about it since the last visit. Of that only the days of visits are kept. */

import { myBike } from "./bike.js";
import { newsSince, visits } from "./core/news.js";
import { el } from "./dom.js";

const KEY = "visits";
/** More are on the page of all that is new. */
const MOST = 12;
const part = document.querySelector("[data-news-since]");
const list = document.querySelector("[data-news-list]");
const status = document.querySelector("[data-news-status]");
const { root, src } = part.dataset;

/** @param {string} text */
const day = (text) => new Date(text).toLocaleDateString("en-GB", { dateStyle: "long", timeZone: "UTC" });

function visit() {
  const now = new Date();
  const today = new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
  try {
    const { since, keep } = visits(localStorage.getItem(KEY), today);
    localStorage.setItem(KEY, keep);
    return since;
  } catch {
    // Storage may be forbidden: then every visit is the first.
    return null;
  }
}

/** @param {string} address */
const href = (address) => new URL(address, new URL(root, document.baseURI)).href;

/** @param {NewsItem} item */
const line = ({ title, address, on }) =>
  el("li", { class: "row" }, el("a", { class: "row__link", href: href(address) }, title), " ", el("span", { class: "figure" }, day(on)));

/** @type {?Promise<NewsItem[]>} */
let fetched = null;

async function news() {
  const answer = await fetch(new URL(src, document.baseURI));
  if (!answer.ok) {
    throw new Error(String(answer.status));
  }
  return /** @type {{items: NewsItem[]}} */ (await answer.json()).items;
}

const since = visit();

async function show() {
  const bike = myBike();
  part.hidden = !bike || !since;
  if (!bike || !since) {
    return;
  }
  try {
    fetched ??= news();
    const found = newsSince(await fetched, bike, since);
    list.replaceChildren(...found.slice(0, MOST).map(line));
    const more = found.length > MOST ? ` The latest ${MOST} of ${found.length}:` : "";
    status.textContent = found.length > 0 ? `Your last visit was on ${day(since)}.${more}` : `Nothing about it since ${day(since)}.`;
  } catch {
    fetched = null;
    status.textContent = "What is new is not known without a network.";
  }
}

document.addEventListener("bikechange", show);
show();
