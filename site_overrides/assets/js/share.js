/** Handing something on: by the system's own sheet where there is one, else by copying. What came of it is said. */

import { button, el } from "./dom.js";

/** Whoever closes the sheet again has not shared. @param {unknown} error */
function isCancelled(error) {
  return error instanceof DOMException && error.name === "AbortError";
}

/**
 * @param {{title: string, text?: string, url?: string}} what
 * @returns {Promise<"shared" | "cancelled" | "copied" | "refused">}
 */
async function handOn(what) {
  if (navigator.share) {
    try {
      await navigator.share(what);
      return "shared";
    } catch (error) {
      if (isCancelled(error)) {
        return "cancelled";
      }
    }
  }
  return (await copied(what.url ?? what.text ?? "")) ? "copied" : "refused";
}

/** @param {string} text */
async function copied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}

/** A text or a link to be copied by hand. @param {string} label @param {string} text */
function byHand(label, text) {
  const field = el("input", { class: "share__field", type: "text", readonly: true, value: text, "aria-label": label });
  field.addEventListener("focus", () => field.select());
  return field;
}

/** A button that shares a link to the state of a plan. @param {() => Promise<string>} link fails where what makes it does not arrive */
export function shareView(link) {
  const said = el("span", { class: "share__said", role: "status" });
  const rest = el("div", { class: "share__rest" });
  const words = { shared: "Shared.", cancelled: "Not shared.", copied: "The link is copied.", refused: "This browser does not allow it. Copy the link by hand:" };
  const press = async () => {
    said.textContent = "";
    rest.replaceChildren();
    let url;
    try {
      url = await link();
    } catch {
      said.textContent = "What makes the link did not arrive. Try again when there is a network.";
      return;
    }
    const came = await handOn({ title: document.title, url });
    said.textContent = words[came];
    rest.replaceChildren(...(came === "refused" ? [byHand("Link to this state", url)] : []));
  };
  const share = button("quiet share__button", press, "Share this state");
  // A browser allows to share only shortly after the press, so what makes the link is fetched a little before.
  share.addEventListener("pointerdown", () => link().catch(() => {}), { once: true });
  return el(
    "div",
    { class: "share" },
    share,
    " ",
    said,
    rest,
    el("p", { class: "share__note" }, "Your answers go into the link, to no server."),
  );
}

/**
 * Buttons that copy a text, and share it where the system can.
 * @param {() => string[]} lines @param {string} what it is called
 */
export function textView(lines, what = "text") {
  const said = el("span", { class: "tell__done", role: "status" });
  const text = () => lines().join("\n");
  const copy = async () => {
    said.textContent = (await copied(text())) ? "Copied." : "This browser does not allow it. Mark the text and copy it by hand.";
  };
  const share = async () => {
    const came = await handOn({ title: document.title, text: text() });
    said.textContent = { shared: "Shared.", cancelled: "Not shared.", copied: "Copied.", refused: "This browser does not allow it." }[came];
  };
  return el(
    "p",
    { class: "tell__copy" },
    button("quiet", copy, `Copy the ${what}`),
    " ",
    "share" in navigator && button("quiet", share, `Share the ${what}`),
    " ",
    said,
  );
}
