"""A handbook on paper and on the screen: as many sheets as it says, no card cut, readable, and printed when asked."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import expect

from tests.browser.test_paper import sheets
from tests.support.patience import eventually, paused
from tests.support.places import Serve
from tests.support.watched import Watch

BOOK = "models/curlew-1100/handbook/"
YEAR = "models/bittern-900/2007/"
WIDTH, HEIGHT = 703, 1013
"""What the margins leave of A4, in pixels of CSS: 210 − 2 × 12 mm and 297 − 14 − 15 mm, of 25.4 / 96 mm each."""
NEAR = 0.2
"""How far the reckoned size may be off."""


def test_the_largest_handbook_is_as_large_as_it_says_and_no_card_is_cut(
    demo_site: Path, serve: Serve, watch: Watch
) -> None:
    # The model with the most entries: of the three it has, beside another, 57.
    with watch(viewport={"width": WIDTH, "height": HEIGHT}) as watched:
        page = watched.page
        page.goto(serve(demo_site) + BOOK, wait_until="load")
        told = re.search(r"About (\d+) sheets of A4, about (\d+) kB", page.locator(".cover__size").inner_text())
        assert told is not None
        printed = sheets(page)
        assert abs(int(told[1]) - printed) <= NEAR * printed
        weight = (demo_site / BOOK / "index.html").stat().st_size / 1000
        assert abs(int(told[2]) - weight) <= NEAR * weight
        # Less than a sheet for each fault, with all that stands before and behind them.
        assert printed < page.locator(".card").count()
        page.emulate_media(media="print")
        heights = page.locator(".card").evaluate_all("(all) => all.map((each) => each.offsetHeight)")
        assert max(heights) < HEIGHT
        for hidden in (".band", ".crumbs", ".foot", ".book-print"):
            expect(page.locator(hidden).first).to_be_hidden()
        for seen in ("#cautions dt", ".cover__hands", ".cover__invented", ".card__stop", "#codes li", "#signs li"):
            expect(page.locator(seen).first).to_be_visible()
        assert watched.complaints == []


def test_a_model_year_has_its_handbook_printed_once(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch() as watched:
        page = watched.page
        page.add_init_script("window.printed = 0; window.print = () => { window.printed += 1; };")
        page.goto(serve(demo_site) + YEAR)
        page.get_by_role("link", name="Print it").click()
        eventually(lambda: page.evaluate("window.printed") == 1, pause=paused(page))
        assert page.url.endswith(f"{YEAR}handbook/")
        page.get_by_role("button", name="Print it").click()
        assert page.evaluate("window.printed") == 2
        assert watched.complaints == []
