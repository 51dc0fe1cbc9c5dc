/**
 * The list of all codes, asked for one code (`?code=P0999`): what its form tells, that no entry has it, and the ways on.
 * Without scripts the list alone stands there. Only texts are set, so nothing in an address can become markup.
 */

import { find } from "./core/finder.js";
import { Shelves } from "./core/shelves.js";
import { el } from "./dom.js";

const LONGEST = 64;

/** @param {HTMLElement} state @param {PageElements["[data-finder]"]} form @param {string} text */
async function show(state, form, text) {
  const home = new URL(form.dataset.root.replace(/\/?$/, "/"), document.baseURI);
  const data = new URL(form.dataset.src, document.baseURI);
  /** @param {string} name */
  const load = async (name) => {
    const answer = await fetch(new URL(name, data));
    if (!answer.ok) {
      throw new Error(`${answer.status}`);
    }
    return answer.json();
  };
  const root = await load("root.json");
  const { answers, later } = await find(text, new Shelves(root, load), { everywhere: true });
  const all = [...answers, ...(await later())];
  const [first] = all;
  if (!first || first.why !== "unknown" || first.sort !== "none") {
    // Since the link was made, an entry has come to have the code; or the text is no code.
    const known = all.find(({ sort, sure }) => sort === "code" && sure);
    state.replaceChildren(known ? link(home, known.entry.address, `${known.entry.title}: what entries say of it`) : el("p", {}, `${text}: not a code that this club's machines show.`));
  } else {
    const code = first.entry.title.split(":")[0];
    const near = all.filter(({ why }) => why === "near");
    const ways = [
      root.pages.several && link(home, `${root.pages.several}?codes=${encodeURIComponent(code)}`, "More codes were shown? All of them at once"),
      root.pages.contribute && link(home, root.pages.contribute, "You know what it was? Tell the club"),
      ...near.map(({ entry }) => link(home, entry.address, `Another code, close to it: ${entry.title}`)),
    ];
    state.replaceChildren(
      el("h2", { class: "code-state__title", dir: "auto" }, first.entry.title),
      el("p", { class: "code-state__ride" }, root.rides.unknown.word),
      el("p", {}, "That nobody has written about it does not make it harmless. What its form tells:"),
      el("ul", {}, first.entry.texts.length ? first.entry.texts.map((each) => el("li", {}, each)) : el("li", {}, "Nothing: it is a code of the maker's own.")),
      el("p", { class: "code-state__ways" }, ...ways.filter(Boolean)),
    );
  }
  state.hidden = false;
}

/** @param {URL} home @param {string} address @param {string} text */
function link(home, address, text) {
  return el("a", { href: new URL(address, home).href }, text);
}

const state = document.querySelector("[data-code-state]");
const form = document.querySelector("[data-finder]");
const asked = new URL(location.href).searchParams.get("code")?.trim().slice(0, LONGEST);
if (state && form && asked) {
  show(state, form, asked).catch(() => {
    state.replaceChildren(el("p", {}, "What the code's form tells did not arrive. Try again when there is a network."));
    state.hidden = false;
  });
}
