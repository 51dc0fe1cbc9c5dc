/**
 * What a page fetches of this site to fill itself: asked for again where it does not come; and what stands there in the place
 * of nothing where it does not come then either.
 */

import { button } from "./dom.js";

/** Milliseconds in which a network that failed on the road may be there again. */
const PAUSE = 1000;
/** Milliseconds after which whoever waits wants to know for what. */
const SLOW = 4000;

/** The host has no such page. */
export class GoneError extends Error {}

/** The site was renewed since the page was opened, so what the page asks for is there no more. */
export class RenewedError extends Error {}

/**
 * What an attempt gives; where it fails, what another one gives a moment later. What is gone is not asked for again, and without
 * a network nothing is.
 * @template T @param {() => Promise<T>} attempt
 */
export async function twice(attempt) {
  try {
    return await attempt();
  } catch (error) {
    if (error instanceof GoneError || error instanceof RenewedError || navigator.onLine === false) {
      throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
    return attempt();
  }
}

/**
 * A file of the site's data, whose addresses change with their content; fails where it does not come.
 * @param {URL} url @returns {Promise<any>}
 */
export function json(url) {
  return twice(async () => {
    const answer = await fetch(url);
    if (!answer.ok) {
      throw isGone(answer.status) ? new RenewedError(url.href) : new Error(`${url.href}: ${answer.status}`);
    }
    return answer.json();
  });
}

/** @param {number} status of an answer */
export function isGone(status) {
  return status === 404 || status === 410;
}

/**
 * What a promise gives. Where that takes long, a word about it stands in the place until then.
 * @template T @param {HTMLElement} place @param {Promise<T>} promise
 */
export async function awaited(place, promise) {
  const word = document.createTextNode("It takes a while: the network is slow.");
  const timer = setTimeout(() => place.replaceChildren(word), SLOW);
  try {
    return await promise;
  } finally {
    clearTimeout(timer);
    word.remove();
  }
}

/**
 * Shows in a place that something did not come, with a button that leads on. The button takes both away.
 * @param {HTMLElement} place @param {unknown} error @param {string} words what did not come, a sentence @param {() => void} press
 */
export function showLost(place, error, words, press) {
  const again = () => {
    place.replaceChildren();
    press();
  };
  if (error instanceof RenewedError) {
    const load = button("my-bike__button", () => location.reload(), "Load the page again");
    place.replaceChildren("The site was renewed since this page was opened. ", load);
  } else {
    place.replaceChildren(`${words} `, button("my-bike__button", again, "Try again"));
  }
}
