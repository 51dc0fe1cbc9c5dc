/** The switch of colours, and what else the band needs: the list behind "More" closes when it is left. */

const SCHEMES = ["light", "dark"];
const root = document.documentElement;
const buttons = [...document.querySelectorAll("[data-set-scheme]")];

function current() {
  return SCHEMES.find((scheme) => scheme === root.dataset.scheme) ?? "auto";
}

function show() {
  for (const button of buttons) {
    button.setAttribute("aria-pressed", String(button.dataset.setScheme === current()));
  }
}

/** @param {string} scheme */
function choose(scheme) {
  if (SCHEMES.includes(scheme)) {
    root.dataset.scheme = scheme;
  } else {
    delete root.dataset.scheme;
  }
  try {
    if (SCHEMES.includes(scheme)) {
      localStorage.setItem("scheme", scheme);
    } else {
      localStorage.removeItem("scheme");
    }
  } catch {
    // Storage may be forbidden; the choice then holds for this page.
  }
  show();
}

for (const button of buttons) {
  button.addEventListener("click", () => choose(button.dataset.setScheme));
}
show();

const more = document.querySelector("[data-more]");
if (more) {
  document.addEventListener("click", (event) => {
    if (!more.contains(/** @type {Node} */ (event.target))) {
      more.open = false;
    }
  });
  more.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && more.open) {
      more.open = false;
      more.querySelector("summary").focus();
    }
  });
}
