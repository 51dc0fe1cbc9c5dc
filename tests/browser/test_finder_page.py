"""The finder as an owner meets it: fields, keys, addresses. The base is the small one of `vectors/finder.json`."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from jinja2 import Environment, FileSystemLoader
from playwright.sync_api import Page, Route, expect

from kbtools.edges.rendering import TEMPLATES
from tests.support.finder_base import files as finder_files
from tests.support.finder_base import knowledge, vectors
from tests.support.lent_pages import Pages
from tests.support.patience import eventually, paused
from tests.support.places import ROOT

ASSETS = ROOT / "site_overrides" / "assets"
FAULT = "faults/voltage-sags-when-wet/"
CANARY = '</script><img src=x onerror="window.ran = true">'

Open = Callable[..., Page]


STRIP = """<p class="strip" data-strip><button data-bike-choose data-bike-name>My bike</button>
<button data-bike-drop>Forget my bike</button></p>"""
"""What the finder needs of the strip below the header of each page."""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A home page, a page in a folder, and empty pages that the answers lead to."""
    folder = tmp_path_factory.mktemp("finder")
    shutil.copytree(ASSETS, folder / "assets")
    files = vectors()["files"]
    files["faults/fuel/stalls-when-hot.yml"]["symptoms"].append(f"Zebra {CANARY}")
    files["cautions.yml"] = {
        "stop_now": [{"asked": ["oil pressure lamp", "oil light"], "do": f"Stop. Engine off. {CANARY}"}],
        "cautions": [],
    }
    for name, content in finder_files(knowledge(files)).items():
        file = folder / "data" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(json.dumps(content), encoding="utf-8")
    template = Environment(loader=FileSystemLoader(TEMPLATES), autoescape=True).get_template("_finder.html")
    for address, place, up in (("", "home", "./"), ("about/", "header", "../"), (FAULT, "header", "../../")):
        finder = template.render(place=place, home_href=up, finder_data=f"{up}data/")
        page = folder / address / "index.html"
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(
            f'<!doctype html><html lang="en"><head><title>{address or "home"}</title><link rel="icon" href="data:,">'
            f'<link rel="stylesheet" href="{up}assets/css/tokens.css"><link rel="stylesheet" '
            f'href="{up}assets/css/base.css"><link rel="stylesheet" href="{up}assets/css/finder.css">'
            f'<link rel="stylesheet" href="{up}assets/css/shell.css"><script '
            f'src="{up}assets/js/early.js"></script><script type="module" src="{up}assets/js/finder.js"></script>'
            f"</head><body><header>{finder}</header>{STRIP}"
            '<main id="content" tabindex="-1"><p>Text</p></main></body></html>',
            encoding="utf-8",
        )
    (folder / "codes/p0562").mkdir(parents=True)
    (folder / "codes/p0562/index.html").write_text("<title>codes/p0562/</title>", encoding="utf-8")
    finder = template.render(place="header", home_href="../", finder_data="../data/")
    (folder / "codes/index.html").write_text(
        '<!doctype html><html lang="en"><head><title>codes/</title><link rel="icon" href="data:,">'
        '<script type="module" src="../assets/js/code-state.js"></script></head>'
        f"<body>{finder}<div data-code-state hidden></div></body></html>",
        encoding="utf-8",
    )
    return folder


@pytest.fixture
def visit(lent_pages: Pages, serve: Callable[..., str], site: Path) -> Iterator[Open]:
    """Opens a page of that site, below a path."""
    root = serve(site, "/sub/path/")
    with lent_pages.page(viewport={"width": 390, "height": 844}) as page:

        def opened(address: str = "") -> Page:
            page.goto(root + address)
            return page

        yield opened


def answers(page: Page) -> list[str]:
    expect(page.locator("#finder-results a").first).to_be_visible()
    hrefs: list[str] = page.locator("#finder-results a").evaluate_all("all => all.map((each) => each.href)")
    return [href.partition("/sub/path/")[2] for href in hrefs]


def test_the_address_of_the_home_page_carries_the_question(visit: Open) -> None:
    page = visit("?q=p0%20562")
    assert answers(page)[:2] == ["codes/p0562/", FAULT]
    expect(page.locator("#finder")).to_have_value("p0 562")
    page.fill("#finder", "battery")
    page.wait_for_url("**/?q=battery")


def test_enter_opens_the_first_answer_even_before_the_data_has_arrived(visit: Open) -> None:
    page = visit("about/")
    page.fill("#finder", "P0 562")
    page.press("#finder", "Enter")
    page.wait_for_url("**/sub/path/codes/p0562/")


