"""A browser beside an editor: a page that has not changed is left alone, one that has comes back where it was."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.support.live_desk import Desk, running
from tests.support.patience import LONG

WITHOUT_RELOAD = "window.mark === 'the same'"


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    """A site with the pages `a/` and `b/`."""
    desk = Desk(tmp_path)
    (desk.kb / "b.txt").write_text("Page B")
    with running(desk, word="Page A"):
        yield desk


@pytest.fixture
def page(desk: Desk, browser: Browser) -> Iterator[Page]:
    """The page `b/`, scrolled, unfolded, with something in its field."""
    page = browser.new_page(viewport={"width": 400, "height": 600})
    page.set_default_timeout(1000 * LONG)
    page.goto(f"{desk.server.url}b/")
    page.get_by_text("More").click()
    page.locator("#finder").fill("p 0562")
    page.evaluate("scrollTo(0, 1500)")
    page.evaluate("window.mark = 'the same'")
    yield page
    page.close()


def is_where_it_was(page: Page) -> bool:
    return bool(
        page.evaluate(
            "Math.abs(scrollY - 1500) < 3 && document.querySelector('details').open"
            " && finder.value === 'p 0562' && document.activeElement === finder"
        )
    )


def test_a_page_is_loaded_anew_only_if_it_changed_and_stays_where_it_was(desk: Desk, page: Page) -> None:
    shown = page.locator(".kbtools-panel")
    (desk.kb / "a.txt").write_text("Page A, edited")
    desk.wait(lambda: "edited" in desk.get("a/")[2])
    # A mistake in the other page shows on this one; it would not if the page had missed what came before.
    (desk.kb / "a.txt").write_text("Page A !error")
    expect(shown).to_contain_text("Not rebuilt: 1 error", timeout=1000 * LONG)
    assert page.evaluate(WITHOUT_RELOAD)
    assert is_where_it_was(page)
    shown.get_by_text("Not rebuilt").click()
    page.locator("#finder").evaluate("field => field.focus({ preventScroll: true })")
    (desk.kb / "a.txt").write_text("Page A !error !error")
    expect(shown).to_contain_text("!error !error", timeout=1000 * LONG)
    assert not shown.locator("ol").is_visible(), "what a reader has folded stays folded"
    (desk.kb / "a.txt").write_text("Page A, mended")
    expect(shown).to_have_count(0, timeout=1000 * LONG)
    assert page.evaluate(WITHOUT_RELOAD)
    assert is_where_it_was(page)

    (desk.kb / "b.txt").write_text("Page B, edited")
    expect(page.locator("h1")).to_have_text("Page B, edited", timeout=1000 * LONG)
    page.wait_for_load_state("load")
    assert not page.evaluate(WITHOUT_RELOAD)
    assert is_where_it_was(page)


def test_a_page_that_vanishes_says_so_and_is_not_taken_from_the_reader(desk: Desk, page: Page) -> None:
    shown = page.locator(".kbtools-panel")
    (desk.kb / "b.txt").rename(desk.kb / "c.txt")
    expect(shown).to_contain_text("No page stands here any more", timeout=1000 * LONG)
    assert page.evaluate(WITHOUT_RELOAD)
    assert page.locator("h1").text_content() == "Page B"
    status, _, other = desk.get("b/")
    assert status == 404
    assert "No page stands here any more" in other
    assert "No page stands here any more" not in desk.get("never-there/")[2]
    (desk.kb / "c.txt").rename(desk.kb / "b.txt")
    expect(shown).to_have_count(0, timeout=1000 * LONG)
    assert page.evaluate(WITHOUT_RELOAD)
    assert is_where_it_was(page)


def test_a_page_that_is_not_loaded_anew_still_finds_its_data(desk: Desk) -> None:
    (address,) = re.findall(r'data-src="\.\./([^"]+)"', desk.get("b/")[2])
    status, _, data = desk.get(address)
    assert status == 200
    (desk.kb / "a.txt").write_text("Page A, edited")
    desk.wait(lambda: "edited" in desk.get("a/")[2])
    assert address not in desk.get("b/")[2]
    assert desk.get(address)[::2] == (200, data)
    assert desk.get("data/finder-000000000000/root.json")[0] == 404
