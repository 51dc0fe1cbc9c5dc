"""Report how it ended: from a plan or an address to a finished text, what is kept, and what must not get out."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from kbtools.reading.source import SourceFile
from tests.support.demo_read import demo_with
from tests.support.places import Serve
from tests.support.plan_page import PHONE, SAGS, ready
from tests.support.watched import Watch, Watched

PLAN = {
    "list": [
        {"check": "voltage-at-4000", "result": "low", "value": 12.9},
        {"check": "look-at-plug", "result": "bad", "value": None},
        {"fix": "corroded-plug", "result": "helped"},
    ]
}
BIKE = {"model": "bittern-900", "name": "Bittern 900", "year": 2006}
ASKED = f"report/?fault={SAGS}&model=bittern-900&year=2006"


@pytest.fixture
def root(demo_site: Path, serve: Serve) -> str:
    return serve(demo_site)


@contextmanager
def report(watch: Watch, root: str, address: str = ASKED, **options: Any) -> Iterator[Watched]:
    """The page for a report, ready; at the end nothing may have gone wrong on it."""
    with watch(**options) as watched:
        watched.page.goto(f"{root}{address}")
        begun(watched.page)
        yield watched
        assert watched.complaints == []
        assert watched.foreign == []


def begun(page: Page) -> None:
    expect(page.locator("[data-report-form]")).to_be_visible()


def text(page: Page) -> str:
    return page.locator("#report-text").text_content() or ""


def case_of(page: Page) -> Any:
    """The case that the text is, as the demo reads it beside its own files."""
    lines = text(page).splitlines()
    assert (lines[0], lines[-1]) == ("--- report", "--- end")
    path = "cases/2026/bittern-900-9999.yml"
    reading = demo_with(SourceFile(path=path, data="\n".join(lines[1:-1]).encode()))
    assert [each for each in reading.findings if each.path == path] == []
    return reading.base.cases["bittern-900-9999"]


def test_from_a_finished_plan_to_a_finished_report_in_six_taps(root: str, watch: Watch) -> None:
    with watch(viewport=PHONE, has_touch=True) as watched:
        page = watched.page
        page.goto(f"{root}faults/{SAGS}/")
        page.evaluate(
            "(known) => Object.entries(known).forEach(([key, value]) => localStorage.setItem(key, value))",
            {f"plan:{SAGS}": json.dumps(PLAN), "bike": json.dumps(BIKE)},
        )
        page.reload()
        ready(page)
        taps = 0

        def tap(words: str) -> None:
            nonlocal taps
            taps += 1
            page.get_by_text(words, exact=True).locator("visible=true").first.tap()

        tap("Report how it ended")
        begun(page)
        assert page.locator("[data-step]:visible").count() == 1
        page.fill("[name=odometer]", "61200")
        tap("Next")
        tap("Next")
        tap("Next")
        page.fill("[name=after]", "900")
        tap("The rest is filled in: to the report")
        expect(page.locator("#report-text")).to_be_visible()
        assert taps <= 6
        case = case_of(page)
        assert (case.vehicle.model, case.vehicle.year, case.vehicle.odometer.value) == ("bittern-900", 2006, 61200)
        assert [(each.check or each.fix, each.result) for each in case.tried] == [
            ("voltage-at-4000", "low"),
            ("look-at-plug", "bad"),
            ("corroded-plug", "helped"),
        ]
        assert case.tried[0].reading == "12.9 V"
        assert (case.outcome.state, case.outcome.cause, case.outcome.after.value) == ("solved", "corroded-plug", 900)
        # The browser's own Back leads to the question before, and what was answered is still there.
        page.go_back()
        expect(page.locator("[name=after]")).to_have_value("900")
        expect(page.locator("[name=after]")).to_be_visible()
        assert watched.complaints == []
        assert watched.foreign == []


def test_it_says_what_is_open_and_holds_back_what_leads_to_a_person(root: str, watch: Watch) -> None:
    with report(watch, root) as watched:
        page = watched.page
        assert text(page) == ""
        expect(page.locator("[data-report-open] li")).to_have_count(2)
        page.get_by_role("button", name="Odometer").click()
        expect(page.locator("[name=odometer]")).to_be_focused()
        page.fill("[name=odometer]", "38 000 miles")
        page.check("[name=state][value=open]")
        assert case_of(page).outcome.state == "open"
        page.fill("[name=note]", "Ask Rosalind Okafor on 0171 5550123.")
        expect(page.locator("[data-field=note] mark")).to_have_count(2)
        assert text(page) == ""
        expect(page.locator("[data-report-ways] a")).to_have_count(0)
        page.fill("[name=note]", "Nothing found so far.")
        assert case_of(page).outcome.note == "Nothing found so far."
        page.check("[name=state][value=solved]")
        expect(page.locator("[data-report-open] li")).to_have_count(1)
        page.check("[name=cause][value=unlisted]")
        assert case_of(page).outcome.cause == "unlisted"
        page.get_by_label("Another one, or nobody knows yet").check()
        assert case_of(page).fault is None


HISTORY = """() => {
    localStorage.removeItem("reports");
    for (const [key, id] of [["bike:b0a0a0a", "b0a0a0a"], ["bike:b1x2y3z", "b1x2y3z"], ["bike", "b1x2y3z"]]) {
        const bike = { model: "bittern-900", year: 2006, name: "Bittern 900", id };
        localStorage.setItem(key, JSON.stringify(key === "bike" ? bike : { ...bike, call: "", unit: "km" }));
    }
}"""
"""A history of two bikes of one model year, of which the second is my bike."""
LATER = """() => localStorage.setItem("entry:b1x2y3z:e9zzzzzzz12345",
    JSON.stringify({ id: "e9zzzzzzz12345", day: "2999-01-05", odometer: 62800, codes: [] }))"""
"""On a day after that of the report, whenever the test runs."""


def test_each_way_says_what_others_see_and_what_was_sent_is_remembered(root: str, watch: Watch) -> None:
    waits = "A report waits to be sent"
    with report(watch, root) as watched:
        page = watched.page
        page.evaluate(HISTORY)
        page.reload()
        begun(page)
        page.fill("[name=odometer]", "61200")
        page.check("[name=state][value=solved]")
        page.check("[name=cause][value=corroded-plug]")
        page.fill("[name=after]", "100")
        mail = page.get_by_role("link", name="Write a mail").get_attribute("href") or ""
        assert mail.startswith("mailto:reports@ostrel-circle.example?subject=Report")
        assert "---%20report%0D%0A" in mail
        issue = page.get_by_role("link", name="Open an issue").get_attribute("href") or ""
        assert issue.startswith("https://git.example/ostrel-circle/lore/issues/new?title=Report")
        seen = page.locator(".way-out__seen").all_text_contents()
        assert any("sees your address" in each for each in seen)
        assert any("account's name" in each for each in seen)
        before = case_of(page)
        page.reload()
        begun(page)
        assert case_of(page) == before
        page.goto(root)
        page.get_by_role("link", name=waits).click()
        begun(page)
        page.get_by_role("button", name="I have sent it").click()
        assert before.vehicle.bike == "b1x2y3z", "the one that is chosen, of two bikes of one model year"
        page.goto(f"{root}my-bike/")
        expect(page.locator("[data-history]").first).to_contain_text("Reported to the club on")
        expect(page.locator("[data-history]").first).to_contain_text("61 200 km")
        page.goto(root)
        expect(page.locator("#content h1")).to_be_visible()
        expect(page.locator(".report-line")).to_have_count(0)
        # Some 1,600 km on it is asked once; the answer is of the same bike, day and fault.
        page.evaluate(LATER)
        page.evaluate(
            "() => { const all = JSON.parse(localStorage.getItem('reports')); all.sent[0].on = '2026-01-01';"
            " localStorage.setItem('reports', JSON.stringify(all)); }"
        )
        page.reload()
        page.get_by_role("link", name="did the mending hold?").click()
        begun(page)
        page.fill("[name=after]", "1500")
        after = case_of(page)
        assert (after.vehicle.bike, after.seen, after.fault) == (before.vehicle.bike, before.seen, before.fault)
        assert (before.outcome.after.value, after.outcome.after.value) == (100, 1500)
        page.get_by_role("button", name="I have sent it").click()
        page.goto(root)
        expect(page.locator("#content h1")).to_be_visible()
        expect(page.locator(".report-line")).to_have_count(0)


def test_a_correction_and_a_new_fault_have_headings_of_their_own(root: str, watch: Watch) -> None:
    with report(watch, root, f"{ASKED}&kind=wrong") as watched:
        page = watched.page
        page.check("[name=part][value=costs]")
        page.fill("[name=wrong]", "The kit costs twice as much now.")
        assert text(page).splitlines() == [
            "--- correction",
            f"fault: {SAGS}",
            "part: costs",
            "wrong: The kit costs twice as much now.",
            "--- end",
        ]
        page.goto(f"{root}report/?kind=new&model=bittern-900&year=2006")
        begun(page)
        page.fill("[name=odometer]", "5000")
        page.fill("[name=story]", "It hums: at once, when cold.\n\nNothing helped.")
        lines = text(page).splitlines()
        assert lines[0] == "--- new fault"
        assert 'story: "It hums: at once, when cold.\\n\\nNothing helped."' in lines


DATA = "**/data/finder-*/root.json"
PAGE = f"**/faults/{SAGS}/"


def lost_once(page: Page, address: str) -> list[str]:
    """Lose the first request of this address on the way; gives all that were made."""
    asked: list[str] = []

    def lose(route: Route) -> None:
        asked.append(route.request.url)
        if len(asked) == 1:
            route.abort()
        else:
            route.continue_()

    page.route(address, lose)
    return asked


def test_what_is_lost_once_on_the_way_is_asked_for_again(root: str, watch: Watch) -> None:
    with watch() as watched:
        page = watched.page
        data, fault = lost_once(page, DATA), lost_once(page, PAGE)
        page.goto(f"{root}{ASKED}")
        begun(page)
        assert (len(data), len(fault)) == (2, 2)
        expect(page.locator(f"[name=fault][value={SAGS}]")).to_be_checked()
        expect(page.locator("[data-report-status]")).to_be_empty()


def test_what_does_not_come_is_told_with_a_button_and_nothing_typed_is_lost(root: str, watch: Watch) -> None:
    with watch() as watched:
        page = watched.page
        again = page.get_by_role("button", name="Try again")
        page.route(DATA, lambda route: route.abort())
        page.goto(f"{root}{ASKED}")
        expect(page.locator("[data-report-status]")).to_contain_text("list of models did not arrive")
        page.unroute(DATA)
        again.click()
        begun(page)
        page.locator("[data-report-tried-fold] summary").click()
        page.select_option("[name='check look-at-plug']", "bad")
        # The next time the entry's page is lost: what it asks for has no place then, and is kept all the same.
        page.route(PAGE, lambda route: route.abort())
        page.reload()
        begun(page)
        expect(page.locator("[data-report-status]")).to_contain_text("entry's page did not arrive")
        page.fill("[name=odometer]", "61200")
        page.check("[name=state][value=open]")
        page.unroute(PAGE)
        again.click()
        expect(page.locator("[data-report-status]")).not_to_contain_text("did not arrive")
        expect(page.locator(f"[name=fault][value={SAGS}]")).to_be_checked()
        case = case_of(page)
        assert (case.fault, case.vehicle.odometer.value, case.outcome.state) == (SAGS, 61200, "open")
        assert [(each.check, each.result) for each in case.tried] == [("look-at-plug", "bad")]


def test_a_script_that_is_lost_leaves_a_word_and_a_button(root: str, watch: Watch) -> None:
    with watch() as watched:
        page = watched.page
        # The browser asks twice by itself: in the head of the page, and once it needs it.
        page.route("**/js/report-send.js", lambda route: route.abort())
        page.goto(f"{root}{ASKED}")
        expect(page.locator("[data-kept-note]")).to_contain_text("A part of this page did not arrive")
        page.unroute("**/js/report-send.js")
        page.get_by_role("button", name="Load the page again").click()
        begun(page)
        expect(page.locator("[data-kept-note]")).to_be_hidden()


ODD = (
    "report/?fault=regulator-runs-hot",
    "report/?fault=no-such-fault&model=no-such&year=1&codes=%00",
    "report/?fault=../../x&model=<b>&year=NaN",
    "report/?fault=__proto__&model=__proto__&year=__proto__&cause=__proto__&plan=__proto__&again=1",
    "report/?fault=charging-drops-in-rain&model=bittern-900&year=2006",
    "report/",
)
FORBIDDEN = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('', 'SecurityError'); } })"
FULL = "Storage.prototype.setItem = () => { throw new DOMException('', 'QuotaExceededError'); }"


def test_odd_addresses_and_storages_still_make_a_report(root: str, watch: Watch) -> None:
    for address in ODD:
        with watch() as watched:
            page = watched.page
            page.goto(f"{root}{address}")
            begun(page)
            page.select_option("[name=model]", "bittern-900")
            page.select_option("[name=year]", "2006")
            page.fill("[name=odometer]", "61200")
            page.check("[name=state][value=open]")
            case = case_of(page)
            assert case.fault == (SAGS if "charging-drops" in address else None), address
            # The page of a fault that is not there is asked for, and nothing else goes wrong.
            assert [each for each in watched.complaints if "404" not in each] == []
    for broken in (FORBIDDEN, FULL):
        with watch() as watched:
            page = watched.page
            page.add_init_script(broken)
            page.goto(f"{root}{ASKED}")
            begun(page)
            page.fill("[name=odometer]", "61200")
            page.check("[name=state][value=open]")
            assert case_of(page).fault == SAGS
            expect(page.locator("[data-report-status]")).to_contain_text("keeps nothing")
            assert watched.complaints == []


def test_every_step_of_a_telephone_is_plain_to_axe(root: str, watch: Watch) -> None:
    with report(watch, root, viewport={"width": 320, "height": 700}, color_scheme="dark") as watched:
        page = watched.page
        page.fill("[name=odometer]", "61200")
        for at in range(5):
            assert watched.axe() == [], at
            wide = page.evaluate("() => document.documentElement.scrollWidth > document.documentElement.clientWidth")
            assert not wide, at
            if at == 3:
                page.check("[name=state][value=returned]")
                page.check("[name=cause][value=unlisted]")
            page.locator("[data-now] [data-report-next]").click()
        # What is something else must be said: the step is not left before.
        expect(page.locator("[name=note]")).to_be_focused()
        page.fill("[name=note]", "Peter Brammer knows.")
        assert watched.axe() == []
        page.fill("[name=note]", "A chafed wire.")
        page.locator("[data-now] [data-report-next]").click()
        expect(page.locator("#report-text")).to_be_visible()
        assert watched.axe() == []


def test_without_scripts_it_says_what_to_write_and_where_to_send_it(root: str, watch: Watch) -> None:
    with watch(java_script_enabled=False) as watched:
        watched.page.goto(f"{root}{ASKED}")
        main = watched.page.locator("main")
        expect(main.locator("noscript pre")).to_contain_text("--- report")
        expect(main.locator("noscript pre")).to_contain_text("--- end")
        expect(main.get_by_role("link", name="reports@ostrel-circle.example")).to_be_visible()
        expect(watched.page.locator("[data-report-form]")).to_be_hidden()
