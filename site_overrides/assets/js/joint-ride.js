/** May I ride it: one element, which follows what is known. */

const LOOKS = ["stop", "workshop", "care", "free", "unknown"];

/** The colours of an answer. @param {Element} section @param {string} look */
export function showLook(section, look) {
  LOOKS.forEach((each) => section.classList.toggle(`ride--${each}`, each === look));
}

/**
 * @param {HTMLElement} section with `[data-verdict]` in it; `[data-verdict-why]` stands elsewhere @param {?RideRow} ride
 * @param {string} why whose advice it is; empty: nothing to say @param {string} more
 */
export function showVerdict(section, ride, why, more = "") {
  const line = section.querySelector("[data-verdict]");
  const answer = line?.querySelector(".ride__answer");
  if (!ride || !line || !answer) {
    return;
  }
  showLook(section, ride.look);
  line.setAttribute("data-verdict", ride.level === "unknown" ? "not-known" : ride.level);
  answer.textContent = ride.answer;
  const place = document.querySelector("[data-verdict-why]");
  if (place) {
    place.textContent = [why && `May I ride it: the strictest of what is still possible, ${why}.`, more].filter(Boolean).join(" ");
  }
}
