"""The check plan on a fault page: seen, printed, used by keyboard alone, and with hostile texts in it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from kbtools.checkplan.problem import Problem
from kbtools.wording.plan import WORDS
from tests.support.places import Serve
from tests.support.plan_page import (
    PHONE,
    SAGS,
    contradicting,
    give,
    names_on,
    opened,
    ready,
    sideways,
)
from tests.support.watched import Watch

CANARY = '</script><img src=x onerror="window.ran = true">'


@pytest.fixture
def root(demo_site: Path, serve: Serve) -> str:
    return serve(demo_site)


def test_what_comes_before_riding_stays_in_sight_beside_every_step(
    watch: Watch, root: str, problems: dict[str, Problem]
) -> None:
    with opened(watch, root, "front-lever-comes-back") as watched:
        riding = watched.page.locator(".plan-riding")
        expect(riding).to_contain_text(WORDS["before_riding"])
        before = [each.id for each in problems["front-lever-comes-back"].checks if each.before_riding]
        names = names_on(watched.page)
        expect(riding.locator(".plan-riding__list li")).to_have_count(len(before))
        first = names[f"check {before[0]}"]
        expect(riding.locator(".plan-riding__list")).to_contain_text(first)


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
        page.locator("#causes > details > summary").click()
        page.locator("#causes a[href='#check-voltage-at-4000']").first.click()
        expect(card).to_be_visible()


def test_without_javascript_the_plan_stands_there(root: str, watch: Watch) -> None:
    with watch(viewport=PHONE, java_script_enabled=False) as watched:
        watched.page.goto(f"{root}faults/{SAGS}/")
        watched.page.locator(".plan-all > summary").click()
        expect(watched.page.locator(".plan .check").first).to_be_visible()
