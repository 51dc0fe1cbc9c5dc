"""The check plan on a fault page: what the owner has, can and rides, and what is kept of it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import expect

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.problem import Problem
from kbtools.index.answers import Index
from tests.support.demo_plans import plan_after
from tests.support.places import Serve
from tests.support.plan_page import (
    PHONE,
    SAGS,
    assert_same,
    chances,
    give,
    names_on,
    opened,
    ready,
)
from tests.support.watched import Watch


@pytest.fixture
def root(demo_site: Path, serve: Serve) -> str:
    return serve(demo_site)


def test_it_survives_a_reload(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    problem = problems[SAGS]
    first = plan_of(problem, Owner()).steps[0]
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        give(page, (f"check {first.id}", "good"))
        page.locator(".situation summary").click()
        page.get_by_label("Experienced").check()
        before = (page.locator(".now").inner_text(), chances(page))
        page.reload()
        ready(page)
        assert (page.locator(".now").inner_text(), chances(page)) == before
        expect(page.locator(".situation__now")).to_contain_text("experienced")
        # Skill and tools are the owner's, answers the fault's.
        other = next(each for each in problems if each != SAGS)
        page.goto(f"{root}faults/{other}/")
        ready(page)
        expect(page.locator(".situation__now")).to_contain_text("experienced")
        expect(page.locator(".plan-answers__row")).to_have_count(0)


RUBBISH = (
    "{",
    "null",
    "[]",
    '{"list": 5, "opened": "seat-off", "absent": "yes"}',
    '{"list": [null, 3, {"check": "no-such", "result": "good"}, {"check": "look-at-plug", "result": "high"},'
    ' {"fix": "__proto__", "result": "helped"}, {"check": "constructor", "result": "bad"}], "opened": ["no-such", 7]}',
)


def test_rubbish_in_the_storage_is_no_answer(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        for stored in RUBBISH:
            page.evaluate(
                "([answers, means]) => { localStorage.setItem('plan:voltage-sags-when-wet', answers);"
                " localStorage.setItem('plan-means', means); localStorage.setItem('bike', answers); }",
                [stored, stored],
            )
            page.reload()
            ready(page)
            assert_same(page, plan_of(problems[SAGS], Owner()), problems[SAGS], names_on(page))


def test_a_browser_without_storage_still_plans(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    problem = problems[SAGS]
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.add_init_script(
            "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('', 'SecurityError'); } });"
        )
        page.goto(f"{root}faults/{SAGS}/")
        ready(page)
        first = plan_of(problem, Owner()).steps[0]
        give(page, (f"check {first.id}", "good"))
        assert_same(page, plan_after(problem, [(f"check {first.id}", "good")], Owner()), problem, names_on(page))
        assert watched.complaints == []


def test_other_tools_skill_time_and_bike_make_another_plan(
    problems: dict[str, Problem], index: Index, root: str, watch: Watch
) -> None:
    problem = problems[SAGS]
    owner = Owner()
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        names = names_on(page)
        page.locator(".situation summary").click()
        page.get_by_label("Experienced").check()
        owner = replace(owner, skill="experienced")
        assert_same(page, plan_of(problem, owner), problem, names)
        expect(page.get_by_label("Experienced")).to_be_focused()
        page.fill("#plan-hour", "0")
        owner = replace(owner, own_time_value=0.0)
        assert_same(page, plan_of(problem, owner), problem, names)
        page.get_by_label(index.base.tools["multimeter"].name).uncheck()
        owner = replace(owner, lacks=frozenset({"multimeter"}))
        assert_same(page, plan_of(problem, owner), problem, names)
        page.get_by_label(f"Done already: {index.base.access['seat-off'].name}").check()
        owner = replace(owner, opened=frozenset({"seat-off"}))
        assert_same(page, plan_of(problem, owner), problem, names)
        page.locator("[data-plan]").get_by_label("My bike").select_option("curlew-1100")
        page.locator("#plan-year").select_option("2012")
        owner = replace(owner, bike=("curlew-1100", 2012))
        assert_same(page, plan_of(problem, owner), problem, names)
        # One of the causes does not exist there, and its card says so.
        gone = {cause.id for cause in problem.evidence.causes if not cause.exists_on(owner.bike)}
        assert gone
        for cause in gone:
            expect(page.locator(f"#cause-{cause}")).to_contain_text("Not on your bike.")
            expect(page.locator(f"#cause-{cause} .share")).to_be_hidden()
        page.locator("[data-plan]").get_by_label("My bike").select_option("")
        owner = replace(owner, bike=None)
        assert_same(page, plan_of(problem, owner), problem, names)


def test_a_fault_that_is_not_there_now_takes_its_checks_away(
    problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    differing = [
        fault
        for fault, problem in problems.items()
        if plan_of(problem, Owner()).steps[0] != plan_of(problem, Owner(absent=True)).steps[0]
    ]
    assert differing
    problem = problems[differing[0]]
    with opened(watch, root, problem.fault) as watched:
        page = watched.page
        page.locator(".situation summary").click()
        page.get_by_label("The fault is not there now").check()
        assert_same(page, plan_of(problem, Owner(absent=True)), problem, names_on(page))
        expect(page.locator(".plan-change")).not_to_be_empty()


def test_my_bike_that_the_entry_does_not_name_changes_nothing(
    problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        page.evaluate('localStorage.setItem(\'bike\', \'{"model": "dunlin-650", "year": 1999, "name": "Dunlin 650"}\')')
        page.reload()
        ready(page)
        assert_same(page, plan_of(problems[SAGS], Owner()), problems[SAGS], names_on(page))
        page.locator(".situation summary").click()
        expect(page.locator(".situation__form")).to_contain_text("does not name your Dunlin 650, 1999")


def test_a_tick_that_the_dealer_has_confirmed_makes_the_cause_free_and_is_kept(
    watch: Watch, root: str, problems: dict[str, Problem]
) -> None:
    fault = "front-sprocket-loose"
    with opened(watch, root, fault) as watched:
        page = watched.page
        names = names_on(page)
        box = page.locator(".plan-riding__tick input").first
        box.check()
        covered = frozenset({"nut-of-the-recall"})
        wanted = plan_of(problems[fault], Owner(covered=covered))
        assert_same(page, wanted, problems[fault], names)
        page.reload()
        ready(page)
        expect(page.locator(".plan-riding__tick input").first).to_be_checked()
        assert_same(page, wanted, problems[fault], names)
        page.locator(".plan-riding__tick input").first.uncheck()
        assert_same(page, plan_of(problems[fault], Owner()), problems[fault], names)
