"""What a reader waits for on a slow telephone that has nothing of the site yet, and what is fetched for it.

    python -m tests.benchmarks.reader [--site FOLDER] [--kb FOLDER] [--loads N] [--quick]

prints a row of figures as JSON for each page: of a site that was built (for one of another commit), or else of the
base, which is the demo's unless another is named. The processor of the page is slowed down four times, each answer
takes 400 ms and 50 kB come in a second. The host packs with gzip and speaks HTTP/1.1, six answers at once: many small
files cost more so than with HTTP/2. No service worker: it is there from the second page on. Of the times the median of
several loads stands; bytes are those of one.
"""

from __future__ import annotations

import argparse
import json
import re
import shutil
import statistics
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from playwright.sync_api import Browser, CDPSession, Page, sync_playwright

from tests.support.packed_host import Answer, PackedSite, packed
from tests.support.places import ROOT

from .process import python

SLOWER: Final = 4
LATENCY: Final = 400
"""Milliseconds until an answer begins."""
RATE: Final = 50_000
"""Bytes a second."""
LOADS: Final = 5
PHONE: Final = {"width": 390, "height": 844}
KINDS: Final = {".html": "HTML", ".css": "CSS", ".js": "JS", ".json": "data"}
CODE: Final = re.compile(r"codes/([pbcu][0-9a-f]{4})/")
"""Address of a code as readers show them, which is typed into the finder."""
LONG: Final = 120_000
"""Milliseconds after which a page is given up."""

WATCH: Final = """
window.shifted = 0;
new PerformanceObserver((list) => {
  for (const each of list.getEntries()) { window.shifted += each.hadRecentInput ? 0 : each.value; }
}).observe({ type: "layout-shift", buffered: true });
window.seen = {};
const look = () => {
  // No frame is made before the styles are there: what lies on the page in one can be read.
  for (const [name, selector] of Object.entries(SELECTORS)) {
    const place = document.querySelector(selector);
    if (!(name in window.seen) && place && place.getClientRects().length) {
      requestAnimationFrame(() => { window.seen[name] ??= performance.now(); });
    }
  }
  requestAnimationFrame(look);
};
requestAnimationFrame(look);
"""
"""Notes layout shift, and when what a reader came for is there: the end of the frame that first shows it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A page that is measured."""

    name: str
    """What it is, for the table."""
    address: str
    """From the site's root."""
    selectors: dict[str, str]
    """By name what a reader waits for."""
    code: str | None = None
    """A code to type into the finder; None: it is not asked."""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--site", type=Path, help="a site that was built")
    parser.add_argument("--kb", type=Path, default=ROOT / "kb", help="a base to build, if no site is named")
    parser.add_argument("--loads", type=int, default=LOADS, help="loads of each page, of which the median counts")
    parser.add_argument("--quick", action="store_true", help="one load without the slow telephone")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="kbtools-reader-") as folder:
        site = chosen.site or _built(chosen.kb, Path(folder) / "site")
        for row in rows(site, 1 if chosen.quick else chosen.loads, slow=not chosen.quick):
            print(json.dumps(row), flush=True)


def rows(site: Path, loads: int, *, slow: bool) -> Iterator[dict[str, Any]]:
    """Figures of each page."""
    arguments = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
    found = PackedSite(folder=site)
    with sync_playwright() as playwright, packed(found) as root:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=arguments)
        for asked in pages(site):
            each = [_load(browser, root, found, asked, slow=slow) for _ in range(loads)]
            bytes_by_kind = each[0].pop("bytes")
            times = {name: statistics.median(load[name] for load in each) for name in each[0]}
            yield {"page": asked.name, "address": asked.address, "bytes": bytes_by_kind, "times": times}
        browser.close()


