"""What comes out of the printer: a fault on two sheets, and the note for the workshop alone, with what was found."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.support.places import Serve
from tests.support.plan_page import opened_note
from tests.support.watched import Watch

SAGS = "faults/voltage-sags-when-wet/"
A4 = {"format": "A4"}
SMALLEST_PT = 8.5
MOST_SHEETS = 4
"""Of the longest of all, with ten causes and eleven checks: no card is cut."""
MANY_SHEETS = 3
"""Of the longest ones: a caution stands whole where the hands are."""
TYPICAL_SHEETS = 2
LONGEST = 40
_PAGE = re.compile(rb"/Type\s*/Page\b")
_SMALL = """(least) => [...document.querySelectorAll(".entry *")]
    .filter((each) => each.checkVisibility({ visibilityProperty: true })
        && !each.matches(".visually-hidden, svg, svg *")
        && [...each.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim() !== "")
        && parseFloat(getComputedStyle(each).fontSize) * 0.75 < least - 0.01)
    .map((each) => `${each.className} ${each.textContent.slice(0, 40)}`)"""


def sheets(page: Page) -> int:
    """How many sheets of A4 it prints on."""
    return len(_PAGE.findall(page.pdf(format="A4")))


def faults(site: Path) -> list[str]:
    """Fault pages from the shortest to the longest by their text; redirects and withdrawn entries left out."""
    found = [page for page in (site / "faults").glob("*/index.html") if b"data-fault=" in page.read_bytes()]
    return [page.parent.name for page in sorted(found, key=lambda page: len(page.read_bytes()))]


def test_a_fault_prints_on_two_sheets_and_long_ones_on_three(
    demo_site: Path, serve: Serve, watch: Watch, thorough: bool
) -> None:
    every = faults(demo_site)
    # A page that does not fit is one of the longest; of the others some are printed.
    names = every if thorough else [*every[:-LONGEST:25], *every[-LONGEST:-4:12], *every[-4:]]
    with watch() as watched:
        taken = {}
        for name in names:
            watched.page.goto(f"{serve(demo_site)}faults/{name}/", wait_until="load")
            taken[name] = sheets(watched.page)
        assert watched.complaints == []
    assert len(every) > 60
    long = {name: number for name, number in taken.items() if number > TYPICAL_SHEETS}
    assert all(number <= MOST_SHEETS for number in long.values()), long
    assert set(long) <= set(every[-LONGEST:])
    assert sum(number > MANY_SHEETS for number in long.values()) <= len(every) // 20
    assert len(long) <= len(every) // 4, f"so many do not fit two sheets: {long}"


@pytest.mark.parametrize("place", [0, -1], ids=["shortest", "longest"])
def test_what_is_printed_can_be_read(place: int, demo_site: Path, serve: Serve, watch: Watch) -> None:
    name = faults(demo_site)[place]
    with watch() as watched:
        page = watched.page
        page.goto(f"{serve(demo_site)}faults/{name}/", wait_until="load")
        page.locator("[data-plan-ready]").wait_for()
        page.emulate_media(media="print")
        assert page.evaluate(_SMALL, SMALLEST_PT) == []
        for seen in ("#causes .bar", ".plan-all .check__title", "#fixes .cost", "#sources .sources", "#before p"):
            expect(page.locator(seen).first).to_be_visible()
        cautions = page.locator(".caution:not(.plan-panel *)")
        written = (demo_site / "faults" / name / "index.html").read_text(encoding="utf-8").count('class="caution"')
        # Those for all work stand in full above it, and not again where they are explained.
        again = page.locator("#before .caution").count()
        assert sum(each.is_visible() for each in cautions.all()) == written - again
        for hidden in (".band", ".index", "#cases", "#next", ".key", ".now", "#call-sheet"):
            expect(page.locator(hidden).first).to_be_hidden()


def test_without_scripts_the_note_prints_behind_the_page(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(java_script_enabled=False) as watched:
        page = watched.page
        page.goto(serve(demo_site) + SAGS)
        expect(page.locator("#call-sheet")).to_be_visible()
        assert page.locator("#call-sheet button").count() == 0
        page.emulate_media(media="print")
        expect(page.locator("#call-sheet .sheet__ask")).to_be_visible()
        assert sheets(page) <= MOST_SHEETS + 2


@pytest.mark.parametrize(("place", "most"), [(-2, 1), (-1, 2)], ids=["long", "longest"])
def test_the_note_for_the_workshop_prints_alone_on_one_sheet(
    place: int, most: int, demo_site: Path, serve: Serve, watch: Watch
) -> None:
    longest = faults(demo_site)[place]
    with watch() as watched:
        page = watched.page
        page.add_init_script("window.print = () => { window.printed = document.documentElement.dataset.print; }")
        page.goto(f"{serve(demo_site)}faults/{longest}/", wait_until="load")
        page.locator("[data-plan-ready]").wait_for()
        page.locator("#call-sheet summary").click()
        page.get_by_role("button", name="Print the note").click()
        assert page.evaluate("window.printed") == "workshop-note"
        page.emulate_media(media="print")
        expect(page.locator("#call-sheet .sheet__ask")).to_be_visible()
        expect(page.get_by_role("button", name="Print the note")).to_be_hidden()
        for hidden in ("h1", "#causes", "#fixes", ".foot"):
            expect(page.locator(hidden).first).to_be_hidden()
        assert page.evaluate(_SMALL, SMALLEST_PT) == []
        assert sheets(page) <= most
        # The pdf was printed, so that the page is whole again.
        page.emulate_media(media="screen")
        expect(page.locator("#causes")).to_be_visible()
        assert page.evaluate("document.documentElement.dataset.print") is None


def test_the_note_knows_the_bike_and_what_was_found(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch() as watched:
        page = watched.page
        page.add_init_script(
            """localStorage.setItem("bike", '{"model":"bittern-900","year":2007,"name":"Bittern 900"}');"""
        )
        page.goto(serve(demo_site) + SAGS, wait_until="load")
        page.locator("[data-plan-ready]").wait_for()
        sheet = opened_note(page)
        expect(sheet.locator("[data-sheet-bike]")).to_have_text("Bittern 900, 2007")
        # This entry's earth joint is one of 2003 to 2005.
        expect(sheet.locator('[data-sheet-cause="earth-corroded"]')).to_have_text("not on this bike")
        row = sheet.locator('[data-sheet-check="look-at-plug"] [data-sheet-found]')
        expect(row.locator(".blank")).to_have_count(1)
        page.locator(".now .answer-button--good").click()
        expect(row).to_have_text("good")
        expect(sheet.locator('[data-sheet-cause="corroded-plug"]')).to_have_text(
            re.compile(r"^\d+.% after these checks$")
        )
        page.get_by_role("button", name="Start again").click()
        expect(row.locator(".blank")).to_have_count(1)
        expect(sheet.locator('[data-sheet-cause="corroded-plug"]')).to_contain_text("of 17 cases")
        assert watched.complaints == []
        assert watched.foreign == []


def test_a_reading_and_a_fix_in_vain_stand_on_the_note(demo_site: Path, serve: Serve, watch: Watch) -> None:
    stored = """{"list":[{"check":"voltage-at-4000","result":"low","value":12.9},
        {"fix":"earth-corroded","result":"no-change"}],"absent":false,"opened":[],"any":true}"""
    with watch() as watched:
        page = watched.page
        page.add_init_script(f"localStorage.setItem('plan:voltage-sags-when-wet', `{stored}`);")
        page.goto(serve(demo_site) + SAGS, wait_until="load")
        page.locator("[data-plan-ready]").wait_for()
        sheet = opened_note(page)
        found = sheet.locator('[data-sheet-check="voltage-at-4000"] [data-sheet-found]')
        expect(found).to_have_text("too low, 12.9\u00a0V")
        expect(sheet.locator("[data-sheet-changed]")).to_have_text(
            "Corroded joint of battery earth and frame: did not help"
        )
        expect(sheet.locator('[data-sheet-cause="earth-corroded"]')).to_have_text("ruled out by these checks")


def test_what_is_ticked_and_written_in_the_note_is_kept_for_the_day(
    demo_site: Path, serve: Serve, watch: Watch
) -> None:
    with watch() as watched:
        page = watched.page

        def opened() -> tuple[Locator, Locator, Locator]:
            page.goto(f"{serve(demo_site)}{SAGS}?codes=P0562", wait_until="load")
            page.locator("[data-plan-ready]").wait_for()
            sheet = opened_note(page)
            read = sheet.locator('[data-sheet-code="P0562"] .tick').first
            return read, sheet.get_by_label("Starter turns slowly"), sheet.get_by_label("Odometer")

        read, slow, odometer = opened()
        expect(read).to_be_checked()
        read.uncheck()
        slow.check()
        odometer.fill("61 200 km")
        read, slow, odometer = opened()
        expect(slow).to_be_checked()
        expect(odometer).to_have_value("61 200 km")
        expect(read).not_to_be_checked()
        # On another day the bike is another one.
        page.evaluate(
            "() => localStorage.setItem('notes', localStorage.getItem('notes').replace(/\\d+-\\d+-\\d+/, '2020-02-29'))"
        )
        read, slow, odometer = opened()
        expect(read).to_be_checked()
        expect(slow).not_to_be_checked()
        expect(odometer).to_have_value("")
        assert watched.complaints == []
