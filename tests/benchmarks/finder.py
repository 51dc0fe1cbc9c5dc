"""The finder beside the search that comes with the theme: how good, how much is fetched, how long it takes.

    python -m tests.benchmarks.finder quality          labelled queries on the demo, by kind
    python -m tests.benchmarks.finder cost [SIZE…]     bytes, requests and time at these numbers of faults

The theme searches pages with the same text, written by hand (`by_hand.py`), in its own page and with its own scripts.
Time is from the question to the first answer on the page, the processor of the page slowed down four times (the theme's
search runs in a worker, which the browser does not slow down). Bytes are those of all files that were fetched for it,
packed with gzip; both fetch their first file before the question, with the page. Of the finder's times the least of
five stands, since others use the machine too; the theme is asked once.
"""

from __future__ import annotations

import argparse
import gzip
import statistics
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Error, Page, sync_playwright

from tests.support.finder_queries import NONE, Query, queries, rank
from tests.support.places import ROOT
from tests.support.site_server import served
from tests.support.synthetic import write_base

from .by_hand import write_site
from .process import python

SLOWER = 4
BUDGET_BYTES = 150_000
BUDGET_MS = 300
SIZES = (500, 5000, 50000)
LARGEST_OF_THEME = 5000
"""The theme's index of more would be tens of megabytes."""
MOST_BUILT = 5000
RUNS = 5
SEED = 2
"""Of the synthetic bases."""
CHROMIUM = "/usr/bin/chromium"

ASKED = {
    "symptom": "regulator plug corroded after a wet ride",
    "one word": "regulator",
    "still being typed": "regulator plug cor",
    "misspelt": "regulater plug coroded",
    "misspelt first letter": "tegulator",
    "model and words": "bittern 900 fork seal leaking",
    "flash code": "4 long 2 short",
    "unknown code": "B2AA1",
    "part of a code": "P05",
}
"""Beside these, a code that the base has, alone and with words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Of one question, asked on a page that has fetched nothing for it before."""

    kilobytes: float
    requests: int
    milliseconds: float


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("what", choices=("quality", "cost"))
    parser.add_argument("sizes", nargs="*", type=int, default=list(SIZES))
    parser.add_argument("--ours", action="store_true", help="without the theme's search, which takes long to build")
    chosen = parser.parse_args()
    arguments = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
    with sync_playwright() as playwright, tempfile.TemporaryDirectory(prefix="kbtools-finder-") as folder:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=arguments)
        if chosen.what == "quality":
            quality(browser, Path(folder))
        else:
            for size in chosen.sizes:
                cost(browser, Path(folder), size, theme=size <= LARGEST_OF_THEME and not chosen.ours)
        browser.close()


def quality(browser: Browser, folder: Path) -> None:
    """Print success@1, success@3 and mean reciprocal rank by kind."""
    site = _build(ROOT / "kb", folder / "ours")
    project = _by_hand(site, folder / "theirs")
    for half in ("kept", "tune"):
        asked = queries(half)
        with served(site) as root:
            ours = _by_kind(asked, _our_ranks(browser, root, asked))
        with served(project / "site") as root:
            theirs = _by_kind(asked, _their_ranks(browser, root, asked))
        print(f"\n{half:<12}{'':>5}  finder: @1    @3   MRR    theme: @1    @3   MRR")
        for kind, mine in ours.items():
            print(f"{kind:<12}{len(mine):>5}        {_told(mine)}           {_told(theirs[kind])}")


Ranks = list[int | None]


def _by_kind(asked: list[Query], ranks: Ranks) -> dict[str, Ranks]:
    rows = list(zip(asked, ranks, strict=True))
    kinds = dict.fromkeys(query.kind for query in asked)
    return {kind: [each for query, each in rows if query.kind == kind] for kind in kinds} | {"all": ranks}


def _told(ranks: Ranks) -> str:
    first, three = (sum(each is not None and each <= most for each in ranks) / len(ranks) for most in (1, 3))
    return f"{first:5.3f} {three:5.3f} {sum(1 / each for each in ranks if each) / len(ranks):5.3f}"


def cost(browser: Browser, folder: Path, size: int, *, theme: bool) -> None:
    """Print what a question costs at one size."""
    base = folder / f"kb-{size}"
    write_base(base, faults=size, cases=size, seed=SEED)
    code = _a_code(base)
    asked = {"code": code, "code and words": f"{code} after a wet ride", **ASKED}
    print(f"\n{size} faults{'':<18} kB gzip  requests     ms")
    ours = _finder_only(base, folder / f"finder-{size}")
    _print("finder", {name: _our_cost(browser, ours, text) for name, text in asked.items()}, budget=size <= MOST_BUILT)
    if theme:
        project = _by_hand(_build(base, folder / f"built-{size}"), folder / f"theme-{size}")
        _print("theme", {name: _their_cost(browser, project / "site", asked[name]) for name in ("code", "symptom")})


def _print(who: str, costs: dict[str, Cost], *, budget: bool = False) -> None:
    for name, each in costs.items():
        print(f"  {who:<7}{name:<24}{each.kilobytes:8.1f} {each.requests:9d} {each.milliseconds:6.0f}")
    most = Cost(
        kilobytes=max(each.kilobytes for each in costs.values()),
        requests=max(each.requests for each in costs.values()),
        milliseconds=statistics.median(each.milliseconds for each in costs.values()),
    )
    limit = 2 if not budget else 1
    told = f"budget {limit * BUDGET_BYTES // 1000} kB, {BUDGET_MS} ms" if who == "finder" else ""
    print(
        f"  {who:<7}{'most; median time':<24}{most.kilobytes:8.1f} {most.requests:9d} {most.milliseconds:6.0f}  {told}"
    )


