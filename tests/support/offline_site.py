"""What a test of the service worker asks of a page."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import Page, expect

from tests.support.patience import eventually, paused

FAULT = "faults/battery-flat-overnight/"
OTHER = "faults/starter-only-clicks/"


_ACTIVE = """async (build) => {
    const worker = (await navigator.serviceWorker.getRegistration())?.active;
    const names = await caches.keys();
    return worker?.state === "activated" && names.some((name) => name.endsWith(`pages-${build}`))
        && names.filter((name) => name.includes(":pages-")).length === 1;
}"""


def wait_for_build(page: Page, site: Path | None = None) -> None:
    """Until the service worker of this build (or of the page's) has taken over, and no other one's pages are left."""
    build = page.locator('meta[name="build"]').get_attribute("content") if site is None else build_of(site)
    eventually(
        lambda: bool(page.evaluate(_ACTIVE, build)),
        lambda: f"the service worker of {build} did not take over",
        paused(page),
    )


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
    expect(status).to_contain_text("Kept on")
    return status.inner_text()


def wait_until_kept(page: Page, url: str) -> None:
    """Until the worker has kept this page: it does so after the page is there."""
    # Playwright's `wait_for_function` takes any promise for true.
    kept = "async (url) => Boolean(await caches.match(url))"
    eventually(lambda: bool(page.evaluate(kept, url)), lambda: f"{url} is not kept", paused(page))
