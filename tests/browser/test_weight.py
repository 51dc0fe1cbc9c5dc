"""What the page of a fault or a code weighs on a phone that has nothing of it yet, and that nothing on it jumps."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Response

from tests.support.patience import LONG

MOST = 95_000
"""Bytes with gzip, everything that the page fetches by itself, the document among it."""
PHONE = {"width": 390, "height": 844}
NO_SHIFT = 0.02
"""Layout shift as browsers score it (web.dev: below 0.1 is good; a font that settles gives about a hundredth)."""


def heaviest(site: Path) -> list[str]:
    """The two fault pages with the longest documents, and the page of a code with the longest."""

    def longest(kind: str) -> list[str]:
        pages = sorted(site.glob(f"{kind}/*/index.html"), key=lambda page: page.stat().st_size, reverse=True)
        return [f"{kind}/{page.parent.name}/" for page in pages]

    return [*longest("faults")[:2], *longest("codes")[:1]]


@pytest.fixture(scope="module")
def measured(browser: Browser, serve: Callable[..., str], demo_site: Path) -> dict[str, tuple[int, float, list[str]]]:
    """By page: bytes, layout shift, and the requests that fetched something twice."""
    address = serve(demo_site)
    found = {}
    for page in heaviest(demo_site):
        # A worker fetches for later visits; that is not what this one waits for.
        context = browser.new_context(viewport=PHONE, service_workers="block")  # type: ignore[arg-type]
        tab = context.new_page()
        tab.set_default_timeout(1000 * LONG)
        bodies: dict[str, bytes] = {}
        twice: list[str] = []
        tab.add_init_script(
            "window.shifted = 0; new PerformanceObserver((list) => { for (const each of list.getEntries())"
            " window.shifted += each.hadRecentInput ? 0 : each.value; })"
            ".observe({ type: 'layout-shift', buffered: true });"
        )
        tab.on("response", noter(bodies, twice))
        tab.goto(f"{address}{page}")
        tab.wait_for_load_state("networkidle")
        tab.wait_for_timeout(300)
        weight = sum(len(gzip.compress(body, 9)) for body in bodies.values())
        found[page] = (weight, float(tab.evaluate("window.shifted")), twice)
        context.close()
    return found


def noter(bodies: dict[str, bytes], twice: list[str]) -> Callable[[Response], None]:
    def note(answer: Response) -> None:
        if answer.url in bodies:
            twice.append(answer.url)
        bodies[answer.url] = answer.body()

    return note


def test_a_page_weighs_little(measured: dict[str, tuple[int, float, list[str]]]) -> None:
    assert {page: weight for page, (weight, _, _) in measured.items() if weight > MOST} == {}


def test_nothing_is_fetched_twice(measured: dict[str, tuple[int, float, list[str]]]) -> None:
    assert {page: twice for page, (_, _, twice) in measured.items() if twice} == {}


def test_nothing_jumps(measured: dict[str, tuple[int, float, list[str]]]) -> None:
    assert {page: shift for page, (_, shift, _) in measured.items() if shift > NO_SHIFT} == {}
