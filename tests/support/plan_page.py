"""The check plan on a fault page, as tests use it: opened, answered, and held to the plan that Python reckons."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Locator, Page, expect

from kbtools.checkplan import Plan
from kbtools.checkplan.problem import Problem
from kbtools.wording.plan import WORDS, money_words, no_difference, percent_words
from tests.support.demo_plans import Answer, Way, shortest_way
from tests.support.watched import Watch, Watched

PHONE = {"width": 390, "height": 844}
SAGS = "voltage-sags-when-wet"
"""A fault of the demo whose plan has checks of every kind."""


@contextmanager
def opened(watch: Watch, root: str, fault: str, **options: Any) -> Iterator[Watched]:
    """The page of a fault with its plan ready; at the end nothing may have gone wrong on it."""
    with watch(**{"viewport": PHONE, **options}) as watched:
        watched.page.goto(f"{root}faults/{fault}/")
        ready(watched.page)
        yield watched
        assert watched.complaints == []
        assert watched.foreign == []


def ready(page: Page) -> None:
    expect(page.locator("[data-plan-ready]")).to_have_count(1)


def opened_note(page: Page) -> Locator:
    """The note for the workshop, in sight: it is filled in only then."""
    note = page.locator(".workshop-note")
    fold = note.locator("summary")
    if fold.count():
        fold.click()
    else:
        note.scroll_into_view_if_needed()
    expect(note.get_by_role("button", name="Print the note")).to_be_visible()
    return note


def give(page: Page, answer: Answer) -> None:
    """Press the answer of the step that is shown."""
    what, result = answer
    if what.startswith("fix "):
        page.get_by_role("button", name="Did not help").click()
    else:
        page.locator(f".now .answer-button--{result}").click()


def follow(page: Page, way: Way) -> None:
    for answer in way.answers:
        give(page, answer)


def chances(page: Page) -> dict[str, str]:
    """Cause by its words → its share or that it is ruled out, as the page shows them."""
    names = page.locator(".chance__name").all_text_contents()
    return dict(zip(names, page.locator(".chance__part").all_text_contents(), strict=True))


def assert_same(page: Page, plan: Plan, problem: Problem, names: dict[str, str]) -> None:
    """The page shows the plan that Python reckons: the step, the expected cost, all shares."""
    step = plan.steps[0]
    if step.kind == "check":
        assert page.locator(".now__title").inner_text() == names[f"check {step.id}"]
    elif step.kind == "hand_over":
        assert page.locator(".now__title").inner_text() == WORDS["hand_over"]
    else:
        assert page.locator(".now__title").inner_text() == names[f"cause {step.id}"]
    assert plan.expected_cost is not None
    if step.kind != "hand_over":
        shown = page.locator(".plan-costs__row--cost_plan dd .figure").text_content()
        assert shown == money_words(plan.expected_cost, problem.currency)
        # Where a mistake can hurt somebody, nothing is compared.
        critical = json.loads(page.locator("script.plan-data").text_content() or "")["critical"]
        assert page.locator(".plan-costs__row--cost_hand_over").count() == (not critical)
        alike = step.kind != "fix" and no_difference(plan.expected_cost, plan.likeliest_first or 0.0) and not critical
        assert (WORDS["no_difference"] in page.locator(".plan-side__note").all_text_contents()) == alike
        card = f"#check-{step.id}" if step.kind == "check" else f"#fix-cause-{step.id}"
        where = page.locator(f"{card} > .access-where").all_text_contents()
        assert page.locator(".now .access-where").all_text_contents() == where
    expected = {
        names[f"cause {share.id}"]: percent_words(plan.chances[share.id]) if share.id in plan.chances else "ruled out"
        for share in plan.causes
    }
    shared = {share.id for share in plan.causes}
    elsewhere = [cause.id for cause in problem.evidence.causes if cause.id not in shared]
    assert chances(page) == expected | {names[f"cause {each}"]: "not on your bike" for each in elsewhere}


def names_on(page: Page) -> dict[str, str]:
    data = json.loads(page.locator("script.plan-data").text_content() or "")
    checks = {f"check {each}": name for each, name in data["names"]["checks"].items()}
    causes = {f"cause {each}": name for each, name in data["names"]["causes"].items()}
    return {**checks, **causes, "cause unlisted": WORDS["unlisted"]}


def contradicting(problems: dict[str, Problem]) -> tuple[str, list[Answer]]:
    """A home fix that follows from a check, and does not help: no cause is left."""
    way = shortest_way(problems, lambda way: way.step.kind == "fix" and way.step.where == "home")
    return way.fault, [*way.answers, (f"fix {way.step.id}", "no-change")]


def sideways(page: Page) -> int:
    found: int = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
    return found
