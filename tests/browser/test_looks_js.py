"""What was looked at before any plan: `core/plan-shared.js`, `look-store.js` and `first-looks.js` in Chromium."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.support.places import ROOT

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
READING = {"id": "rest", "outcomes": {"low": ["worn"], "high": []}, "good": [12.4, 12.9]}
LOOK = {"id": "clamps", "outcomes": {"bad": ["loose"]}, "good": None}
OWN = {"id": "own", "outcomes": {"bad": ["worn"]}, "good": None}
PROBLEM = {"fault": "f", "checks": [READING, LOOK, OWN], "fixes": [], "access": []}
SHARED = {"rest": [["dunlin", [1998, 1999], [12.6, 13.0]], ["dunlin", [1999, 2000], [12.0, 12.2]]], "clamps": []}
NOTHING = {"list": [], "absent": False, "opened": [], "covered": [], "any": False}
BIKE = '{"model": "dunlin", "name": "Dunlin", "year": 1999}'


@pytest.fixture
def page(browser: Browser, serve: Callable[..., str]) -> Iterator[Page]:
    opened = browser.new_page()
    opened.clock.set_fixed_time(datetime(2026, 3, 14, 23, 30))  # noqa: DTZ001 (the owner's clock, as a browser has it)
    opened.goto(f"{serve(SCRIPTS)}core/plan-shared.js")
    yield opened
    opened.close()


def run(page: Page, module: str, body: str, given: object = None) -> Any:
    return page.evaluate(f"async (input) => {{ const own = await import('/{module}'); {body} }}", given)


def test_the_range_is_the_first_that_fits_the_bike(page: Page) -> None:
    body = """return [null, ["dunlin", 1998], ["dunlin", 1999], ["dunlin", 2000], ["bittern", 1999]].map((bike) =>
        own.forBike(input.problem, input.shared, bike).checks.map(({ good }) => good));"""
    found = run(page, "core/plan-shared.js", body, {"problem": PROBLEM, "shared": SHARED})
    assert [each[0] for each in found] == [[12.4, 12.9], [12.6, 13.0], [12.6, 13.0], [12.0, 12.2], [12.4, 12.9]]
    assert {str(each[1:]) for each in found} == {"[None, None]"}


def test_looks_count_where_the_plan_uses_them_and_has_no_answer_of_its_own(page: Page) -> None:
    body = """const after = (answers, looks) => own.withLooks(answers, looks, input.problem, input.shared).list;
        const answered = {...input.nothing, list: [{check: "rest", result: "good", value: 12.7}]};
        const taken = own.withLook(answered, "rest", null, input.problem, input.shared).list;
        const anew = own.withLook(answered, "rest", "low", input.problem, input.shared).list;
        return [after(input.nothing, {clamps: "bad", rest: "low"}), after(answered, {rest: "low", clamps: "good"}),
            after(input.nothing, {own: "bad", elsewhere: "bad", clamps: "high"}), taken, anew];"""
    both, kept, none, taken, anew = run(
        page, "core/plan-shared.js", body, {"problem": PROBLEM, "shared": SHARED, "nothing": NOTHING}
    )
    assert {(each["check"], each["result"]) for each in both} == {("clamps", "bad"), ("rest", "low")}
    assert {(each["check"], each["result"], each["value"]) for each in kept} == {
        ("rest", "good", 12.7),
        ("clamps", "good", None),
    }
    # Not shared, not in this plan, and a result that the check does not have.
    assert none == []
    assert taken == []
    assert [(each["check"], each["result"], each["value"]) for each in anew] == [("rest", "low", None)]


def test_what_was_found_holds_for_this_bike_and_this_day(page: Page) -> None:
    page.evaluate("(bike) => localStorage.setItem('bike', bike)", BIKE)
    run(
        page, "look-store.js", "own.keepLook('clamps', 'bad'); own.keepLook('rest', 'low'); own.keepLook('rest', null);"
    )
    read = "return own.looksOfToday();"
    assert run(page, "look-store.js", read) == {"clamps": "bad"}
    page.evaluate("(bike) => localStorage.setItem('bike', bike)", BIKE.replace("1999", "2000"))
    assert run(page, "look-store.js", read) == {}
    page.evaluate("(bike) => localStorage.setItem('bike', bike)", BIKE)
    assert run(page, "look-store.js", read) == {"clamps": "bad"}
    # Half an hour before midnight by the owner's own clock, wherever that is; then it is another day.
    page.clock.set_fixed_time(datetime(2026, 3, 15, 0, 5))  # noqa: DTZ001
    assert run(page, "look-store.js", read) == {}


@pytest.mark.parametrize(
    "stored",
    [
        "{",
        "7",
        "null",
        '{"day": "2026-03-14", "bike": "", "results": 7}',
        '{"day": "2026-03-14", "bike": "", "results": {"a": "x"}}',
    ],
)
def test_rubbish_in_the_storage_is_no_look(stored: str, page: Page) -> None:
    page.evaluate("(stored) => localStorage.setItem('looks', stored)", stored)
    assert run(page, "look-store.js", "return own.looksOfToday();") == {}


def test_where_storage_is_forbidden_a_look_holds_for_the_page(page: Page) -> None:
    page.evaluate(
        "() => Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('', 'Security'); } })"
    )
    body = "own.keepLook('clamps', 'bad'); return own.looksOfToday();"
    assert run(page, "look-store.js", body) == {"clamps": "bad"}


ROWS = """<p data-looks-told></p><ul data-looks>
    <li data-look="clamps" data-results="good bad"><span id="look-clamps">Turn each clamp</span></li>
    <li data-look="rest" data-results="good low high"><span id="look-rest">Meter on the posts</span></li></ul>"""


def test_a_look_is_answered_once_and_taken_back_by_the_same_button(page: Page) -> None:
    page.set_content(f"<div>{ROWS}</div>")
    run(
        page,
        "first-looks.js",
        "window.heard = []; document.addEventListener('lookchange', (e) => heard.push(e.detail));",
    )
    pressed = page.locator("[aria-pressed=true]")
    clamps = page.get_by_role("group", name="Turn each clamp")
    assert clamps.get_by_role("button").all_inner_texts() == ["Good", "Not good"]
    assert pressed.count() == 0
    clamps.get_by_role("button", name="Not good").click()
    assert pressed.all_inner_texts() == ["Not good"]
    assert page.locator("[data-looks-told]").inner_text() == "1 of 2 looked at today."
    clamps.get_by_role("button", name="Good", exact=True).click()
    assert pressed.all_inner_texts() == ["Good"]
    clamps.get_by_role("button", name="Good", exact=True).click()
    assert pressed.count() == 0
    assert page.locator("[data-looks-told]").inner_text() == ""
    assert page.evaluate("() => heard.map(({ result }) => result)") == ["bad", "good", None]


def test_another_bike_has_not_been_looked_at(page: Page) -> None:
    page.set_content(f"<div>{ROWS}</div>")
    run(page, "first-looks.js", "")
    page.get_by_role("button", name="Too low").click()
    assert page.locator("[data-looked]").count() == 1
    run(page, "bike.js", "own.keepBike(JSON.parse(input));", BIKE)
    assert page.locator("[data-looked]").count() == 0
    page.get_by_role("button", name="Not good").click()
    assert page.locator("[data-looks-told]").inner_text() == "1 of 2 looked at today, on the Dunlin, 1999."
