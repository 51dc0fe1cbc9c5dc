"""The check plan on a fault page as an owner meets it: answers, readings, undo, situation, reload.

What must come next, and what it costs, is what Python reckons for the same answers; the plans themselves are held to
lists of every decision tree elsewhere.
"""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from kbtools.checkplan import Owner, Plan, plan_of
from kbtools.checkplan.problem import Problem
from kbtools.index.answers import Index
from kbtools.wording.plan import WORDS, money_words, percent_words
from tests.support.demo_plans import Answer, Way, demo_index, demo_problems, plan_after, shortest_way
from tests.support.places import Serve
from tests.support.watched import Watch, Watched

PHONE = {"width": 390, "height": 844}
SAGS = "voltage-sags-when-wet"
CANARY = '</script><img src=x onerror="window.ran = true">'


@pytest.fixture(scope="module")
def index() -> Index:
    return demo_index()


@pytest.fixture(scope="module")
def problems(index: Index) -> dict[str, Problem]:
    return demo_problems(index)


@pytest.fixture
def root(demo_site: Path, serve: Serve) -> str:
    return serve(demo_site)


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
    expected = {
        names[f"cause {share.id}"]: percent_words(plan.chances[share.id]) if share.id in plan.chances else "ruled out"
        for share in plan.causes
    }
    assert chances(page) == expected


def names_on(page: Page) -> dict[str, str]:
    data = json.loads(page.locator("script.plan-data").text_content() or "")
    checks = {f"check {each}": name for each, name in data["names"]["checks"].items()}
    causes = {f"cause {each}": name for each, name in data["names"]["causes"].items()}
    return {**checks, **causes, "cause unlisted": WORDS["unlisted"]}


