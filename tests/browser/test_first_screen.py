"""What an owner sees without a touch: on all fault pages the verdict and the first step, and how long the page is."""

from __future__ import annotations

import statistics
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from tests.support.places import Serve
from tests.support.watched import Watch

SCREEN = {"width": 390, "height": 700}
TYPING = {"width": 390, "height": 430}
"""The same telephone with its keyboard on the screen."""
LONGEST = 9000
"""CSS pixels, folded; half of that in the middle of all pages."""
LEVELS = {"do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction", "not-known"}
SAGS = "faults/voltage-sags-when-wet/"
BIKE = """localStorage.setItem("bike", '{"model":"%s","year":%d,"name":"%s"}');"""
_FIRST = """() => {
    const seen = (selector) => document.querySelector(selector)?.getBoundingClientRect();
    const verdict = document.querySelector("[data-verdict]");
    const [first, title] = [seen("[data-first-step]"), seen("h1")];
    return {
        level: verdict?.dataset.verdict,
        verdict: verdict?.getBoundingClientRect().bottom,
        step: first?.bottom,
        words: document.querySelector("[data-first-step]")?.innerText ?? "",
        title: title?.bottom,
        height: document.documentElement.scrollHeight,
        sideways: document.documentElement.scrollWidth > innerWidth,
        ids: [...document.querySelectorAll("main")].some((each) => each.innerText.includes("in a report:")),
    };
}"""


def faults(site: Path) -> list[str]:
    """Fault pages; redirects and withdrawn entries left out."""
    found = sorted((site / "faults").glob("*/index.html"))
    return [page.parent.name for page in found if b"data-fault=" in page.read_bytes()]


@pytest.mark.parametrize("bike", [False, True], ids=["any bike", "my bike"])
def test_verdict_and_first_step_stand_on_the_first_screen(
    bike: bool, thorough: bool, demo_site: Path, serve: Serve, watch: Watch
) -> None:
    names = faults(demo_site)
    # A page that does not fit has a long title or a long text above its first step: by length the longest, and some.
    by_length = sorted(names, key=len)
    names = names if thorough else [*by_length[:-8:5], *by_length[-8:]]
    # The words about a bike take room too: with one, the longest titles are looked at.
    names = names if not bike else by_length[-12 if thorough else -6 :]
    found: dict[str, dict[str, Any]] = {}
    with watch(viewport=SCREEN) as watched:
        if bike:
            watched.page.add_init_script(BIKE % ("curlew-1100", 2014, "Curlew 1100"))
        for name in names:
            watched.page.goto(f"{serve(demo_site)}faults/{name}/", wait_until="load")
            found[name] = watched.page.evaluate(_FIRST)
        assert watched.complaints == []
    assert {name: each["level"] for name, each in found.items() if each["level"] not in LEVELS} == {}
    for part in ("title", "verdict", "step"):
        below = {name: each[part] for name, each in found.items() if not each[part] or each[part] > SCREEN["height"]}
        assert below == {}, part
    assert {name for name, each in found.items() if each["sideways"] or each["ids"]} == set()
    # Every first step that is a check says how long it takes.
    timed = sum("min" in each["words"] or "h" in each["words"].split() for each in found.values())
    assert timed >= len(found) * 0.8
    heights = [each["height"] for each in found.values()]
    assert max(heights) <= LONGEST
    assert statistics.median(heights) <= LONGEST / 2


def test_a_part_opens_by_its_link_and_on_paper_all_are_open(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=SCREEN) as watched:
        page = watched.page
        page.goto(f"{serve(demo_site)}{SAGS}#causes", wait_until="load")
        expect(page.locator("#causes .cause").first).to_be_visible()
        expect(page.locator("#fixes .fix").first).to_be_hidden()
        page.locator("#causes a", has_text="How to mend it").first.click()
        expect(page.locator("#fixes .fix").first).to_be_visible()
        expect(page.locator("#sources .sources")).to_be_hidden()
        page.emulate_media(media="print")
        expect(page.locator("#sources .sources")).to_be_visible()
        page.emulate_media(media="screen")
        expect(page.locator("#sources .sources")).to_be_hidden()
        assert watched.complaints == []


def test_without_scripts_every_part_can_be_opened(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=SCREEN, java_script_enabled=False) as watched:
        page = watched.page
        page.goto(serve(demo_site) + SAGS)
        expect(page.locator("[data-verdict]")).to_be_visible()
        for part in ("causes", "fixes", "codes", "before", "cases", "sources", "next"):
            page.locator(f"#{part} > details > summary").click()
            expect(page.locator(f"#{part} .fold__body")).to_be_visible()
        page.locator(".plan-all > summary").click()
        expect(page.locator(".plan-all .check__title").first).to_be_visible()


