/**
 * What this browser remembers of the owner: his bike, his plans, his tools. Nothing of it leaves the browser; where storage
 * fails, it holds for the page.
 *
 * While a shared state is looked at, that state stands in the place of all of it: it is read and changed as if it were the
 * owner's own, in this page alone, until he keeps it or goes back to his.
 */

/** Where storage is forbidden or full. @type {Map<string, string>} */
const held = new Map();
/** @type {?Map<string, string>} */
let lent = null;

/** @param {string} key @returns {?string} */
function own(key) {
  try {
    // What storage did not take is the newer.
    return held.get(key) ?? localStorage.getItem(key);
  } catch {
    return held.get(key) ?? null;
  }
}

/** @param {?string} text @returns {unknown} */
function parsed(text) {
  try {
    return JSON.parse(text ?? "null");
  } catch {
    // What another page wrote.
    return null;
  }
}

/** @param {string} key @param {string} text */
function keep(key, text) {
  try {
    localStorage.setItem(key, text);
    held.delete(key);
  } catch {
    held.set(key, text);
  }
}

/** What is remembered under a key, whatever another page may have written there; null: nothing. @param {string} key */
export function remembered(key) {
  return parsed(lent ? (lent.get(key) ?? null) : own(key));
}

/** What the owner himself has there, also while another state is looked at. @param {string} key */
export function ownMemory(key) {
  return parsed(own(key));
}

/** @param {string} key @param {unknown} value JSON-ready; null: forget it */
export function remember(key, value) {
  if (value === null) {
    forget(key);
  } else if (lent) {
    lent.set(key, JSON.stringify(value));
  } else {
    keep(key, JSON.stringify(value));
  }
}

/** @param {string} key */
function forget(key) {
  if (lent) {
    lent.delete(key);
    return;
  }
  held.delete(key);
  try {
    localStorage.removeItem(key);
  } catch {
    // Forbidden: nothing was there.
  }
}

/** From now on this is remembered in the place of what the owner has. @param {Record<string, unknown>} state by key */
export function lend(state) {
  lent = new Map(Object.entries(state).map(([key, value]) => [key, JSON.stringify(value)]));
}

/** What was lent is gone; the owner's own is there again, as it was. */
export function takeBack() {
  lent = null;
}

/** What was lent, and what became of it, is the owner's own from now on. */
export function keepLent() {
  const all = lent ?? new Map();
  lent = null;
  all.forEach((text, key) => keep(key, text));
}

export function isLent() {
  return lent !== null;
}
