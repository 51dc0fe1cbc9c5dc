"""Hostile strings in every text field of every file: they show as text, and nothing of them ever acts.

The canary is `window.canary`: a script that runs sets it. Proven in a real browser, with and without the pages' content
security policy, since the policy must be the second wall and not the only one.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.support import site_links
from tests.support.hostile_texts import STRINGS, Schemas, fill_base
from tests.support.places import DEMO, ROOT, Serve
from tests.support.shared import Shared, built
from tests.support.watched import Watch, without_refresh

KINDS = {
    "home": "",
    "fault": "faults/voltage-sags-when-wet/",
    "code": "codes/p0562/",
    "all codes": "codes/",
    "model": "models/bittern-900/",
    "model year": "models/bittern-900/2007/",
    "handbook": "models/bittern-900/handbook/",
    "models": "models/",
    "system": "systems/charging/",
    "systems": "systems/",
    "component": "components/regulator-rectifier/",
    "components": "components/",
    "figures": "figures/",
    "coverage": "coverage/",
    "agenda": "agenda/",
    "new": "new/",
    "hand-written": "extra/",
    "withdrawn": "faults/regulator-runs-hot/",
    "redirect": "faults/charging-drops-in-rain/",
    "404": "no/such/page/",
}
FIRST = ("voltage-sags-when-wet", "regulator-runs-hot", "bittern-900")
"""What these pages show is filled before the rest, where not everything is."""
MARKS = re.compile(r"turned (?!⟦U\+202E⟧)[^ a-z]|round (?!⟦U\+2066⟧)[^ a-z]")
"""Where a direction mark of the string stands as it was written, as a character or as an escape of JSON or HTML."""
SITES = {
    "script": STRINGS["script"],
    "mixed": " ".join(STRINGS[each] for each in ("link", "markdown", "image", "template", "marks")),
    "long": STRINGS["long"],
}
"""What each site is full of. Strings that do not get in each other's way share one, and the time to build it: the first
would, since HTML at the start of a text decides how the rest of it is read."""
SHOWN = {
    "script": "</title><script>window.canary=1</script>",
    "mixed": "[x](javascript:window.canary=1) **bold** _it_ # h "
    '<img src=x onerror="window.canary=1"> '
    "{{ 7*7 }}{% raw %}{% include 'main.html' %} turned ⟦U+202E⟧ round ⟦U+2066⟧ inside",
    "long": STRINGS["long"],
}
"""How each reads in a title, which is plain text: as it was written, unseen characters written out."""


@dataclass(frozen=True, kw_only=True)
class HostileSite:
    """A site full of the same strings."""

    name: str
    """Which strings."""
    folder: Path
    """The built site."""
    places: frozenset[str]
    """The fields that were filled."""


@pytest.fixture(
    scope="module",
    params=[*(each for each in SITES if each != "long"), pytest.param("long", marks=pytest.mark.thorough)],
)
def site(request: pytest.FixtureRequest, shared: Shared) -> HostileSite:
    """The demo with such strings in every text field, built by the command line, past the rules against it."""
    name: str = request.param

    def make(folder: Path) -> None:
        most = 3 if name == "long" else None
        places = fill_base(DEMO, folder / "kb", Schemas(ROOT / "schemas"), SITES[name], first=FIRST, most=most)
        (folder / "places.json").write_text(json.dumps(list(places)), encoding="utf-8")
        built(folder / "kb", folder / "site", program="tests.support.build_unguarded")

    folder = shared.folder(f"hostile-{name}", make)
    places = json.loads((folder / "places.json").read_text(encoding="utf-8"))
    return HostileSite(name=name, folder=folder / "site", places=frozenset(places))


def test_every_text_field_of_every_file_is_hostile(site: HostileSite) -> None:
    # A field that this names is in the schema and not in the demo: use it there.
    assert Schemas(ROOT / "schemas").free_fields() - site.places == set()


def test_no_page_holds_anything_that_acts_and_what_it_is_called_is_its_title_alone(site: HostileSite) -> None:
    for page in site_links.pages(site.folder):
        parsed = site_links.parsed(page)
        assert site_links.acting(parsed) == [], page
        assert parsed.tags.count("title") == 1, page
        assert parsed.tags.count("head") == 1, page
        assert parsed.tags.count("h1") == 1, page
    title = "".join(site_links.parsed(site.folder / KINDS["fault"] / "index.html").titles)
    assert SHOWN[site.name] in title


def test_no_template_is_run_and_no_direction_mark_is_published(site: HostileSite) -> None:
    # What other programs take away is what was written, in JSON's own escapes: its page says so.
    open_data = site.folder / "api"
    for file in site.folder.rglob("*"):
        if file.suffix in {".html", ".json", ".xml"} and open_data not in file.parents and file.is_file():
            text = file.read_text(encoding="utf-8")
            assert "49{% raw" not in text, file
            if site.name == "mixed":
                found = MARKS.search(text)
                assert found is None, (file, text[max(0, found.start() - 80) : found.end() + 20] if found else "")


@pytest.mark.parametrize(
    ("bypass_csp", "kinds"),
    [(True, list(KINDS)), (False, ["home", "fault", "hand-written"])],
    ids=["without policy", "with policy"],
)
def test_nothing_runs_and_all_of_it_reads(
    bypass_csp: bool, kinds: list[str], site: HostileSite, serve: Serve, watch: Watch
) -> None:
    root = serve(site.folder)
    with watch(viewport={"width": 320, "height": 640}, bypass_csp=bypass_csp) as watched:
        page = watched.page
        for kind in kinds:
            if kind == "redirect":
                page.route("**/*", without_refresh)
            page.goto(root + KINDS[kind], wait_until="load")
            page.unroute_all()
            press_every_link_that_might_act(page)
            assert page.evaluate("() => window.canary") is None, kind
            wide = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
            assert wide <= 0, f"{kind} moves sideways"
            if kind in {"fault", "withdrawn"}:
                assert SHOWN[site.name] in page.locator("h1").inner_text(), kind
        assert watched.complaints == []
        assert watched.foreign == []


def press_every_link_that_might_act(page: Page) -> None:
    """Links that lead to no page: were one of them a script, this would run it."""
    page.evaluate("""() => {
        for (const link of document.querySelectorAll("a")) {
            const address = link.getAttribute("href") ?? "";
            if (/script/i.test(address) || (!/^(?:https?|tel):/.test(link.href) && link.href !== "")) link.click();
        }
        for (const image of document.images) image.dispatchEvent(new Event("error"));
    }""")


def test_answers_of_the_finder_read_and_do_not_run(site: HostileSite, serve: Serve, watch: Watch) -> None:
    root = serve(site.folder)
    with watch(viewport={"width": 320, "height": 640}, bypass_csp=True, service_workers="allow") as watched:
        page = watched.page
        page.goto(f"{root}?q=p0562", wait_until="load")
        answers = page.locator("#finder-results a")
        answers.first.wait_for()
        assert SHOWN[site.name][:60] in page.inner_text("#finder-results")
        for text in (SITES[site.name][:200], "canary", "bold", "inside"):
            page.fill("#finder", text)
            page.locator("#finder-status:not(:empty)").wait_for()
        assert page.evaluate("() => window.canary") is None
        wide = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
        assert wide <= 0
        assert watched.complaints == []


def test_a_plan_followed_to_its_end_reads_and_does_not_run(site: HostileSite, serve: Serve, watch: Watch) -> None:
    root = serve(site.folder)
    with watch(viewport={"width": 320, "height": 640}, bypass_csp=True) as watched:
        page = watched.page
        page.goto(root + KINDS["fault"])
        page.locator("[data-plan-ready]").wait_for()
        page.locator(".situation summary").click()
        page.locator("#plan-model").select_option(index=1)
        for _ in range(20):
            answer = page.locator(".now .answer-button--good, .now .answer-button:has-text('Did not help')")
            if answer.count() == 0:
                break
            answer.first.click()
        page.locator(".tell__text").wait_for()
        assert SHOWN[site.name][:60] in page.locator(".tell__text").inner_text()
        # The note has the bike, the answers and the causes from the browser.
        sheet = page.locator("#call-sheet")
        assert SHOWN[site.name][:60] in (sheet.locator("[data-sheet-bike]").text_content() or "")
        told = sheet.text_content() or ""
        assert "after these checks" in told or "ruled out" in told
        page.goto(f"{root}several/?codes=P0562,P0230")
        page.locator(".several-code .row").first.wait_for()
        assert SHOWN[site.name][:60] in page.locator("[data-several-each]").inner_text()
        assert page.evaluate("() => window.canary") is None
        wide = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
        assert wide <= 0
        assert watched.complaints == []
        assert watched.foreign == []


def test_a_question_in_the_address_does_not_run(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(bypass_csp=True) as watched:
        for string in ("script", "image", "link"):
            page = watched.page
            page.goto(serve(demo_site))
            page.goto(f"{serve(demo_site)}?q=" + page.evaluate("encodeURIComponent", STRINGS[string]))
            page.locator("#finder-status:not(:empty)").wait_for()
            assert page.input_value("#finder") == STRINGS[string]
            assert page.evaluate("() => window.canary") is None
        assert watched.complaints == []


def test_the_canary_would_be_seen(tmp_path: Path, serve: Serve, watch: Watch) -> None:
    """The tests above prove something only if a string that acts is noticed."""
    (tmp_path / "index.html").write_text(f"<!doctype html><p>{STRINGS['image']}</p>", encoding="utf-8")
    with watch() as watched:
        watched.page.goto(serve(tmp_path), wait_until="load")
        assert watched.page.evaluate("() => window.canary") == 1