def test_the_strip_says_what_a_page_means_for_my_bike(demo_site: Path, serve: Serve, watch: Watch) -> None:
    """The entry names the Bittern 900 of 2003 to 2008 and the Curlew 1100 from 2010 on; its bulletin the Bittern."""
    root = serve(demo_site)
    with watch(viewport=SCREEN) as watched:
        page = watched.page
        page.goto(root + SAGS, wait_until="load")
        expect(page.locator("[data-strip]")).to_be_hidden()
        page.evaluate(BIKE % ("bittern-900", 2007, "Bittern 900"))
        page.goto(root + SAGS, wait_until="load")
        strip = page.locator("[data-strip]")
        expect(strip).to_contain_text("Your Bittern 900, 2007: ")
        expect(strip).to_contain_text("Ask a dealer about bulletin 2009-011 before you pay.")
        expect(page.locator("[data-strip-page]")).to_have_attribute("href", f"{root}models/bittern-900/2007/")
        # Not forgotten a page later, and the rows of others are folded.
        page.goto(f"{root}systems/charging/", wait_until="load")
        expect(strip).to_contain_text("Your Bittern 900, 2007: ")
        others = page.locator(".rows-more").first
        expect(others).to_be_visible()
        page.evaluate(BIKE % ("dunlin-650", 2001, "Dunlin 650"))
        page.goto(root + SAGS, wait_until="load")
        expect(strip).to_contain_text("not concerned")
        # A bike that the base has no more: said, and not dropped.
        page.evaluate(BIKE % ("heron-400", 2001, "Heron 400"))
        page.goto(f"{root}systems/charging/", wait_until="load")
        expect(strip).to_contain_text("the club's list has no such bike any more")
        assert page.evaluate("localStorage.getItem('bike')") is not None
        page.locator("[data-bike-drop]").click()
        expect(strip).to_be_hidden()
        expect(page.locator(".row--others")).to_have_count(0)
        assert watched.complaints == []


def test_by_the_road_the_plan_has_what_lies_under_the_seat(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=SCREEN) as watched:
        page = watched.page
        page.goto(serve(demo_site) + SAGS, wait_until="load")
        page.locator("[data-plan-ready]").wait_for()
        page.get_by_role("button", name="By the road").click()
        road = page.locator(".place__road")
        expect(road).to_contain_text("First off the road")
        # The club's line, as kb/club.yml has it.
        expect(road.locator("a")).to_have_attribute("href", "tel:+490000000000")
        expect(page.locator(".situation__now")).to_contain_text("by the road")
        page.reload(wait_until="load")
        expect(road).to_be_visible()
        page.evaluate('localStorage.setItem(\'place\', \'{"day":"2001-01-01","road":true}\')')
        page.reload(wait_until="load")
        expect(road).to_be_hidden()
        assert watched.complaints == []


@pytest.mark.parametrize("place", ["", SAGS], ids=["home", "header"])
def test_answers_stand_above_the_keyboard_and_back_keeps_the_question(
    place: str, demo_site: Path, serve: Serve, watch: Watch
) -> None:
    with watch(viewport=TYPING) as watched:
        page = watched.page
        page.goto(serve(demo_site) + place, wait_until="load")
        page.click("#finder")
        page.keyboard.type("p0562")
        answer = page.locator("#finder-results a").first
        expect(answer).to_be_visible()
        assert page.locator("#finder").bounding_box()["y"] < 60
        assert answer.locator(".answer__title").bounding_box()["y"] + 20 < TYPING["height"]
        page.keyboard.press("Escape")
        expect(page.locator("#finder-results")).to_be_hidden()
        expect(page.locator("#finder")).to_have_value("p0562")
        page.keyboard.press("ArrowDown")
        expect(answer).to_be_visible()
        answer.click()
        page.wait_for_url("**/codes/p0562/")
        page.go_back()
        expect(page.locator("#finder")).to_have_value("p0562")
        expect(page.locator("#finder-results a").first).to_be_visible()


_TORN = """() => {
    const torn = [];
    const walk = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
    const range = document.createRange();
    const top = (node, at) => {
        range.setStart(node, at);
        range.setEnd(node, at + 1);
        return Math.round(range.getBoundingClientRect().top);
    };
    while (walk.nextNode()) {
        const node = walk.currentNode;
        const above = node.parentElement;
        if (!above.checkVisibility() || above.closest("svg, script, .visually-hidden")) continue;
        for (const { 0: word, index } of node.data.matchAll(/\\p{L}{2,}/gu)) {
            const tops = [...word].map((_, at) => top(node, index + at));
            const lines = tops.map((each) => tops.filter((other) => other === each).length);
            if (lines.includes(1)) torn.push(word);
        }
    }
    return torn;
}"""
"""Words of which a letter stands alone on a line."""


def test_large_text_on_the_narrowest_screen_leaves_room_for_the_page(
    demo_site: Path, serve: Serve, watch: Watch
) -> None:
    with watch(viewport={"width": 320, "height": 640}) as watched:
        page = watched.page
        page.add_init_script(BIKE % ("curlew-1100", 2015, "Curlew 1100"))
        page.add_init_script(
            "addEventListener('DOMContentLoaded', () => { document.documentElement.style.fontSize = '200%'; });"
        )
        pages = (
            "",
            SAGS,
            "codes/p0562/",
            "codes/",
            "figures/",
            "several/?codes=P0562,P0217",
            "models/bittern-900/2007/",
        )
        for address in pages:
            page.goto(serve(demo_site) + address, wait_until="load")
            if "codes=" in address or address == SAGS:
                page.locator("[data-plan-ready]").wait_for()
            assert page.locator(".band").bounding_box()["height"] < 300
            assert page.evaluate("document.documentElement.scrollWidth") <= 320
            assert page.evaluate(_TORN) == [], address
        page.set_viewport_size(SCREEN)
        page.evaluate("document.documentElement.style.fontSize = ''")
        assert page.locator(".band").bounding_box()["height"] < 70