def test_enter_opens_nothing_of_which_the_finder_is_not_sure(visit: Open) -> None:
    page = visit("about/")
    page.fill("#finder", "hot")
    page.press("#finder", "Enter")
    links = page.locator("#finder-results a")
    expect(links.first).to_have_attribute("data-sure", "no")
    expect(page.locator(".answers--perhaps")).to_contain_text("Not sure. Perhaps one of these")
    assert page.locator(".answers--perhaps [class*=ride]:not(.answer__ride--unsure)").count() == 0
    assert page.url.endswith("/sub/path/about/")


def test_an_answer_says_whether_it_is_sure_and_what_it_is(visit: Open) -> None:
    page = visit("?q=P0562")
    assert answers(page)[0] == "codes/p0562/"
    first = page.locator("#finder-results a").first
    expect(first).to_have_attribute("data-sure", "yes")
    expect(first).to_have_attribute("data-kind", "code")
    kinds = page.locator("#finder-results a").evaluate_all(
        "all => all.map(({dataset}) => [dataset.kind, dataset.sure])"
    )
    assert kinds[1:] == [["fault", "no"]] * (len(kinds) - 1)
    page.fill("#finder", "regulator")
    expect(page.locator("#finder-results a").first).to_have_attribute("data-kind", "other")


def test_what_nobody_has_described_is_said_and_nothing_is_offered_for_it(visit: Open) -> None:
    page = visit("?q=knitting%20pattern")
    expect(page.locator("#finder-status")).to_contain_text("Not described here")
    assert {each.split("/")[0] for each in answers(page)} == {"codes", "contribute"}


def test_danger_comes_first_whatever_was_found_and_is_text(visit: Open) -> None:
    page = visit("?q=oil+presure+lamp")
    stop = page.locator("[data-finder-stops]")
    expect(stop).to_have_text(f"Stop. Engine off. {CANARY}")
    expect(stop).to_have_attribute("role", "alert")
    assert page.evaluate("() => window.ran") is None
    page.fill("#finder", "battery")
    expect(stop).to_be_empty()


def test_a_code_without_entry_keeps_its_answer_on_a_page(visit: Open) -> None:
    page = visit("about/")
    page.fill("#finder", "p0999-13")
    page.press("#finder", "Enter")
    page.wait_for_url("**/sub/path/codes/?code=P0999-13")
    state = page.locator("[data-code-state]")
    expect(state).to_contain_text("P0999-13: no entry has this code")
    expect(state).to_contain_text("Not known whether you may ride")
    expect(state).to_contain_text("powertrain")
    expect(state).to_contain_text("open circuit")
    expect(state.get_by_role("link", name="Tell the club")).to_have_attribute(
        "href", re.compile("/sub/path/contribute/$")
    )


@pytest.mark.parametrize(("code", "told"), [("%3Cimg%20src=x%3E", "not a code"), ("p0562", "P0562")])
def test_an_address_with_another_code_says_what_it_is(visit: Open, code: str, told: str) -> None:
    page = visit(f"codes/?code={code}")
    expect(page.locator("[data-code-state]")).to_contain_text(told)
    assert page.locator("[data-code-state] img").count() == 0


def test_arrows_choose_and_enter_opens_what_was_chosen(visit: Open) -> None:
    page = visit("about/")
    page.fill("#finder", "p0562")
    assert len(answers(page)) > 1
    for key, chosen in (("ArrowDown", 0), ("ArrowDown", 1), ("ArrowUp", 0), ("ArrowUp", None), ("ArrowDown", 0)):
        page.press("#finder", key)
        active = page.locator("#finder").get_attribute("aria-activedescendant")
        assert active == (None if chosen is None else f"finder-answer-{chosen}")
        assert page.locator('#finder-results [aria-selected="true"]').count() == (0 if chosen is None else 1)
    page.press("#finder", "ArrowDown")
    page.press("#finder", "Enter")
    page.wait_for_url(f"**/{FAULT}")


def test_escape_closes_the_answers_and_then_empties_the_field(visit: Open) -> None:
    page = visit("about/")
    page.fill("#finder", "p0562")
    assert answers(page)
    expect(page.locator("#finder")).to_have_attribute("aria-expanded", "true")
    page.press("#finder", "Escape")
    expect(page.locator("#finder-results")).to_be_hidden()
    expect(page.locator("#finder")).to_have_attribute("aria-expanded", "false")
    expect(page.locator("#finder")).to_have_value("p0562")
    page.press("#finder", "Escape")
    expect(page.locator("#finder")).to_have_value("")


