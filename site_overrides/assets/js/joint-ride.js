/** May I ride it: one element, which follows what is known. */

/**
 * @param {HTMLElement} section with `[data-verdict]` in it; `[data-verdict-why]` stands elsewhere @param {?RideRow} ride
 * @param {string} why whose advice it is; empty: nothing to say @param {string} more
 */
export function showVerdict(section, ride, why, more = "") {
  const answer = section.querySelector("[data-verdict]");
  if (!ride || !answer) {
    return;
  }
  for (const look of ["stop", "workshop", "care", "free", "unknown"]) {
    section.classList.toggle(`ride--${look}`, look === ride.look);
  }
  answer.setAttribute("data-verdict", ride.level === "unknown" ? "not-known" : ride.level);
  answer.textContent = ride.answer;
  const place = document.querySelector("[data-verdict-why]");
  if (place) {
    place.textContent = [why && `May I ride it: the strictest of what is still possible, ${why}.`, more].filter(Boolean).join(" ");
  }
}
