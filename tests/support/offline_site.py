"""A site in two builds, and what a test of its service worker asks of a page."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.support.places import ROOT

FAULT = "faults/battery-flat-overnight/"
OTHER = "faults/starter-only-clicks/"
OLD_WHY = "An old reason, since until tonight nothing gets hot, loose, slippery or louder than usual."
NEW_WHY = "A new reason, since until tomorrow nothing gets hot, loose, slippery or louder than usual."


def two_builds(folder: Path) -> tuple[Path, Path]:
    """The demo twice: in the second build every fault has another reason in its ride advice."""
    kb = folder / "kb"
    shutil.copytree(ROOT / "kb", kb)
    _say_why(kb, OLD_WHY)
    first = _build(kb, folder / "first")
    _say_why(kb, NEW_WHY)
    # This one changes the finder's data too.
    other = kb / "faults" / "starting" / "starter-only-clicks.yml"
    other.write_text(other.read_text("utf-8").replace("title: Starter", "title: The starter"), "utf-8")
    return first, _build(kb, folder / "second")


def _build(kb: Path, site: Path) -> Path:
    command = [sys.executable, "-m", "kbtools", "build", "--kb", str(kb), "--site-dir", str(site)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return site


def _say_why(kb: Path, why: str) -> None:
    changed = 0
    for path in kb.glob("faults/*/*.yml"):
        text = path.read_text("utf-8")
        new = re.sub(r"(?m)^(  why:).*(?:\n    .*)*$", rf"\1 {why}", text, count=1)
        changed += new != text
        path.write_text(new, "utf-8")
    assert changed > 20


_ACTIVE = """async (build) => {
    const worker = (await navigator.serviceWorker.getRegistration())?.active;
    const names = await caches.keys();
    return worker?.state === "activated" && names.some((name) => name.endsWith(`pages-${build}`))
        && names.filter((name) => name.includes(":pages-")).length === 1;
}"""


def wait_for_build(page: Page, site: Path | None = None) -> None:
    """Until the service worker of this build (or of the page's) has taken over, and no other one's pages are left."""
    build = page.locator('meta[name="build"]').get_attribute("content") if site is None else build_of(site)
    page.wait_for_function("async () => Boolean(await navigator.serviceWorker.getRegistration())")
    for _ in range(150):
        if page.evaluate(_ACTIVE, build):
            return
        page.wait_for_timeout(100)
    pytest.fail(f"the service worker of {build} did not take over")


def build_of(site: Path) -> str:
    found = re.search(r'<meta name="build" content="([0-9a-f]+)">', (site / "index.html").read_text("utf-8"))
    assert found
    return found[1]


def shown_build(page: Page) -> str | None:
    return page.locator('meta[name="build"]').get_attribute("content")


def choose_bike(page: Page) -> None:
    page.locator("[data-bike-choose]:visible").first.click()
    page.select_option("[data-bike-model]", label="Bittern 900")
    page.select_option("[data-bike-year]", "2007")
    page.get_by_role("button", name="This is mine").click()


def keep(page: Page, root: str) -> None:
    page.goto(f"{root}my-bike/")
    choose_bike(page)
    expect(page.locator("[data-my-bike-size]")).to_contain_text(
        re.compile(r"\d+ faults and \d+ codes, about [\d.]+ MB")
    )
    page.get_by_role("button", name="Keep on this device").click()


def kept_text(page: Page) -> str:
    status = page.locator("[data-my-bike-status]")
    expect(status).to_contain_text("Kept on", timeout=20_000)
    return status.inner_text()


def wait_until_kept(page: Page, url: str) -> None:
    """Until the worker has kept this page: it does so after the page is there."""
    page.wait_for_function("async (url) => Boolean(await caches.match(url))", arg=url)