def test_a_slash_goes_to_the_field_and_is_not_typed(visit: Open) -> None:
    page = visit("about/")
    page.keyboard.press("/")
    expect(page.locator("#finder")).to_be_focused()
    expect(page.locator("#finder")).to_have_value("")
    page.keyboard.press("/")
    expect(page.locator("#finder")).to_have_value("/")


def test_answers_over_a_page_close_when_they_are_left_and_move_nothing(visit: Open) -> None:
    page = visit("about/")
    before = page.locator("p", has_text="Text").bounding_box()
    page.fill("#finder", "p0562")
    assert answers(page)
    assert page.locator("p", has_text="Text").bounding_box() == before
    page.mouse.click(200, 800)
    expect(page.locator("#finder-results")).to_be_hidden()


def test_a_press_on_an_answer_opens_it(visit: Open) -> None:
    page = visit("about/")
    page.fill("#finder", "p0562")
    page.locator("#finder-results a [class*=ride]").first.click()
    page.wait_for_url("**/codes/p0562/")


def test_each_file_is_fetched_once_and_none_before_it_is_needed(visit: Open) -> None:
    page = visit("about/")
    fetched: list[str] = []
    for_it = re.compile("/data/|/core/finder.js")
    page.on("request", lambda request: fetched.append(request.url) if for_it.search(request.url) else None)
    page.wait_for_load_state("networkidle")
    assert fetched == []
    page.focus("#finder")
    for text in ("p", "p0", "p05", "p0562"):
        page.fill("#finder", text)
    assert answers(page)[0] == "codes/p0562/"
    assert len(fetched) == len({*fetched})
    assert fetched[0].endswith("/data/root.json")


@pytest.mark.parametrize(("address", "lost"), [("", "**/data/**"), ("about/", "**/js/core/**")])
def test_what_does_not_arrive_is_told_and_tried_again(address: str, lost: str, visit: Open) -> None:
    page = visit(address)
    page.route(lost, lambda route: route.abort())
    page.fill("#finder", "p0562")
    expect(page.locator("#finder-status")).to_contain_text("did not arrive")
    page.unroute(lost)
    page.fill("#finder", "p056")
    assert answers(page) == ["codes/p0562/"]


def test_one_file_that_does_not_arrive_is_told_and_tried_again(visit: Open) -> None:
    page = visit("about/")
    page.route("**/data/terms/**", lambda route: route.abort())
    page.fill("#finder", "battery")
    expect(page.locator("#finder-status")).to_contain_text("did not arrive")
    expect(page.locator("#finder-status")).to_be_visible()
    page.unroute("**/data/terms/**")
    page.fill("#finder", "battery flat")
    assert answers(page) == ["faults/battery-flat-overnight/"]


@pytest.mark.parametrize("gone", ["**/data/**", "**/js/core/**"])
def test_a_page_of_an_older_build_says_so(gone: str, visit: Open) -> None:
    page = visit("about/")
    page.route(gone, lambda route: route.fulfill(status=404, body="gone"))
    page.fill("#finder", "p0562")
    expect(page.locator("#finder-status")).to_contain_text("Load the page again")


def test_an_answer_that_a_later_question_has_overtaken_is_dropped(visit: Open) -> None:
    page = visit("about/")
    held: list[Route] = []
    page.route("**/data/terms/**", lambda route: held.append(route))  # noqa: PLW0108 (playwright takes no built-in)
    arrived: list[str] = []
    page.on("requestfinished", lambda request: arrived.append(request.url))
    page.fill("#finder", "battery")
    eventually(lambda: bool(held), pause=paused(page))
    page.fill("#finder", "p0562")
    assert answers(page)[0] == "codes/p0562/"
    late = {route.request.url for route in held}
    for route in held:
        route.continue_()
    eventually(lambda: late <= set(arrived), pause=paused(page))
    # Time for the script to make something of them.
    page.wait_for_timeout(200)
    assert answers(page)[0] == "codes/p0562/"


def test_what_is_not_known_is_said_in_the_first_answer_and_to_a_screen_reader(visit: Open) -> None:
    page = visit("?q=p0999")
    assert answers(page)[0] == "codes/?code=P0999"
    expect(page.locator("#finder-results a").first).to_contain_text("Not known whether you may ride")
    expect(page.locator("#finder-status")).to_contain_text("Not known whether you may ride")


