/**
 * Parts that are folded away: a link to one, or to something in it, opens it; on paper all of them are open.
 */

/** A fragment may be anything. @param {string} hash */
function idIn(hash) {
  try {
    return decodeURIComponent(hash.slice(1));
  } catch {
    return "";
  }
}

/** @param {string} hash */
function unfold(hash) {
  const target = document.getElementById(idIn(hash));
  if (!target) {
    return;
  }
  const within = /** @type {?HTMLDetailsElement} */ (target.querySelector(":scope > details"));
  /** @type {HTMLDetailsElement[]} */
  const closed = [];
  for (let each = within ?? target.closest("details"); each; each = each.parentElement?.closest("details") ?? null) {
    closed.push(each);
  }
  const opened = closed.filter((each) => !each.open);
  opened.forEach((each) => {
    each.open = true;
  });
  if (opened.length) {
    target.scrollIntoView();
  }
}

/** @type {Set<HTMLDetailsElement>} */
const shut = new Set();

function toPaper() {
  for (const each of document.querySelectorAll("main details:not([open])")) {
    shut.add(/** @type {HTMLDetailsElement} */ (each));
    /** @type {HTMLDetailsElement} */ (each).open = true;
  }
}

function toScreen() {
  shut.forEach((each) => {
    each.open = false;
  });
  shut.clear();
}

addEventListener("hashchange", () => unfold(location.hash));
document.addEventListener("click", ({ target }) => {
  const link = target instanceof Element ? target.closest("a[href^='#']") : null;
  if (link) {
    // After the plan's own script, which may have put the target elsewhere.
    setTimeout(() => unfold(link.getAttribute("href") ?? ""));
  }
});
// A page is cut into sheets before its media change, so that alone would be too late.
addEventListener("beforeprint", toPaper);
addEventListener("afterprint", toScreen);
matchMedia("print").addEventListener("change", ({ matches }) => (matches ? toPaper() : toScreen()));
unfold(location.hash);
