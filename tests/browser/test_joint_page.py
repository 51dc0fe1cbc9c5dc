"""One plan for the faults behind codes, as an owner meets it: on the page of a code, and for several codes.

What must come next, what it costs and what may be ridden is what Python reckons for the same answers; the joint plans
themselves are held to lists of every decision tree elsewhere.
"""

from __future__ import annotations

import json
import random
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from kbtools.checkplan import Owner, Plan, plan_of
from kbtools.checkplan.beside import bad_before_riding, before_riding, words_of_codes
from kbtools.checkplan.joint import Joint
from kbtools.checkplan.joint_beside import joint_ride_advice
from kbtools.checkplan.parts import joint_plan
from kbtools.cli.named import code_rows
from kbtools.index.answers import Index
from kbtools.index.cautions import cautions_of_fault
from kbtools.index.together import GivenCode, faults_of_codes
from kbtools.model.codes import read_code
from kbtools.pages.workshop_note import beginning
from kbtools.wording.joint import JOINT_WORDS, say_joint
from kbtools.wording.plan import READ_AGAIN, WORDS, money_words, percent_words
from tests.support.demo_plans import Answer, plan_after
from tests.support.places import Serve
from tests.support.plan_page import opened_note
from tests.support.watched import Watch, Watched

PHONE = {"width": 390, "height": 844}
BITTERN = ("bittern-900", 2006)
CURLEW = ("curlew-1100", 2015)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Codes on a bike, as Python plans for them."""

    index: Index
    given: tuple[GivenCode, ...]
    bike: tuple[str, int] | None

    @property
    def joint(self) -> Joint:
        return joint_plan(faults_of_codes(self.given, self.bike, self.index), self.given, self.bike, self.index)

    def ride(self, joint: Joint, plan: Plan, results: dict[str, Any]) -> str | None:
        faults = faults_of_codes(self.given, self.bike, self.index)
        words = words_of_codes(code_rows(self.given, faults, self.bike, self.index))
        bad = bad_before_riding(joint.problem, Owner(bike=self.bike, results=results))
        return joint_ride_advice(joint, plan.chances, words, bad).level


@pytest.fixture
def root(demo_site: Path, serve: Serve) -> str:
    return serve(demo_site)


def case(index: Index, *codes: str, bike: tuple[str, int] | None = None) -> Case:
    read = [read_code(each, index.club.code_formats).code for each in codes]
    return Case(index=index, given=tuple(GivenCode(code=each, unit=None) for each in read if each), bike=bike)


def remembered(bike: tuple[str, int], index: Index) -> str:
    """A script that has the browser remember a bike, unless it does already."""
    model, year = bike
    kept = json.dumps({"model": model, "name": index.base.models[model].name, "year": year})
    return f"localStorage.getItem('bike') ?? localStorage.setItem('bike', {json.dumps(kept)})"


@contextmanager
def opened(watch: Watch, address: str, asked: Case, **options: Any) -> Iterator[Watched]:
    """The page with its plan ready; at the end nothing may have gone wrong on it."""
    with watch(**{"viewport": PHONE, **options}) as watched:
        page = watched.page
        if asked.bike is not None:
            page.add_init_script(remembered(asked.bike, asked.index))
        page.goto(address)
        # On a first visit the pages of the faults are fetched once the reader comes near.
        page.evaluate("document.getElementById('plan').scrollIntoView()")
        expect(page.locator("[data-joint][data-plan-ready]")).to_have_count(1)
        yield watched
        assert watched.complaints == []
        assert watched.foreign == []


def title_of(index: Index, joint: Joint, plan: Plan) -> str:
    step = plan.steps[0]
    if step.kind == "hand_over":
        return WORDS["hand_over"]
    fault, own = joint.uses[str(step.id)][0] if step.kind == "check" else str(step.id).split("/")
    entry = index.published[fault]
    if step.kind == "check":
        return beginning(next(each.do for each in entry.checks if each.id == own) or "")
    return next(each.summary for each in entry.causes if each.id == own) or ""


def assert_same(page: Page, asked: Case, joint: Joint, plan: Plan, results: dict[str, Any]) -> None:
    """The step, its cost, the ride advice in the one element that says it."""
    title = title_of(asked.index, joint, plan)
    expect(page.locator(".now__title")).to_have_text(title)
    step = plan.steps[0]
    assert page.locator("[data-first-step]").get_attribute("data-first-step") == f"{step.kind}:{step.id or ''}"
    expect(page.locator("[data-first-step]")).to_contain_text(title)
    assert page.locator("[data-verdict]").count() == 1
    assert page.locator("[data-verdict]").get_attribute("data-verdict") == asked.ride(joint, plan, results)
    assert plan.expected_cost is not None
    if step.kind != "hand_over":
        cost = page.locator(".plan-costs__row--cost_plan dd .figure").text_content()
        assert cost == money_words(plan.expected_cost, joint.problem.currency)


def shown_shares(page: Page) -> list[str]:
    return page.locator(".likely__part strong").all_inner_texts()


def answered(
    page: Page, chance: random.Random, asked: Case, joint: Joint, plan: Plan
) -> Iterator[tuple[Plan, dict[str, Any]]]:
    """Answer at random until a cause is found or the bike is handed over; gives each plan after."""
    answers: list[Answer] = []
    while plan.steps[0].kind in {"check", "trial_fix"}:
        step = plan.steps[0]
        if step.kind == "check":
            result = chance.choice([each for each, then in step.outcomes.items() if then] + ["good"])
            answers.append((f"check {step.id}", result))
            page.locator(f".now .answer-button--{result}").click()
        else:
            answers.append((f"fix {step.id}", "no-change"))
            page.get_by_role("button", name="Did not help").click()
        plan = plan_after(joint.problem, answers, Owner(bike=asked.bike))
        yield plan, {what.removeprefix("check "): result for what, result in answers if what.startswith("check ")}


@pytest.mark.parametrize(("code", "bike"), [("P0562", BITTERN), ("1-4", None)])
def test_each_answer_replans_as_python_does_and_it_ends_at_a_cause_in_a_fault(
    code: str, bike: tuple[str, int] | None, index: Index, root: str, watch: Watch
) -> None:
    asked = case(index, code, bike=bike)
    joint = asked.joint
    with opened(watch, f"{root}codes/{code.lower()}/", asked) as watched:
        page = watched.page
        assert shown_shares(page) == [percent_words(each.mean) for each in joint.faults]
        counted = sum(each.cases for each in joint.faults)
        # What each fault says above its own checks stands above the plan of all.
        before = page.locator("[data-joint-before]").inner_text()
        for part in joint.parts:
            for caution in cautions_of_fault(index.base, index.published[part.problem.fault]):
                assert beginning(caution.text)[:60] in before
        first = joint.faults[0]
        words = {"k": str(first.cases), "n": str(counted), "cases": "cases", "code": "this code"}
        expect(page.locator(".likely__rest").first).to_contain_text(say_joint("cases_code", **words))
        assert page.locator(".likely__rest").first.inner_text().endswith(" on the Bittern 900") is (bike is not None)
        ends = set()
        for seed in range(4):
            start = plan = plan_of(joint.problem, Owner(bike=asked.bike))
            assert_same(page, asked, joint, start, {})
            for then, results in answered(page, random.Random(seed), asked, joint, start):
                assert_same(page, asked, joint, then, results)
                plan = then
            step = plan.steps[0]
            ends.add(step.kind)
            if step.kind == "fix":
                fault, cause = str(step.id).split("/")
                link = page.locator(f"[data-joint-end={fault}]")
                assert (link.get_attribute("href") or "").endswith(f"/faults/{fault}/?codes={code}#fix-cause-{cause}")
                assert link.inner_text() == index.published[fault].title
            page.get_by_role("button", name="Start again").click()
        assert "fix" in ends


def test_the_faults_page_goes_on_with_what_was_found_and_with_the_code(index: Index, root: str, watch: Watch) -> None:
    """P0016 calls for stricter advice than its fault does."""
    asked = case(index, "1-4")
    with opened(watch, f"{root}codes/1-4/", asked) as watched:
        page = watched.page
        page.locator(".now .answer-button--bad, .now .answer-button--low").first.click()
        while page.locator("[data-joint-end]").count() == 0:
            page.locator(".now .answer-button--bad, .now .answer-button--low").first.click()
        found = page.locator(".plan-answers__row").count()
        page.locator("[data-joint-end]").first.click()
        expect(page.locator("[data-plan-ready]")).to_have_count(1)
        assert page.locator(".plan-answers__row").count() == found
        page.goto(f"{root}codes/p0016/")
        assert page.locator("[data-verdict]").get_attribute("data-verdict") == "do-not-ride"
        page.locator(".onward__link").click()
        expect(page.locator("[data-plan-ready]")).to_have_count(1)
        assert "codes=P0016" in page.url
        expect(page.locator("#ride [data-verdict]")).to_have_attribute("data-verdict", "do-not-ride")
        expect(page.locator("#ride [data-verdict]")).to_contain_text("stricter than without P0016")
        page.goto(page.url.split("?")[0])
        expect(page.locator("[data-plan-ready]")).to_have_count(1)
        expect(page.locator("#ride [data-verdict]")).to_have_attribute("data-verdict", "ride-to-workshop")


def test_several_codes_have_the_same_plan_and_a_note_that_says_what_is_open(
    index: Index, root: str, watch: Watch
) -> None:
    asked = case(index, "P0562", "P0217", bike=CURLEW)
    joint = asked.joint
    assert len(joint.parts) > 1
    with opened(watch, f"{root}several/?codes=P0562,P0217", asked, bypass_csp=True) as watched:
        page = watched.page
        plan = plan_of(joint.problem, Owner(bike=CURLEW))
        assert_same(page, asked, joint, plan, {})
        expect(page.locator(".suspect").first).to_be_visible()
        note = opened_note(page)
        expect(note.locator("[data-sheet-codes]")).to_have_text("P0562, P0217")
        expect(note.locator("[data-sheet-bike]")).to_have_text("Curlew 1100, 2015")
        open_checks = before_riding(joint.problem, Owner(bike=CURLEW))
        assert open_checks
        expect(note).to_contain_text(f"{WORDS['before_riding']}, still to be checked")
        for seed in range(6):
            *_, (last, _) = answered(page, random.Random(seed), asked, joint, plan)
            if last.steps[0].kind == "fix":
                break
            page.get_by_role("button", name="Start again").click()
        expect(page.locator(".now__again")).to_have_text(READ_AGAIN)
        expect(note).to_contain_text("What I checked:")
        assert watched.axe() == []


def test_another_bike_makes_another_plan_and_what_was_answered_comes_back_with_it(
    index: Index, root: str, watch: Watch
) -> None:
    asked = case(index, "P0562", bike=BITTERN)
    joint = asked.joint
    with opened(watch, f"{root}codes/p0562/", asked) as watched:
        page = watched.page
        step = plan_of(joint.problem, Owner(bike=BITTERN)).steps[0]
        page.locator(".now .answer-button--good").click()
        page.locator(".situation summary").click()
        page.locator("#plan-year").focus()
        # In that year only one of the two faults was left.
        page.locator("#plan-year").select_option("2011")
        other = case(index, "P0562", bike=("bittern-900", 2011))
        expect(page.locator(".situation__now")).to_contain_text("2011")
        expect(page.locator("#plan-year")).to_be_focused()
        assert_same(page, other, other.joint, plan_of(other.joint.problem, Owner(bike=other.bike)), {})
        assert shown_shares(page) == [percent_words(each.mean) for each in other.joint.faults]
        page.locator("#plan-year").select_option("2006")
        expect(page.locator(".situation__now")).to_contain_text("2006")
        expect(page.locator(".plan-answers__row")).to_have_count(1)
        plan = plan_after(joint.problem, [(f"check {step.id}", "good")], Owner(bike=BITTERN))
        assert_same(page, asked, joint, plan, {str(step.id): "good"})
        page.locator("#plan-model").select_option("")
        expect(page.locator(".situation__now")).to_contain_text("any bike")
        assert shown_shares(page) == [percent_words(each.mean) for each in case(index, "P0562").joint.faults]


@pytest.mark.parametrize(
    ("address", "bike", "sentence", "verdict"),
    [
        ("several/?codes=P0999", None, "unknown", "not-known"),
        ("several/?codes=P0562,P0230,C1018", None, "no_machine", "ride-to-workshop"),
        ("several/?codes=P0171", None, "follows", "ride-to-workshop"),
        ("codes/p0562/", ("dunlin-650", 1998), "none_here", "not-known"),
        ("codes/p0230/", ("dunlin-650", 1998), "none_here", "not-known"),
    ],
)
def test_where_there_is_no_plan_a_sentence_says_why_and_what_to_do(  # noqa: PLR0917 (a row of the table)
    address: str, bike: tuple[str, int] | None, sentence: str, verdict: str, index: Index, root: str, watch: Watch
) -> None:
    with watch(viewport=PHONE, bypass_csp=True) as watched:
        page = watched.page
        if bike:
            page.add_init_script(remembered(bike, index))
        page.goto(f"{root}{address}")
        words = max(re.split(r"\{\w+\}", JOINT_WORDS[sentence]), key=len).strip()
        expect(page.locator("[data-joint-told]")).to_contain_text(words)
        expect(page.locator("[data-verdict]")).to_have_attribute("data-verdict", verdict)
        assert (page.locator("[data-first-step]").text_content() or "").strip()
        expect(page.locator(".plan-panel")).to_have_count(0)
        assert watched.complaints == []
        assert watched.axe() == []


def test_an_unknown_code_beside_a_known_one_never_makes_it_milder(index: Index, root: str, watch: Watch) -> None:
    asked = case(index, "P0562")
    with opened(watch, f"{root}several/?codes=P0562,P0999", asked) as watched:
        page = watched.page
        joint = asked.joint
        assert_same(page, asked, joint, plan_of(joint.problem, Owner()), {})
        expect(page.locator("[data-verdict-why]")).to_contain_text("Of P0999 nothing is known")


def test_without_javascript_shares_and_first_steps_stand_there(index: Index, root: str, watch: Watch) -> None:
    asked = case(index, "P0562")
    joint = asked.joint
    step = plan_of(joint.problem, Owner()).steps[0]
    with watch(viewport=PHONE, java_script_enabled=False) as watched:
        page = watched.page
        page.goto(f"{root}codes/p0562/")
        assert shown_shares(page) == [percent_words(each.mean) for each in joint.faults]
        assert page.locator("[data-first-step]").get_attribute("data-first-step") == f"{step.kind}:{step.id}"
        steps = page.locator("[data-joint-steps]")
        expect(steps.locator("li").first).to_be_hidden()
        steps.locator("summary").click()
        assert steps.locator("li").count() == len(joint.parts)
        steps.locator("a").first.click()
        page.wait_for_url("**/faults/*/")


def test_verdict_faults_and_first_step_stand_on_the_first_screen(index: Index, root: str, watch: Watch) -> None:
    """The pages with the longest names, and those of codes with several faults; with a bike, which takes room too."""
    slugs = sorted(index.codes_by_slug, key=lambda slug: len(faults_of(index, slug)[1]))[-3:]
    slugs += [slug for slug in index.codes_by_slug if len(faults_of(index, slug)[0]) > 1]
    seen = """() => ["h1", "[data-verdict]", "[data-first-step]", ".likely__one:nth-child(2)"].map(
        (selector, at) => document.querySelector(selector)?.getBoundingClientRect().bottom ?? (at > 2 ? 0 : 9999))"""
    with watch(viewport={"width": 390, "height": 700}) as watched:
        page = watched.page
        page.add_init_script(remembered(BITTERN, index))
        below = {}
        for slug in dict.fromkeys(slugs):
            page.goto(f"{root}codes/{slug}/", wait_until="networkidle")
            below[slug] = max(page.evaluate(seen))
            levels = {"do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction", "not-known"}
            assert page.locator("[data-verdict]").get_attribute("data-verdict") in levels
        assert watched.complaints == []
    assert {slug: bottom for slug, bottom in below.items() if bottom > 700} == {}


def faults_of(index: Index, slug: str) -> tuple[tuple[str, ...], str]:
    """The faults that may be behind a code, and their titles in one."""
    given = [GivenCode(code=code, unit=None) for code in index.codes_by_slug[slug]]
    found = faults_of_codes(given, None, index)
    return tuple(each.id for each in found), "".join(each.title for each in found)
