"use strict";
// Tells this page when the server has another one at its address, or something else to say about the last build. Only
// then is the page loaded anew, and it is then put where it was: place, what was folded, what was typed, the focus.
// The server holds each question back until there is something to say, or for a minute; a hidden page asks nothing.
(() => {
  const { src, dataset } = /** @type {HTMLScriptElement} */ (document.currentScript);
  const KEPT = "kbtools-serve";
  const NOTHING_THERE = "none";
  /**
   * What is kept of a page that is loaded anew: how far it was scrolled, the last thing that had gone by, what was folded, typed
   * and chosen.
   * @typedef {{at: string, left: number, top: number, mark: ?[id: string, top: number], folds: [name: string, open: boolean][],
   *   typed: [name: string, value: string][], focus: ?[name: string, start: ?number, end: ?number]}} Kept
   */
  let told = { page: dataset.page ?? "", panel: dataset.panel ?? "" };
  /** @type {?AbortController} */
  let going = null;

  // --- asking

  /** @param {AbortController} asking */
  const ask = async ({ signal }) => {
    while (!signal.aborted) {
      try {
        const question = new URL("state", src);
        question.search = String(new URLSearchParams({ at: location.pathname, since: dataset.since ?? "", ...told }));
        const answer = await fetch(question, { signal, cache: "no-store" });
        if (!answer.ok) throw new Error(String(answer.status));
        const { page, panel, html } = await answer.json();
        if (page !== dataset.page && page !== NOTHING_THERE) {
          keep();
          location.reload();
          return;
        }
        if (panel !== told.panel) show(html);
        told = { page, panel };
      } catch {
        await new Promise((resolve) => setTimeout(resolve, 1000));
      }
    }
  };

  const change = () => {
    going?.abort();
    going = null;
    if (document.visibilityState === "visible") {
      going = new AbortController();
      ask(going);
    }
  };

  /** @param {string} html the server's, in which every text is escaped */
  const show = (html) => {
    const old = document.querySelector(".kbtools-panel");
    const panel = new DOMParser().parseFromString(html, "text/html").querySelector(".kbtools-panel");
    const details = panel?.querySelector("details");
    const before = old?.querySelector("details");
    if (details && before) details.open = before.open;
    old?.remove();
    if (panel) document.body.append(panel);
  };

  // --- staying where one was

  /** @param {Element} element */
  const nameOf = (element) => {
    const steps = [];
    for (let each = element; each !== document.body && each.parentElement; each = each.parentElement) {
      if (each.id) {
        steps.unshift(`#${CSS.escape(each.id)}`);
        break;
      }
      const alike = [...each.parentElement.children].filter((other) => other.localName === each.localName);
      steps.unshift(`${each.localName}:nth-of-type(${alike.indexOf(each) + 1})`);
    }
    return steps.join(" > ");
  };

  const folds = () => {
    const seen = new Map();
    return [...document.querySelectorAll("details")].map((each) => {
      // Where rows were added above it, its words are what is left of it.
      const words = each.querySelector("summary")?.textContent ?? "";
      seen.set(words, (seen.get(words) ?? 0) + 1);
      return /** @type {const} */ ([`${words}/${seen.get(words)}`, each]);
    });
  };

  const typed = () =>
    /** @type {HTMLInputElement[]} */ ([...document.querySelectorAll("input, textarea")]).filter(
      ({ type, value, defaultValue }) => ["search", "text", "textarea"].includes(type) && value !== defaultValue,
    );

  const keep = () => {
    const here = [...document.querySelectorAll("main [id]")].filter(
      (each) => each.getClientRects().length && each.getBoundingClientRect().top < innerHeight / 3,
    );
    const mark = scrollY > 0 ? here.at(-1) : null;
    const focused = document.activeElement === document.body ? null : /** @type {?HTMLInputElement} */ (document.activeElement);
    const state = {
      at: location.pathname,
      left: scrollX,
      top: scrollY,
      mark: mark ? [mark.id, mark.getBoundingClientRect().top] : null,
      folds: folds().map(([name, each]) => [name, each.open]),
      typed: typed().map((each) => [nameOf(each), each.value]),
      focus: focused && [nameOf(focused), focused.selectionStart ?? null, focused.selectionEnd ?? null],
    };
    sessionStorage.setItem(KEPT, JSON.stringify(state));
    history.scrollRestoration = "manual";
  };

  /** @param {Kept} state */
  const place = ({ left, top, mark }) => {
    const element = mark && document.getElementById(mark[0]);
    const moved = mark && element?.getClientRects().length ? element.getBoundingClientRect().top - mark[1] : null;
    scrollTo({ left, top: moved === null ? top : scrollY + moved, behavior: "instant" });
  };

  /** @param {Kept} state */
  const unfold = (state) => {
    const open = new Map(state.folds);
    for (const [name, each] of folds()) {
      const was = open.get(name);
      if (was !== undefined && each.open !== was) each.open = was;
    }
  };

  /** @param {Kept} state */
  const retype = ({ typed: fields, focus }) => {
    for (const [name, value] of fields) {
      const field = /** @type {?HTMLInputElement} */ (document.querySelector(name));
      if (field && field.value !== value) {
        field.value = value;
        field.dispatchEvent(new Event("input", { bubbles: true }));
      }
    }
    const focused = focus && /** @type {?HTMLInputElement} */ (document.querySelector(focus[0]));
    focused?.focus({ preventScroll: true });
    if (focus && focus[1] !== null && focused?.setSelectionRange) focused.setSelectionRange(focus[1], focus[2]);
  };

  const restore = () => {
    const state = JSON.parse(sessionStorage.getItem(KEPT) ?? "null");
    sessionStorage.removeItem(KEPT);
    if (state?.at !== location.pathname) {
      history.scrollRestoration = "auto";
      return;
    }
    unfold(state);
    place(state);
    addEventListener("load", () => {
      // By now the page's own scripts have folded and filled what they do.
      unfold(state);
      retype(state);
      place(state);
      history.scrollRestoration = "auto";
      const settling = new ResizeObserver(() => place(state));
      settling.observe(document.body);
      const settled = () => settling.disconnect();
      setTimeout(settled, 1000);
      for (const hand of ["wheel", "pointerdown", "keydown", "touchstart"]) addEventListener(hand, settled, { once: true });
    });
  };

  restore();
  document.addEventListener("visibilitychange", change);
  addEventListener("pageshow", change);
  addEventListener("pagehide", () => going?.abort());
})();
