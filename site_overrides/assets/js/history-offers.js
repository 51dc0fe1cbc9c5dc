/** Where codes are asked for, those that were read lately on my bike are offered: in the empty finder, and for several codes. */

/** Where nothing was kept, nothing is fetched for it. */
function isAnythingKept() {
  try {
    return Object.keys(localStorage).some((key) => key.startsWith("entry:"));
  } catch {
    return false;
  }
}

/** @param {PageElements["[data-finder]"]} form @param {HTMLElement} place */
function offerInFinder(form, place) {
  const field = form.querySelector("#finder");
  const hide = () => {
    place.hidden = true;
  };
  const show = async () => {
    if (field.value !== "" || !isAnythingKept()) {
      return;
    }
    const { recentView } = await import("./history-recent.js");
    const view = recentView((code) => {
      hide();
      field.value = code;
      field.focus();
      field.dispatchEvent(new Event("input", { bubbles: true }));
    });
    if (view && field.value === "" && form.contains(document.activeElement)) {
      place.replaceChildren(view);
      place.hidden = false;
    }
  };
  field.addEventListener("focus", show);
  field.addEventListener("input", () => (field.value === "" ? show() : hide()));
  form.addEventListener("keydown", (event) => event.key === "Escape" && hide());
  form.addEventListener("focusout", (event) => form.contains(/** @type {?Node} */ (event.relatedTarget)) || hide());
  // Else a press on a chip takes the focus away, and the chips are gone before the click.
  place.addEventListener("pointerdown", (event) => event.preventDefault());
}

/** @param {PageElements["[data-several]"]} article @param {HTMLElement} place */
async function offerForSeveral(article, place) {
  const form = article.querySelector("[data-several-form]");
  const { recentView } = await import("./history-recent.js");
  const show = () => {
    const there = (new URL(location.href).searchParams.get("codes") ?? "").split(",");
    const view = recentView((code) => {
      form.querySelector("textarea").value = code;
      form.requestSubmit();
      // The address has it once it was read.
      setTimeout(show, 300);
    }, there);
    place.replaceChildren(...(view ? [view] : []));
  };
  show();
}

const form = document.querySelector("[data-finder]");
const inFinder = document.querySelector("[data-finder-recent]");
if (form && inFinder) {
  offerInFinder(form, inFinder);
}
const several = document.querySelector("[data-several]");
const forSeveral = document.querySelector("[data-several-recent]");
if (several && forSeveral && isAnythingKept()) {
  offerForSeveral(several, forSeveral);
}