def test_after_every_answer_the_page_shows_what_python_reckons(
    problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    chance = random.Random(5)
    walks = 0
    for fault in sorted(problems)[::7]:
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
    assert walks > 20


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
        assert len(way.answers) == told.index("Still possible:") - start - 1
        for (what, _), line in zip(way.answers, told[start + 1 :], strict=False):
            if what.startswith("check "):
                task = page.locator(f"#check-{what.removeprefix('check ')} .check__do").text_content() or ""
                assert line.startswith("– " + " ".join(task.split()).removesuffix("."))


def contradicting(problems: dict[str, Problem]) -> tuple[str, list[Answer]]:
    """A home fix that follows from a check, and does not help: no cause is left."""
    way = shortest_way(problems, lambda way: way.step.kind == "fix" and way.step.where == "home")
    return way.fault, [*way.answers, (f"fix {way.step.id}", "no-change")]


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


@pytest.mark.parametrize("stored", RUBBISH)
def test_rubbish_in_the_storage_is_no_answer(
    stored: str, problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    with opened(watch, root, SAGS) as watched:
        page = watched.page
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


def test_texts_of_the_entry_are_shown_and_never_run(root: str, watch: Watch) -> None:
    def hostile(route: Any) -> None:
        answer = route.fetch()
        head, tail = answer.text().split('class="plan-data">', 1)
        data, tail = tail.split("</script>", 1)
        page_data = json.loads(data)
        for kind in page_data["names"].values():
            for each in kind:
                kind[each] = f"{CANARY} {each}"
        page_data["units"] = dict.fromkeys(page_data["units"], CANARY)
        page_data["models"] = [[model, CANARY, years] for model, _, years in page_data["models"]]
        text = json.dumps(page_data).replace("<", "\\u003c")
        route.fulfill(response=answer, body=f'{head}class="plan-data">{text}</script>{tail}')

    with watch(viewport={"width": 320, "height": 640}, bypass_csp=True) as watched:
        page = watched.page
        page.route(f"**/faults/{SAGS}/", hostile)
        page.goto(f"{root}faults/{SAGS}/")
        ready(page)
        page.locator(".situation summary").click()
        page.locator("[data-plan]").get_by_label("My bike").select_option("bittern-900")
        for _ in range(3):
            if page.locator(".now .answer-button--good").count():
                page.locator(".now .answer-button--good").click()
        assert CANARY in page.locator(".plan-panel").inner_text()
        assert page.evaluate("() => window.ran") is None
        assert page.locator(".plan-panel img").count() == 0
        assert sideways(page) <= 0


def sideways(page: Page) -> int:
    found: int = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
    return found


def test_it_is_used_by_keyboard_alone_and_the_focus_stays_with_what_is_next(root: str, watch: Watch) -> None:
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        page.locator(".now .answer-button").first.focus()
        page.keyboard.press("Enter")
        expect(page.locator("#plan-now")).to_be_focused()
        assert page.locator(".plan-change").get_attribute("role") == "status"
        page.keyboard.press("Tab")
        assert page.evaluate("() => document.activeElement.closest('.now') !== null")
        page.locator(".plan-answers__row button").first.focus()
        page.keyboard.press("Space")
        expect(page.locator("#plan-now")).to_be_focused()


@pytest.mark.parametrize("answers", [0, 1, 2])
def test_axe_finds_nothing_and_nothing_moves_sideways(
    answers: int, problems: dict[str, Problem], root: str, watch: Watch
) -> None:
    fault, given = contradicting(problems)
    with opened(watch, root, fault, viewport={"width": 320, "height": 640}, bypass_csp=True) as watched:
        page = watched.page
        for answer in given[: answers if answers < 2 else None]:
            give(page, answer)
        page.locator(".situation summary").click()
        page.locator(".plan-others summary").click()
        assert sideways(page) <= 0
        small: list[str] = page.locator(".plan-panel :is(button, select, input[type=text], summary)").evaluate_all(
            "all => all.filter((each) => each.checkVisibility() && each.getBoundingClientRect().height < 44)"
            ".map((each) => each.outerHTML)"
        )
        assert small == []
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            assert watched.axe() == [], scheme


def test_nothing_to_press_is_printed(root: str, watch: Watch) -> None:
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        page.locator(".now .answer-button--good").click()
        page.emulate_media(media="print")
        for hidden in (".answers", ".situation", ".plan-answers .quiet"):
            expect(page.locator(hidden).first).to_be_hidden()
        expect(page.locator(".plan-answers__text")).to_be_visible()
        expect(page.locator(".plan-all .check").first).to_be_visible()
        page.emulate_media(media="screen")
        expect(page.locator(".plan-all .check").first).to_be_hidden()


def test_links_to_a_folded_check_unfold_it(problems: dict[str, Problem], root: str, watch: Watch) -> None:
    with opened(watch, root, SAGS) as watched:
        page = watched.page
        card = page.locator("#check-voltage-at-4000")
        expect(card).to_be_hidden()
        page.locator("#causes a[href='#check-voltage-at-4000']").first.click()
        expect(card).to_be_visible()


def test_without_javascript_the_plan_stands_there(root: str, watch: Watch) -> None:
    with watch(viewport=PHONE, java_script_enabled=False) as watched:
        watched.page.goto(f"{root}faults/{SAGS}/")
        expect(watched.page.locator(".plan .check").first).to_be_visible()


# Beside the plan


def test_what_comes_before_riding_stays_in_sight_beside_every_step(
    watch: Watch, root: str, problems: dict[str, Problem]
) -> None:
    with opened(watch, root, "front-lever-comes-back") as watched:
        riding = watched.page.locator(".plan-riding")
        expect(riding).to_contain_text(WORDS["before_riding"])
        before = [
            each.id for each in demo_problems(demo_index())["front-lever-comes-back"].checks if each.before_riding
        ]
        names = names_on(watched.page)
        expect(riding.locator(".plan-riding__list li")).to_have_count(len(before))
        first = names[f"check {before[0]}"]
        expect(riding.locator(".plan-riding__list")).to_contain_text(first)


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