def pages(site: Path) -> list[Asked]:
    """The heaviest fault page and one in the middle, the heaviest of a code and of a model, and the home page."""
    faults, codes = _by_weight(site, "faults"), _by_weight(site, "codes")
    code = next(each[1].upper() for each in map(CODE.fullmatch, reversed(codes)) if each)
    models = [model for model in _by_weight(site, "models") if model.count("/") == 2]
    ride = {"verdict": "[data-verdict]", "first step": "[data-first-step]"}
    plan = {**ride, "plan that answers": "[data-plan-ready] .plan-panel"}
    return [
        Asked(name="fault, heaviest", address=faults[-1], selectors=plan, code=code),
        Asked(name="fault, in the middle", address=faults[len(faults) // 2], selectors=plan),
        Asked(name="code", address=codes[-1], selectors=ride),
        Asked(name="home", address="", selectors={"field": "#finder"}, code=code),
        Asked(name="model", address=models[-1], selectors={"first fault": ".row__link"}),
    ]


def _by_weight(site: Path, kind: str) -> list[str]:
    """Addresses of the pages of a kind, redirects and lists left out, the lightest first."""
    files = [page for page in site.glob(f"{kind}/*/index.html") if b'http-equiv="refresh"' not in page.read_bytes()]
    files.sort(key=lambda page: (page.stat().st_size, page))
    return [f"{kind}/{page.parent.name}/" for page in files]


def _load(browser: Browser, root: str, site: PackedSite, asked: Asked, *, slow: bool) -> dict[str, Any]:
    """One load with an empty store: seconds by name, and under `bytes` what came by kind."""
    context = browser.new_context(viewport=PHONE, service_workers="block")  # type: ignore[arg-type]
    page = context.new_page()
    page.set_default_timeout(LONG)
    page.add_init_script(WATCH.replace("SELECTORS", json.dumps(asked.selectors)))
    if slow:
        _slow_down(context.new_cdp_session(page))
    site.answers.clear()
    page.goto(root + asked.address, wait_until="load")
    page.wait_for_function(f"Object.keys(window.seen).length === {len(asked.selectors)}")
    page.wait_for_load_state("networkidle")
    found: dict[str, Any] = {"bytes": _by_kind(site.answers)}
    found["first paint"] = page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime") / 1000
    found |= {name: at / 1000 for name, at in page.evaluate("window.seen").items()}
    found["all loaded"] = page.evaluate("performance.getEntriesByType('navigation')[0].loadEventEnd") / 1000
    found["layout shift"] = page.evaluate("window.shifted")
    if asked.code is not None:
        found["answer in the finder"] = _finder(page, asked.code)
    context.close()
    return found


def _slow_down(session: CDPSession) -> None:
    session.send("Network.enable")
    line = {"offline": False, "latency": LATENCY, "downloadThroughput": RATE, "uploadThroughput": RATE}
    session.send("Network.emulateNetworkConditions", line)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})


def _finder(page: Page, code: str) -> float:
    """Seconds from the last letter of a code, four of them typed a second, to the frame in which an answer has it."""
    milliseconds: float = page.evaluate(
        """async (code) => {
          const field = document.querySelector("#finder");
          field.focus();
          for (const letter of code) {
            await new Promise((go) => setTimeout(go, 250));
            field.value += letter;
            field.dispatchEvent(new Event("input", { bubbles: true }));
          }
          const started = performance.now();
          const answers = () => [...document.querySelectorAll("#finder-results a")];
          while (!answers().some(({ textContent }) => textContent.includes(code))) {
            await new Promise(requestAnimationFrame);
          }
          return performance.now() - started;
        }""",
        code,
    )
    return milliseconds / 1000


def _by_kind(answers: list[Answer]) -> dict[str, list[int]]:
    """By kind, and all together: bytes as they are and as they came, and answers."""
    found = {kind: [0, 0, 0] for kind in (*KINDS.values(), "other", "all")}
    for answer in answers:
        for kind in (KINDS.get(Path(answer.path).suffix, "other"), "all"):
            found[kind] = [a + b for a, b in zip(found[kind], (answer.raw, answer.sent, 1), strict=True)]
    return {kind: each for kind, each in found.items() if each[2]}


def _built(base: Path, site: Path) -> Path:
    python("-m", "kbtools", "build", "--kb", str(base), "--site-dir", str(site), epoch=str(int(time.time())))
    return site


if __name__ == "__main__":
    main()
