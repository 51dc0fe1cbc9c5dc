"""A picture of each kind of page, to be looked at: `python -m tests.picture_book FOLDER [NAME…]`.

It builds the demo, or takes the built site that `--site FOLDER` names, and photographs each kind on a telephone and a
desk, in light and dark, at twice the size of text, and with a keyboard on the screen. Nobody compares them but eyes.
"""

from __future__ import annotations

import argparse
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from playwright.sync_api import Browser, ViewportSize, sync_playwright

from tests.support.places import ROOT
from tests.support.site_server import served

FAULT = "faults/voltage-sags-when-wet/"
PAGES = {
    "home": "",
    "fault": FAULT,
    "fault-stop": "faults/front-lever-comes-back/",
    "code": "codes/p0562/",
    "codes": "codes/",
    "several": "several/?codes=P0562,P0230",
    "model": "models/bittern-900/",
    "model-year": "models/bittern-900/2007/",
    "values": "models/curlew-1100/2019/values/",
    "system": "systems/charging/",
    "component": "components/regulator-rectifier/",
    "my-bike": "my-bike/",
    "report": "report/?fault=voltage-sags-when-wet&model=bittern-900&year=2006",
    "rule": "rules/kb402/",
    "figures": "figures/",
    "coverage": "coverage/",
    "new": "new/",
    "hand": "safety/",
    "withdrawn": "faults/regulator-runs-hot/",
}
"""Kinds of pages, by address from the site's root."""
LARGE = "document.documentElement.style.fontSize = '200%'"
BIKE = """localStorage.setItem("bike", '{"model":"bittern-900","year":2007,"name":"Bittern 900"}')"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How a page is looked at."""

    name: str
    """Behind the page's name in that of the file."""
    size: ViewportSize
    """Of the window, CSS pixels."""
    scheme: Literal["light", "dark"] = "light"
    """Light or dark."""
    whole: bool = False
    """The whole page, not the first screen alone."""
    large: bool = False
    """Text at twice its size."""
    typed: str = ""
    """What is typed into the finder."""
    bike: bool = False
    """With a bike chosen."""


WAYS = (
    Way(name="390", size={"width": 390, "height": 700}),
    Way(name="390-whole-dark", size={"width": 390, "height": 700}, scheme="dark", whole=True),
    Way(name="390-bike", size={"width": 390, "height": 700}, bike=True),
    Way(name="1280", size={"width": 1280, "height": 800}),
    Way(name="1280-dark-bike", size={"width": 1280, "height": 800}, scheme="dark", bike=True),
    Way(name="320-large", size={"width": 320, "height": 640}, large=True),
    Way(name="keyboard", size={"width": 390, "height": 430}, typed="battery flat"),
)


def main() -> None:
    """Photograph the pages into a folder."""
    asked = argparse.ArgumentParser(prog="python -m tests.picture_book", description=__doc__)
    asked.add_argument("folder", type=Path)
    asked.add_argument("names", nargs="*", help="of pages; none named: all")
    asked.add_argument("--site", type=Path, help="a built site, so that none is built")
    asked.add_argument("--way", action="append", help="names of ways to look; none named: all")
    told = asked.parse_intermixed_args()
    chromium = shutil.which("chromium")
    if chromium is None:
        raise SystemExit("Install Debian's chromium first.")
    told.folder.mkdir(parents=True, exist_ok=True)
    with site(told.site) as folder, served(folder) as address, sync_playwright() as playwright:
        flags = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
        browser = playwright.chromium.launch(executable_path=chromium, args=flags)
        for way in WAYS:
            if not told.way or way.name in told.way:
                photograph(browser, address, way, told.folder, told.names or list(PAGES))
        browser.close()


@contextmanager
def site(built: Path | None) -> Iterator[Path]:
    """The built site, or the demo built for this."""
    if built is not None:
        yield built
        return
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, "-m", "kbtools", "build", "--kb", "kb", "--site-dir", f"{folder}/site"]
        subprocess.run(command, cwd=ROOT, check=True)
        yield Path(folder) / "site"


def photograph(browser: Browser, address: str, way: Way, folder: Path, names: list[str]) -> None:
    """Make the pictures of one way to look."""
    context = browser.new_context(
        viewport=way.size, color_scheme=way.scheme, service_workers="block", reduced_motion="reduce"
    )
    page = context.new_page()
    if way.bike:
        page.add_init_script(BIKE)
    for name in names:
        page.goto(f"{address}{PAGES[name]}")
        page.wait_for_load_state("networkidle")
        if way.large:
            page.evaluate(LARGE)
        if way.typed:
            page.click("#finder")
            page.fill("#finder", way.typed)
            page.wait_for_selector("#finder-results a")
        page.wait_for_timeout(200)
        page.screenshot(path=folder / f"{name}-{way.name}.png", full_page=way.whole)
    context.close()


if __name__ == "__main__":
    main()