def _build(base: Path, site: Path) -> Path:
    # The demo's cases go on to the present day.
    python("-m", "kbtools", "build", "--kb", str(base), "--site-dir", str(site), epoch=str(int(time.time())))
    return site


def _by_hand(site: Path, project: Path) -> Path:
    write_site(project, site, sorted(site.rglob("index.html")), search=True)
    python("-m", "mkdocs", "build", "-q", within=project)
    return project


def _a_code(base: Path) -> str:
    lines = (line for path in sorted(base.glob("faults/*/*.yml")) for line in path.read_text("utf-8").splitlines())
    return next(line.split("code: ")[1].split(",")[0] for line in lines if "code: P" in line)


def _finder_only(base: Path, folder: Path) -> Path:
    """A home page with the finder and its data, without the pages that its answers lead to."""
    python("-m", "tests.benchmarks.finder_site", str(base), str(folder))
    return folder


@contextmanager
def _slow_page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    try:
        yield page
    finally:
        context.close()


_WATCH = """(selector) => {
    window.answered = new Promise((resolve) => {
        const seen = () => document.querySelector(selector)?.firstElementChild && resolve(performance.now());
        new MutationObserver(seen).observe(document.body, { childList: true, subtree: true });
    });
}"""


def _asked(page: Page, field: str, answers: str, text: str) -> float:
    page.evaluate(_WATCH, answers)
    ask = """async ([field, text]) => {
        const began = performance.now();
        const input = document.querySelector(field);
        input.focus();
        input.value = text;
        input.dispatchEvent(new Event("input", { bubbles: true }));
        input.dispatchEvent(new KeyboardEvent("keyup", { bubbles: true }));
        return (await window.answered) - began;
    }"""
    milliseconds: float = page.evaluate(ask, [field, text])
    return milliseconds


def _measured(browser: Browser, site: Path, ask: Callable[[Page], float], part: str) -> Cost:
    """What a question costs; of what was fetched that counts in whose address `part` stands."""
    with served(site) as root, _slow_page(browser) as page:
        fetched: list[str] = []
        page.context.on("request", lambda request: fetched.append(urlsplit(request.url).path.lstrip("/")))
        page.goto(root)
        page.wait_for_load_state("networkidle")
        milliseconds = ask(page)
        page.wait_for_timeout(500)
    files = [site / name for name in dict.fromkeys(fetched) if part in name]
    size = sum(len(gzip.compress(file.read_bytes(), 6)) for file in files if file.is_file())
    return Cost(kilobytes=size / 1000, requests=len(files), milliseconds=milliseconds)


def _least(costs: list[Cost]) -> Cost:
    least = min(each.milliseconds for each in costs)
    return Cost(kilobytes=costs[0].kilobytes, requests=costs[0].requests, milliseconds=least)


def _our_cost(browser: Browser, site: Path, text: str) -> Cost:
    ask = lambda page: _asked(page, "#finder", "#finder-results", text)  # noqa: E731
    return _least([_measured(browser, site, ask, "data/") for _ in range(RUNS)])


def _their_cost(browser: Browser, site: Path, text: str) -> Cost:
    ask = lambda page: _asked(page, ".md-search__input", ".md-search-result__list", text)  # noqa: E731
    return _measured(browser, site, ask, "search")


_OURS = """async ([scripts, data, texts]) => {
    const { find } = await import(`${scripts}core/finder.js`);
    const { Shelves } = await import(`${scripts}core/shelves.js`);
    const load = async (name) => (await fetch(new URL(name, data))).json();
    const shelves = new Shelves(await load("root.json"), load);
    const found = [];
    for (const text of texts) {
        const { sure, maybe, answers: some, later } = await find(text, shelves);
        const answers = [...some, ...(await later())].filter(({ sort }) => sort !== "none");
        found.push([sure + maybe > 0, answers.map(({ entry }) => entry.address.replace(/[/]$/, ""))]);
    }
    return found;
}"""


def _our_ranks(browser: Browser, root: str, asked: list[Query]) -> list[int | None]:
    page = browser.new_page()
    page.goto(root)
    scripts = page.evaluate("() => new URL('.', document.querySelector('script[src$=\"/finder.js\"]').src).href")
    data = page.evaluate("() => new URL(document.querySelector('[data-finder]').dataset.src, document.baseURI).href")
    found = page.evaluate(_OURS, [scripts, data, [query.text for query in asked]])
    page.close()
    return [
        rank(query, answers if known or query.kind != NONE else [])
        for query, (known, answers) in zip(asked, found, strict=True)
    ]


def _their_ranks(browser: Browser, root: str, asked: list[Query]) -> list[int | None]:
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto(root)
    _asked(page, ".md-search__input", ".md-search-result__list", "battery")
    found = [rank(query, _their_answers(page, root, query.text)) for query in asked]
    page.close()
    return found


def _their_answers(page: Page, root: str, text: str) -> list[str]:
    meta = page.locator(".md-search-result__meta")
    page.fill(".md-search__input", "")
    page.wait_for_function("() => document.querySelector('.md-search-result__meta').textContent.includes('Type to')")
    page.fill(".md-search__input", " ".join(text.split()))
    page.dispatch_event(".md-search__input", "keyup")
    try:
        page.wait_for_function(
            "() => !document.querySelector('.md-search-result__meta').textContent.includes('Type to')", timeout=1500
        )
    except Error:
        return []
    if "No matching" in meta.inner_text():
        return []
    # Longer lists are shown while one scrolls; no owner scrolls on past so many.
    hrefs: list[str] = page.eval_on_selector_all(".md-search-result__link", "all => all.map((each) => each.href)")
    paths = (urlsplit(href).path.strip("/") for href in hrefs)
    return list(dict.fromkeys(paths))


if __name__ == "__main__":
    main()
