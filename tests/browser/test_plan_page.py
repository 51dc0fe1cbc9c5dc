"""The check plan on a fault page as an owner meets it: answers, readings, undo.

What must come next, and what it costs, is what Python reckons for the same answers; the plans themselves are held to
lists of every decision tree elsewhere.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from playwright.sync_api import expect

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.problem import Problem
from kbtools.wording.plan import WORDS
from tests.support.demo_plans import plan_after, shortest_way
from tests.support.places import Serve
from tests.support.plan_page import (
    SAGS,
    assert_same,
    chances,
    contradicting,
    follow,
    give,
    names_on,
    opened,
)
from tests.support.watched import Watch


@pytest.fixture
def root(demo_site: Path, serve: Serve) -> str:
    return serve(demo_site)


def test_after_every_answer_the_page_shows_what_python_reckons(
    problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    chance = random.Random(5)
    walks = 0
    # What comes off is somewhere on the bike: of the last one an entry says where.
    for fault in [*sorted(problems)[::16], "purge-valve-stuck"]:
        with opened(watch, root, fault) as watched:
            page, answers = watched.page, []
            names = names_on(page)
            plan = plan_of(problems[fault], Owner())
            while plan.steps:
                assert_same(page, plan, problems[fault], names)
                step = plan.steps[0]
                if step.kind == "check":
                    result = chance.choice([each for each, then in step.outcomes.items() if then] + ["good", "unclear"])
                    answers.append((f"check {step.id}", result))
                elif step.kind == "trial_fix":
                    answers.append((f"fix {step.id}", "no-change"))
                else:
                    break
                give(page, answers[-1])
                plan = plan_after(problems[fault], answers, Owner())
                walks += 1
    assert walks > 10


def test_a_cause_is_found_mended_at_home_and_done(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    way = shortest_way(
        problems, lambda way: way.step.kind == "fix" and way.step.where == "home" and not way.step.inferred
    )
    with opened(watch, root, way.fault) as watched:
        page = watched.page
        follow(page, way)
        cause = names_on(page)[f"cause {way.step.id}"]
        expect(page.locator(".now__kicker")).to_have_text("Found")
        expect(page.locator(".now__title")).to_have_text(cause)
        expect(page.locator(".plan-change")).to_have_text(f"It is: {cause}. Mend it yourself.")
        # What to do stands there in the entry's own words.
        own = page.locator(f"#fix-cause-{way.step.id} .fix__do").text_content() or ""
        assert own.strip()
        expect(page.locator(".now .fix__do")).to_have_text(own.strip())
        page.get_by_role("button", name="It helped").click()
        expect(page.locator(".now__kicker")).to_have_text("Mended")
        expect(page.locator(".plan-answers__row")).to_have_count(len(way.answers) + 1)


def test_a_cause_that_only_is_left_over_is_to_be_confirmed(
    problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    way = shortest_way(problems, lambda way: way.step.kind == "fix" and way.step.inferred)
    with opened(watch, root, way.fault) as watched:
        follow(watched.page, way)
        expect(watched.page.locator(".now__note")).to_have_text(WORDS["inferred"])


def test_handing_over_says_why_and_what_to_tell(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    way = shortest_way(problems, lambda way: way.step.kind == "hand_over" and len(way.answers) > 1)
    with opened(watch, root, way.fault) as watched:
        page = watched.page
        title = page.locator("h1").inner_text()
        follow(page, way)
        expect(page.locator(".plan-change")).to_contain_text("call the workshop: ")
        expect(page.locator(".now__where")).to_contain_text("Why: ")
        told = page.locator(".tell__text p").all_inner_texts()
        assert told[0] == title
        start = told.index("What I checked:")
        checks = [what.removeprefix("check ") for what, _ in way.answers if what.startswith("check ")]
        for check, line in zip(checks, told[start + 1 : start + 1 + len(checks)], strict=True):
            task = page.locator(f"#check-{check} .check__do").text_content() or ""
            assert line.startswith("– " + " ".join(task.split()).removesuffix("."))
        # What is only guessed comes last.
        guess = told.index("The club's guess, from other bikes:")
        assert start < guess
        assert all(line.startswith("– ") for line in told[guess + 1 :])


def test_a_contradiction_says_so_and_is_taken_back(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    fault, answers = contradicting(problems)
    assert plan_after(problems[fault], answers, Owner()).expected_cost is None
    with opened(watch, root, fault) as watched:
        page = watched.page
        for answer in answers:
            give(page, answer)
        expect(page.locator(".now__kicker")).to_have_text("Something does not fit")
        expect(page.locator(".plan-change")).to_contain_text("contradict")
        assert set(chances(page).values()) == {"ruled out"}
        expect(page.locator(".plan-costs")).to_have_count(0)
        page.get_by_role("button", name="Take back the last answer").click()
        assert_same(page, plan_after(problems[fault], answers[:-1], Owner()), problems[fault], names_on(page))
        expect(page.locator(".plan-change")).to_contain_text("Possible again")


def test_any_answer_can_be_taken_back_and_all_at_once(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    problem = problems[SAGS]
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        first, second = (plan_of(problem, Owner()).steps[at] for at in (0, 1))
        give(page, (f"check {first.id}", "good"))
        give(page, (f"check {second.id}", "good"))
        page.locator(".plan-answers__row button").first.click()
        assert_same(page, plan_after(problem, [(f"check {second.id}", "good")], Owner()), problem, names_on(page))
        page.get_by_role("button", name="Start again").click()
        assert_same(page, plan_of(problem, Owner()), problem, names_on(page))
        page.get_by_role("button", name="Bring them back").click()
        expect(page.locator(".plan-answers__row")).to_have_count(1)


def reading_of(problem: Problem) -> tuple[str, float, float]:
    check = next(each for each in problem.checks if each.good is not None and dict(each.outcomes)["low"])
    assert check.good is not None
    return check.id, *check.good


def test_a_reading_is_typed_with_point_or_comma_and_falls_on_its_side(
    problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    problem = problems[SAGS]
    check, low, high = reading_of(problem)
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        page.locator(".plan-others summary").click()
        page.locator(".plan-others__pick", has_text=names_on(page)[f"check {check}"]).click()
        expect(page.locator("#plan-now")).to_be_focused()
        side = page.locator(".reading__side")
        # Both limits are good.
        for typed, words in (
            (f"{low}", "good"),
            (f"{high}", "good"),
            (f"{low - 0.1:.1f}", "too low"),
            (f"{high + 0.1:.1f}", "too high"),
        ):
            page.fill("#plan-reading", typed)
            expect(side).to_have_text(f"{typed}\u00a0V: {words}.")
        page.fill("#plan-reading", "about twelve")
        page.press("#plan-reading", "Enter")
        expect(side).to_contain_text("Type a number")
        expect(page.locator("#plan-reading")).to_be_focused()
        page.fill("#plan-reading", f"{low - 0.6:.1f}".replace(".", ","))
        page.press("#plan-reading", "Enter")
        expect(page.locator(".plan-answers__text")).to_contain_text(f"too low, {low - 0.6:.1f}\u00a0V")
        assert_same(page, plan_after(problem, [(f"check {check}", "low")], Owner()), problem, names_on(page))
