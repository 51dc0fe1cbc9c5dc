"""The README's pictures, made anew: `python -m tests.pictures` builds the demo and photographs it in Chromium."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from playwright.sync_api import Browser, Page, sync_playwright

from tests.support.places import ROOT
from tests.support.site_server import served

FOLDER = ROOT / ".github" / "pictures"
"""Where the README looks for them: no page of the site shows them, so they are not among its files."""
PHONE = (390, 780)
"""Width and height of the window, CSS pixels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One picture."""

    name: str
    """Of the file, without `.png`."""
    page: str
    """Address from the site's root."""
    scheme: Literal["light", "dark"] = "light"
    """Light or dark."""
    typed: str = ""
    """What is typed into the finder."""
    at: str = ""
    """Selector of what the window is scrolled to."""
    pressed: tuple[str, ...] = ()
    """Names of the buttons that are pressed one after the other."""


PICTURES = (
    Picture(name="finder", page="", typed="p 0562"),
    Picture(name="ride", page="faults/voltage-sags-when-wet/"),
    Picture(name="causes", page="faults/voltage-sags-when-wet/#causes", at="#causes", scheme="dark"),
    Picture(name="plan", page="faults/voltage-sags-when-wet/", at="[data-plan]", pressed=("Good",)),
)


def main() -> None:
    """Build the demo, photograph it, and put the pictures in the place of the old ones."""
    browser_path = shutil.which("chromium")
    if browser_path is None:
        raise SystemExit("Install Debian's chromium first.")
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        command = [sys.executable, "-m", "kbtools", "build", "--kb", "kb", "--site-dir", str(site)]
        subprocess.run(command, cwd=ROOT, check=True)
        FOLDER.mkdir(parents=True, exist_ok=True)
        with served(site) as address, sync_playwright() as playwright:
            flags = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
            browser = playwright.chromium.launch(executable_path=browser_path, args=flags)
            for picture in PICTURES:
                photograph(browser, address, picture)
            browser.close()


def photograph(browser: Browser, address: str, picture: Picture) -> None:
    """Make one picture."""
    width, height = PHONE
    context = browser.new_context(
        viewport={"width": width, "height": height}, color_scheme=picture.scheme, service_workers="block"
    )
    page = context.new_page()
    page.goto(f"{address}{picture.page}")
    page.wait_for_load_state("networkidle")
    arrange(page, picture)
    page.screenshot(path=FOLDER / f"{picture.name}.png")
    context.close()


def arrange(page: Page, picture: Picture) -> None:
    """Do on the page what the picture shows."""
    if picture.typed:
        page.fill("#finder", picture.typed)
        page.wait_for_selector("#finder-results a")
    for name in picture.pressed:
        page.get_by_role("button", name=name).first.click()
    if picture.at:
        page.locator(picture.at).first.evaluate(
            "(each) => scrollTo(0, each.getBoundingClientRect().top + scrollY - 12)"
        )
    page.wait_for_timeout(500)


if __name__ == "__main__":
    main()
