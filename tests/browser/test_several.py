"""The page about several codes at once, held to its reference and to the definition that it follows."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from kbtools.browser_data.several_codes import several_files
from kbtools.index.answers import Index
from kbtools.model.codes import FaultCode
from kbtools.model.ride_advice import strictest
from kbtools.wording.labels import RIDE
from tests.support.common_part import code_faults, code_faults_record, suspects
from tests.support.places import ROOT, Serve
from tests.support.watched import Watch

PHONE = {"width": 390, "height": 844}
CANARY = "<img src=x onerror='window.ran = true'>"
SCRIPTS = ROOT / "site_overrides" / "assets" / "js"


@pytest.fixture
def address(demo_site: Path, serve: Serve) -> str:
    return f"{serve(demo_site)}several/"


def entered(page: Page) -> list[str]:
    return [text.split("×")[0] for text in page.locator(".several-chips .chip").all_text_contents()]


def parts(page: Page) -> list[tuple[str, str]]:
    rows = page.locator(".suspect__head")
    # Those beyond the third are folded, and so have no inner text.
    return [(row.locator("a").text_content() or "", row.locator("strong").text_content() or "") for row in rows.all()]


def code(text: str) -> FaultCode:
    return FaultCode(format="obd", text=text)


def expected_parts(codes: list[str], index: Index, bike: tuple[str, int] | None = None) -> list[tuple[str, str]]:
    found = suspects({each: code_faults(code(each), index, index.club) for each in codes}, bike)
    return [
        (index.base.components[each.component].name, f"{round(100 * each.probability)}\u00a0%")
        for each in found.suspects
        if each.probability >= 0.005
    ][:8]


@pytest.mark.parametrize("codes", [["P0562"], ["P0562", "P0230"], ["P0562", "U0121"], ["U0155", "P0562", "P0230"]])
def test_the_parts_are_those_that_python_ranks(codes: list[str], index: Index, address: str, watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(f"{address}?codes={','.join(codes)}")
        expect(page.locator(".suspect").first).to_be_visible()
        assert entered(page) == codes
        assert parts(page) == expected_parts(codes, index)
        assert watched.complaints == []
        assert watched.foreign == []


def test_a_part_behind_both_codes_comes_before_the_likeliest_of_one(serve: Serve, watch: Watch) -> None:
    """Worked by hand. Code A: part x 0.6, y 0.3; code B: y 0.5, z 0.4, each with 0.1 for what is not listed.

    x: 0.6 · 0.02 = 0.012; y: 0.3 · 0.5 = 0.15; z: 0.02 · 0.4 = 0.008; in all 0.17.
    """

    def fault(shares: dict[str, float]) -> dict[str, object]:
        causes: list[dict[str, object]] = [
            {"id": part, "component": part, "weight": share, "applies": None, "cases": {}}
            for part, share in shares.items()
        ]
        evidence = {"prior_strength": 4, "unlisted_share": 0.1, "causes": causes, "unlisted": {}}
        return {"fault": "some", "follow_on": False, "applies": {}, "evidence": evidence}

    with watch() as watched:
        watched.page.goto(f"{serve(SCRIPTS)}core/several.js")
        found = watched.page.evaluate(
            "async (codes) => (await import('/core/several.js')).suspects(codes, null).suspects",
            [["A", [fault({"x": 6, "y": 3})]], ["B", [fault({"y": 5, "z": 4})]]],
        )
        ranked = {each["component"]: each["probability"] for each in found}
        assert list(ranked) == ["y", "x", "z"]
        assert ranked == pytest.approx({"y": 0.15 / 0.17, "x": 0.012 / 0.17, "z": 0.008 / 0.17})


LOOKUP = """async ([files, formats]) => {
    const { Lookup } = await import("/core/several-lookup.js");
    const lookup = new Lookup(files["root.json"], async (name) => files[name]);
    return Promise.all(formats.map((code) => lookup.faults([code])));
}"""


def test_every_code_leads_to_the_faults_that_python_finds(index: Index, serve: Serve, watch: Watch) -> None:
    """Codes as the entries have them, without failure type, with one that no entry has, and codes that none has."""
    codes = list(index.uses_by_code)
    bare = [FaultCode(format=each.format, text=each.text.split("-")[0]) for each in codes if each.format == "obd"]
    typed = [FaultCode(format="obd", text=f"{each.text}-1C") for each in bare]
    asked = list(dict.fromkeys([*codes, *bare, *typed, code("P0999"), code("A0000"), code("ZZZZZ")]))
    files = json.loads(json.dumps(several_files(index)))
    with watch() as watched:
        watched.page.goto(f"{serve(SCRIPTS)}core/codes.js")
        found = watched.page.evaluate(LOOKUP, [files, [{"format": each.format, "text": each.text} for each in asked]])
    assert len(found) == len(asked) > 40
    for each, rows in zip(asked, found, strict=True):
        expected = code_faults_record(code_faults(each, index, index.club))
        kept = [{key: row[key] for key in ("fault", "follow_on", "applies", "evidence")} for row in rows]
        assert kept == json.loads(json.dumps(expected)), each


@pytest.mark.parametrize(
    ("typed", "codes"),
    [
        ("p0 562", ["P0562"]),
        ("P0562, u0121; C1018", ["P0562", "U0121", "C1018"]),
        ("0x0562", ["P0562"]),
        ("2 stored faults\nP0562 System voltage low\nU0121: lost contact\n", ["P0562", "U0121"]),
        ("4-2", ["4-2"]),
        ("P0562 P0562", ["P0562"]),
    ],
)
def test_codes_are_read_in_any_notation_and_out_of_a_report(
    typed: str, codes: list[str], address: str, watch: Watch
) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(address)
        page.fill("#several-field", typed)
        page.press("#several-field", "Enter")
        expect(page.locator(".several-chips .chip").first).to_be_visible()
        assert entered(page) == codes
        assert page.evaluate("() => new URL(location.href).searchParams.get('codes')") == ",".join(codes)
        expect(page.locator("#several-field")).to_have_value("")
        assert watched.complaints == []


def test_codes_are_added_and_taken_out_again(index: Index, address: str, watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(f"{address}?codes=P0562")
        expect(page.locator(".suspect").first).to_be_visible()
        # The answer first: whoever comes with codes finds the form folded.
        expect(page.locator("#several-field")).to_be_hidden()
        page.locator(".several-fold summary").click()
        page.fill("#several-field", "P0230")
        page.get_by_role("button", name="Add").click()
        expect(page.locator(".several-chips .chip")).to_have_count(2)
        expect(page.locator("#several-field")).to_be_focused()
        assert parts(page) == expected_parts(["P0562", "P0230"], index)
        page.locator(".several-chips").get_by_role("button", name="P0562").click()
        expect(page.locator(".several-chips .chip")).to_have_count(1)
        assert parts(page) == expected_parts(["P0230"], index)
        expect(page.locator(".several-chips .chip")).to_be_focused()
        page.locator(".several-chips .chip").click()
        expect(page.locator(".several-chips .chip")).to_have_count(0)
        assert "codes=" not in page.url
        page.fill("#several-field", "it coughs")
        page.press("#several-field", "Enter")
        expect(page.locator("[data-several-status]")).to_contain_text("No code could be read")
        expect(page.locator("#several-field")).to_have_value("it coughs")


def test_what_follows_and_what_nobody_knows_is_marked(address: str, watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(f"{address}?codes=P0562,U0121,P0999")
        follows = page.locator(".several-code", has=page.locator(".code__text", has_text="U0121"))
        expect(follows).to_contain_text("left out here")
        unknown = page.locator(".several-code", has=page.locator(".code__text", has_text="P0999"))
        expect(unknown).to_contain_text("Nobody has written about it")
        assert unknown.locator("a").count() == 0
        expect(page.locator("[data-verdict-why]")).to_contain_text("Of P0999 nothing is known")


def test_the_strictest_advice_shows_and_none_is_no_permission(index: Index, address: str, watch: Watch) -> None:
    codes = ["P0562", "P0230", "U0155"]
    faults = {row.fault for each in codes for row in code_faults(code(each), index, index.club)}
    advice = [index.published[each].ride_advice for each in faults]
    level = strictest([each.level for each in advice if each is not None])
    free = next(
        each.text
        for each, uses in index.uses_by_code.items()
        if {use.fault.ride_advice.level for use in uses if use.fault.ride_advice} == {"no-restriction"}
    )
    with watch(viewport=PHONE) as watched:
        page = watched.page
        for asked, answer in (
            (",".join(codes), RIDE[level].answer),
            ("P0999", RIDE[None].answer),
            (free, RIDE["no-restriction"].answer),
            (f"{free},P0999", RIDE[None].answer),
        ):
            page.goto(f"{address}?codes={asked}")
            expect(page.locator(".ride__answer")).to_have_text(answer)


def test_my_bike_narrows_it(index: Index, address: str, watch: Watch) -> None:
    bike = ("curlew-1100", 2012)
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(f"{address}?codes=P0562,U0121")
        expect(page.locator(".suspect").first).to_be_visible()
        page.locator(".several-fold summary").click()
        page.locator("#several-model").select_option(bike[0])
        page.locator("#several-year").select_option(str(bike[1]))
        page.locator("#several-field").focus()
        expected = expected_parts(["P0562", "U0121"], index, bike)
        assert expected != expected_parts(["P0562", "U0121"], index)
        assert parts(page) == expected
        page.reload()
        expect(page.locator(".suspect").first).to_be_visible()
        assert parts(page) == expected
        shown = {
            link.split("/")[-2]
            for link in page.locator(".several-code .row__link").evaluate_all("all => all.map((each) => each.href)")
        }
        assert shown == {
            row.fault
            for each in ("P0562", "U0121")
            for row in code_faults(code(each), index, index.club)
            if bike[1] in index.scopes[row.fault].get(bike[0], {})
        }


def test_links_lead_to_pages(address: str, demo_site: Path, watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        # A failure type that no entry has: the page of the code without it.
        page.goto(f"{address}?codes=P0562-1C,P0230,C1018")
        expect(page.locator(".suspect").first).to_be_visible()
        links: list[str] = page.locator("[data-several-each] a, [data-several-parts] a").evaluate_all(
            "all => all.map((each) => each.pathname)"
        )
        assert len(links) > 6
        for link in links:
            assert (demo_site / link.strip("/") / "index.html").is_file(), link


def test_only_what_is_needed_is_fetched_and_what_fails_is_told(address: str, watch: Watch) -> None:
    # The worker's own requests pass by what a test puts in their way.
    with watch(viewport=PHONE) as watched:
        page = watched.page
        asked: list[str] = []
        page.on(
            "request",
            lambda request: asked.append(request.url.rsplit("/", 1)[1]) if "/data/several-" in request.url else None,
        )
        page.goto(address)
        page.wait_for_load_state("networkidle")
        assert asked == ["root.json"]
        page.route(re.compile(r"/data/several-[^/]+/\d+\.json"), lambda route: route.abort())
        page.fill("#several-field", "P0562")
        page.press("#several-field", "Enter")
        expect(page.locator("[data-several-status]")).to_contain_text("did not arrive")
        page.unroute_all()
        page.fill("#several-field", "P0230")
        page.press("#several-field", "Enter")
        expect(page.locator(".suspect").first).to_be_visible()
        assert entered(page) == ["P0562", "P0230"]
        # Whoever comes with codes in the address need not type them once more.
        root = re.compile(r"/data/several-[^/]+/root\.json")
        page.route(root, lambda route: route.abort())
        page.reload()
        expect(page.locator("[data-several-status]")).to_contain_text("did not arrive")
        page.unroute(root)
        page.get_by_role("button", name="Try again").click()
        expect(page.locator(".suspect").first).to_be_visible()
        assert entered(page) == ["P0562", "P0230"]
        expect(page.locator("[data-several-status]")).to_contain_text("The part to look at first")


def test_texts_of_entries_are_shown_and_never_run(address: str, watch: Watch) -> None:
    def hostile(route: Any) -> None:
        answer = route.fetch()
        data = answer.json()
        for each in data.get("faults", []):
            each["title"] = CANARY
        for each in data.get("components", {}):
            data["components"][each] = CANARY
        for row in data.get("models", []):
            row[1] = CANARY
        route.fulfill(response=answer, body=json.dumps(data))

    with watch(viewport={"width": 320, "height": 640}, bypass_csp=True) as watched:
        page = watched.page
        page.route("**/data/several-*/*.json", hostile)
        page.goto(f"{address}?codes=P0562,P0230,%3Cimg%20src=x%20onerror=window.ran=1%3E")
        expect(page.locator(".suspect").first).to_be_visible()
        assert CANARY in page.locator("[data-several-each]").inner_text()
        assert page.evaluate("() => window.ran") is None
        assert page.locator("main img").count() == 0
        wide = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
        assert wide <= 0


def test_axe_finds_nothing_and_nothing_moves_sideways(address: str, watch: Watch) -> None:
    with watch(viewport={"width": 320, "height": 640}, bypass_csp=True) as watched:
        page = watched.page
        for query in ("", "?codes=P0562,P0230,U0121,P0999"):
            page.goto(address + query)
            if query:
                expect(page.locator(".suspect").first).to_be_visible()
            wide = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
            assert wide <= 0
            for scheme in ("light", "dark"):
                page.emulate_media(color_scheme=scheme)
                assert watched.axe() == [], scheme


def test_without_javascript_it_explains_and_leads_on(address: str, watch: Watch) -> None:
    with watch(viewport=PHONE, java_script_enabled=False) as watched:
        page = watched.page
        page.goto(address)
        expect(page.locator("main noscript p")).to_be_visible()
        expect(page.locator("[data-several-form]")).to_be_hidden()
        page.locator("main").get_by_role("link", name="list of all codes").click()
        page.wait_for_url("**/codes/")


def test_the_list_of_codes_leads_here(demo_site: Path, serve: Callable[..., str], watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        watched.page.goto(f"{serve(demo_site)}codes/")
        watched.page.get_by_role("link", name="More than one code at once?").click()
        watched.page.wait_for_url("**/several/")
