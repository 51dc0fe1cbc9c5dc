/**
 * Pages of faults as documents, for a plan of several: what is to be done stands on their cards, and what is reckoned with
 * in their data. They are this site's own pages, made safe when they were built. A document that is fetched shows nothing
 * and runs nothing; what is taken from it are elements and texts.
 */

import { GoneError, isGone, RenewedError, twice } from "./arriving.js";

/** @type {Map<string, Promise<FaultPage>>} */
const kept = new Map();

/** The page of a fault; fails where it does not come, with a GoneError where there is none. @param {string} id @param {string} address @returns {Promise<FaultPage>} */
export function faultPage(id, address) {
  let page = kept.get(id);
  if (!page) {
    page = twice(() => fetched(address)).then((shown) => {
      // The page of one build and the scripts of another could misread each other.
      if (buildOf(shown) !== buildOf(document)) {
        throw new RenewedError(address);
      }
      return { id, address, shown, data: dataOf(shown) };
    });
    kept.set(id, page);
    // Asked for again where it did not come.
    page.catch(() => kept.delete(id));
  }
  return page;
}

/** @param {string} address @returns {Promise<Document>} */
function fetched(address) {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.responseType = "document";
    request.addEventListener("loadend", () => {
      if (request.status === 200 && request.responseXML) {
        resolve(request.responseXML);
      } else {
        reject(isGone(request.status) ? new GoneError(address) : new Error(`${address}: ${request.status}`));
      }
    });
    request.open("GET", address);
    request.send();
  });
}

/** @param {Document} page */
function buildOf(page) {
  return page.querySelector('meta[name="build"]')?.content;
}

/** What a plan takes of the page; null: its entry says too little for one. @param {Document} shown @returns {?PlanPage} */
function dataOf(shown) {
  const script = shown.querySelector("script.plan-data");
  return script ? JSON.parse(script.textContent) : null;
}
