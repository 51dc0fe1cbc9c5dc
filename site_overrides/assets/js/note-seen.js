/**
 * The note for the workshop is a form for a pen until somebody looks at it: what fills it in, and makes fields of its blanks, is
 * fetched only then.
 */

const note = document.querySelector(".workshop-note");
const place = note?.querySelector("[data-sheet-print]");
/** What the plan told last; null: there is none. @type {?PlanChange} */
let last = null;
let isAsked = false;

/** All at once, or one would be asked for after the other. @param {HTMLElement} sheet */
async function fill(sheet) {
  if (isAsked) {
    return;
  }
  isAsked = true;
  try {
    const [{ fillNote }] = await Promise.all([import("./workshop-note.js"), import("./note-store.js"), import("./workshop-form.js")]);
    fillNote(sheet, last);
  } catch {
    // It stays a form for a pen; whoever looks again asks again.
    isAsked = false;
  }
}

if (note && place) {
  document.addEventListener("planchange", ({ detail }) => {
    last = detail;
  });
  // What is folded away is not in sight, wherever it lies.
  new IntersectionObserver((entries) => entries.some(({ isIntersecting }) => isIntersecting) && fill(note), {
    rootMargin: "50% 0px",
  }).observe(place);
}
