/** The finder on a page: fetches the data once, shows the answers, moves by keyboard. What is found is core/finder.js. */

import { find, prepare } from "./core/finder.js";

const ADDRESS_PAUSE = 400;
const KINDS = { fault: "Fault", code: "Code", none: "Code", model: "Model", system: "System", component: "Part" };
const WHY = {
  failure: "Same code, other failure type",
  near: "Another code, close to what was typed",
};

function start(form) {
  const isHome = form.dataset.finder === "home";
  const field = form.querySelector("#finder");
  const results = form.querySelector("#finder-results");
  const status = form.querySelector("#finder-status");
  const clear = form.querySelector("[data-finder-clear]");
  const root = new URL(form.dataset.root.replace(/\/?$/, "/"), document.baseURI);
  const address = (path) => new URL(path, root).href;
  let loading = null;
  let active = -1;
  let pause = 0;

  function load() {
    loading ??= fetch(form.dataset.src)
      .then((answer) => (answer.ok ? answer.json() : Promise.reject(new Error(String(answer.status)))))
      .then(prepare)
      .catch(() => {
        // Tried again with the next letter: the network may be back.
        loading = null;
        return null;
      });
    return loading;
  }

  /** Shows the answers to what stands in the field; false where they could not be had. */
  async function run() {
    const text = field.value.trim();
    clear.hidden = field.value === "";
    if (isHome) {
      keepInAddress(text);
    }
    if (text === "") {
      close();
      status.textContent = "";
      return true;
    }
    const index = await load();
    if (field.value.trim() !== text) {
      return index !== null;
    }
    if (index === null) {
      close();
      status.textContent = "The finder's data did not arrive. Try again when there is a network.";
      return false;
    }
    show(find(text, index), index.data);
    return true;
  }

  function show(found, data) {
    results.replaceChildren(...found.answers.map((answer, at) => option(answer, at, data, address)));
    results.scrollTop = 0;
    status.textContent = summary(found, data);
    active = -1;
    field.removeAttribute("aria-activedescendant");
    open();
  }

  function open() {
    results.hidden = results.childElementCount === 0;
    field.setAttribute("aria-expanded", String(!results.hidden));
    form.classList.toggle("finder--open", !results.hidden);
  }

  function close() {
    results.hidden = true;
    field.setAttribute("aria-expanded", "false");
    form.classList.remove("finder--open");
    move(-1);
  }

  function move(to) {
    results.children[active]?.setAttribute("aria-selected", "false");
    active = to;
    const chosen = results.children[active];
    if (chosen) {
      chosen.setAttribute("aria-selected", "true");
      chosen.scrollIntoView({ block: "nearest" });
      field.setAttribute("aria-activedescendant", chosen.id);
    } else {
      field.removeAttribute("aria-activedescendant");
    }
  }

  function step(by) {
    const count = results.childElementCount;
    if (results.hidden) {
      open();
    }
    // One place before the first is the field itself.
    move(((active + 1 + by + count + 1) % (count + 1)) - 1);
  }

  function empty() {
    field.value = "";
    run();
    field.focus();
  }

  function keepInAddress(text) {
    clearTimeout(pause);
    pause = setTimeout(() => {
      const here = new URL(location.href);
      if (text) {
        here.searchParams.set("q", text);
      } else {
        here.searchParams.delete("q");
      }
      history.replaceState(history.state, "", here);
    }, ADDRESS_PAUSE);
  }

  field.addEventListener("focus", load);
  field.addEventListener("input", run);
  clear.addEventListener("click", empty);
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (field.value.trim() === "") {
      return;
    }
    const chosen = active;
    if (await run()) {
      // Answers are made anew by run(), in the same order.
      results.children[Math.max(0, chosen)]?.click();
    } else if (!isHome) {
      form.submit();
    }
  });
  form.addEventListener("keydown", (event) => {
    if ((event.key === "ArrowDown" || event.key === "ArrowUp") && event.target === field && results.childElementCount) {
      event.preventDefault();
      step(event.key === "ArrowDown" ? 1 : -1);
    } else if (event.key === "Escape") {
      escape(event);
    }
  });
  function escape(event) {
    event.preventDefault();
    if (results.hidden) {
      empty();
    } else {
      field.focus();
      close();
    }
  }
  if (!isHome) {
    form.addEventListener("focusout", (event) => {
      if (!form.contains(event.relatedTarget)) {
        close();
      }
    });
    field.addEventListener("focus", () => field.value.trim() && results.childElementCount && open());
    // Without this, pressing on a part of an answer that takes no focus would close the list before the click.
    results.addEventListener("pointerdown", (event) => event.preventDefault());
  }
  document.addEventListener("keydown", (event) => {
    const isTyping = event.target.closest?.("input, textarea, select, [contenteditable]");
    if (event.key === "/" && !isTyping && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      field.focus();
      field.select();
    }
  });

  const asked = isHome ? new URL(location.href).searchParams.get("q") : null;
  if (asked) {
    field.value = asked;
  }
  if (field.value) {
    run();
  }
}

function summary({ codes, known, answers, more }, data) {
  if (!known) {
    return codes.length ? `No entry has this code. ${data.rides.unknown.word}.` : "Nothing found. Try fewer or other words.";
  }
  const count = answers.length === 1 ? "1 answer" : `${answers.length} answers`;
  return more ? `${count}; ${more} more with another word or digit.` : `${count}.`;
}

/** One answer: a link that is an option. Only texts are set, so nothing in the data can become markup. */
function option({ why, entry, matched }, at, data, address) {
  const link = document.createElement("a");
  link.id = `finder-answer-${at}`;
  link.className = `answer answer--${entry.kind}`;
  link.href = address(entry.address);
  link.setAttribute("role", "option");
  link.setAttribute("aria-selected", "false");
  const ride = entry.ride && data.rides[entry.ride];
  const parts = [
    ["kind", KINDS[entry.kind]],
    ["title", entry.title],
    [`ride answer__ride--${ride?.look}`, ride?.word],
    ["detail", detail(entry)],
    ["matched", WHY[why] ?? (why === "words" ? `Matches: ${[...new Set(matched)].join(", ")}` : null)],
  ];
  for (const [name, text] of parts.filter(([, text]) => text)) {
    const part = document.createElement("span");
    part.className = `answer__${name}`;
    part.dir = "auto";
    part.textContent = text;
    // The space keeps the parts apart where the link is read out in one.
    link.append(part, " ");
  }
  return link;
}

function detail(entry) {
  const models = entry.models.map(([, name, years]) => (entry.title === name ? years : `${name} ${years}`));
  const meanings = entry.words.meanings ?? [];
  const words = entry.kind === "code" ? meanings : (entry.words.told ?? []);
  return [...words, ...models, entry.system].filter(Boolean).join(" · ");
}

const form = document.querySelector("[data-finder]");
if (form) {
  start(form);
}