def test_texts_of_entries_are_shown_and_never_run(visit: Open) -> None:
    page = visit("?q=zebra")
    assert answers(page) == ["faults/stalls-when-hot/"]
    page.fill("#finder", CANARY)
    expect(page.locator("#finder-status")).not_to_be_empty()
    assert page.evaluate("() => window.ran") is None
    assert page.locator("#finder-results img").count() == 0


def test_what_matched_is_marked_and_shown_where_it_stands(visit: Open) -> None:
    page = visit("?q=batery+flat")
    first = page.locator("#finder-results a").first
    expect(first.locator(".answer__title mark")).to_have_text(["Battery", "flat"])


def test_a_pasted_report_becomes_a_list(visit: Open) -> None:
    page = visit("about/")
    page.evaluate(
        """(text) => {
            const data = new DataTransfer();
            data.setData("text/plain", text);
            const event = new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true });
            document.querySelector("#finder").dispatchEvent(event);
        }""",
        "Stored codes\n P0562\r\n C0035-11\n",
    )
    assert answers(page)[:2] == ["codes/p0562/", "codes/c0035-11/"]


def choose_bike(page: Page, model: str, year: str) -> None:
    page.locator("[data-bike-choose]:visible").first.click()
    page.select_option("[data-bike-model]", label=model)
    page.select_option("[data-bike-year]", year)
    page.get_by_role("button", name="This is mine").click()


def test_my_bike_is_chosen_once_narrows_everywhere_and_is_dropped_with_one_press(visit: Open) -> None:
    page = visit("")
    choose_bike(page, "Dunlin 650", "2000")
    expect(page.locator("[data-bike-name]")).to_have_text("Your Dunlin 650, 2000")
    page = visit("about/")
    expect(page.locator("[data-bike-name]")).to_be_visible()
    page.fill("#finder", "no spark hot")
    others = page.locator("[data-finder-others]")
    expect(page.locator("#finder-status")).to_have_text(re.compile("[1-9] more on other models"))
    expect(page.locator("#finder-results a")).to_have_count(0)
    others.click()
    expect(others).to_have_text("Only my bike")
    assert answers(page)[0] == "faults/no-spark-when-hot/"
    expect(page.locator("#finder-results a").first).to_contain_text("Not known on your bike, Dunlin 650, 2000")
    page.locator("[data-bike-drop]").click()
    expect(page.locator("[data-bike-drop]")).to_be_hidden()
    page.fill("#finder", "no spark")
    assert answers(page)[0] == "faults/no-spark-when-hot/"
    expect(others).to_be_hidden()


def test_a_code_that_is_not_known_on_my_bike_never_shows_the_advice_of_another(visit: Open) -> None:
    page = visit("")
    choose_bike(page, "Dunlin 650", "2000")
    page.fill("#finder", "4-2")
    assert answers(page) == ["codes/4-2/"]
    expect(page.locator("#finder-results a").first).to_contain_text("Not known whether you may ride")


@pytest.mark.parametrize("stored", ["{", "7", '{"model": 1}', '{"model": "<img src=x>", "year": 2000, "name": "<b>"}'])
def test_what_another_page_left_in_the_store_harms_nothing(visit: Open, stored: str) -> None:
    page = visit("")
    page.evaluate("(text) => localStorage.setItem('bike', text)", stored)
    page = visit("about/")
    page.fill("#finder", "p0562")
    assert answers(page)[0] == "codes/p0562/"
    assert page.locator("#finder-results img, form img").count() == 0


def test_the_name_of_my_bike_moves_nothing_when_it_comes(visit: Open) -> None:
    page = visit("")
    choose_bike(page, "Dunlin 650", "2000")
    page.add_init_script(
        """window.moved = 0; new PerformanceObserver((list) => {
            for (const entry of list.getEntries()) { window.moved += entry.value; }
        }).observe({ type: "layout-shift", buffered: true });"""
    )
    page = visit("about/")
    expect(page.locator("[data-bike-name]")).to_have_text("Your Dunlin 650, 2000")
    # Time for what might be pushed down.
    page.wait_for_timeout(200)
    # A letter or two of a button settles; a line that is pushed down counts fifty times as much.
    assert page.evaluate("() => window.moved") < 0.005


def test_without_javascript_the_list_of_codes_is_named(
    lent_pages: Pages, serve: Callable[..., str], site: Path
) -> None:
    with lent_pages.page(java_script_enabled=False) as page:
        page.goto(serve(site, "/sub/path/") + FAULT)
        link = page.get_by_role("link", name="list of all codes")
        expect(link).to_be_visible()
        link.click()
        page.wait_for_url("**/sub/path/codes/")
