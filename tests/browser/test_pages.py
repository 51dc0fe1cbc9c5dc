"""Every kind of page of the demo in a real browser: whole, quiet, readable, and to be used by keyboard alone."""

from __future__ import annotations

import gzip
from collections import deque
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Page, ViewportSize, expect

from tests.support import site_links
from tests.support.places import Serve
from tests.support.two_builds import BELOW
from tests.support.watched import Watch, Watched, without_refresh

FAULT = "faults/voltage-sags-when-wet/"
MOVED = "faults/charging-drops-in-rain/"
KINDS = {
    "home": "",
    "home with answers": "?q=p0+562",
    "fault": FAULT,
    "code": "codes/p0562/",
    "all codes": "codes/",
    "several codes": "several/?codes=P0562,P0230",
    "model": "models/bittern-900/",
    "model year": "models/bittern-900/2007/",
    "models": "models/",
    "values of a model": "models/curlew-1100/values/",
    "values of a year": "models/curlew-1100/2019/values/",
    "handbook": "models/bittern-900/2007/handbook/",
    "mechanics": "for/mechanics/",
    "system": "systems/charging/",
    "systems": "systems/",
    "component": "components/regulator-rectifier/",
    "components": "components/",
    "my bike": "my-bike/",
    "report": "report/?fault=voltage-sags-when-wet&model=bittern-900&year=2006",
    "rule": "rules/kb402/",
    "rules": "rules/",
    "figures": "figures/",
    "coverage": "coverage/",
    "agenda": "agenda/",
    "new": "new/",
    "data": "data/",
    "hand-written": "safety/",
    "withdrawn": "faults/regulator-runs-hot/",
    "redirect": MOVED,
    "404": "no/such/page/",
}
"""A page of each kind, by its address."""
PHONE: ViewportSize = {"width": 390, "height": 844}
DESKTOP: ViewportSize = {"width": 1280, "height": 800}
NARROWEST: ViewportSize = {"width": 320, "height": 640}
_WHOLLY = ("home with answers", "fault")
"""Kinds that are looked at in each scheme at each width."""
_ONE_OF = (PHONE, DESKTOP)
_USUAL: dict[int, Literal["light", "dark"]] = {PHONE["width"]: "dark", DESKTOP["width"]: "light"}
INVENTED = "are invented, to show what such a site can be."


def settled(page: Page, address: str) -> int:
    """Open a page with its scripts, which the load event waits for, and give the status."""
    answer = page.goto(address, wait_until="load")
    assert answer is not None
    return answer.status


_PLACED = ("home with answers", "fault", "several codes", "my bike", "report", "redirect", "404")
"""Kinds of which scripts or links ask where the site stands: they are tried below a path as well."""
_PLACES = [*((kind, "/") for kind in KINDS), *((kind, BELOW) for kind in _PLACED)]

_LEAVE_SIX = """() => {
    for (const list of document.querySelectorAll("main :is(ul, ol, tbody, section)")) {
        const seen = new Map();
        for (const each of [...list.children].filter((child) => child.matches("li, tr, .card"))) {
            const kind = `${each.tagName} ${each.className}`;
            seen.set(kind, (seen.get(kind) ?? 0) + 1);
            if (seen.get(kind) > 6) each.remove();
        }
    }
}"""
"""Of rows and cards that the same lines of a template make, six stay: axe looks at each, and there are hundreds."""
_TOO_WIDE = """() => {
    const root = document.documentElement;
    if (root.scrollWidth <= root.clientWidth) return [];
    return [...document.querySelectorAll("body *")]
        .filter((each) => each.getBoundingClientRect().right > root.clientWidth)
        .map((each) => `${each.tagName} ${each.className}`);
}"""


@pytest.fixture
def root(request: pytest.FixtureRequest, kind: str, below: str, demo_site: Path, serve: Serve) -> str:
    """Where the site stands that has the page."""
    # All pages must work below any path, whatever address the club gave. The one exception is that of missing pages,
    # which must know where it stands: of a build for a site below a path.
    missing = kind == "404" and below != "/"
    return serve(request.getfixturevalue("builds")[0] if missing else demo_site, below)


@pytest.mark.parametrize(("kind", "below"), _PLACES)
def test_a_page_is_quiet_fits_its_screen_and_can_be_read_by_all(
    kind: str, below: str, root: str, watch: Watch, thorough: bool
) -> None:
    with watch(stay=kind == "redirect", viewport=NARROWEST) as watched:
        page = watched.page
        assert settled(page, root + KINDS[kind]) == (404 if kind == "404" else 200)
        for each in ("h1", "#finder", "#finder-results", "main"):
            assert page.locator(each).count() == 1
        assert INVENTED in page.inner_text("body")
        for viewport in (NARROWEST, DESKTOP):
            page.set_viewport_size(viewport)
            assert page.evaluate(_TOO_WIDE) == []
        if kind == "home with answers":
            expect(page.locator("#finder-results a").first).to_be_visible()
        if below == "/":
            if kind not in _WHOLLY and not thorough:
                page.evaluate(_LEAVE_SIX)
            _axe_finds_nothing(kind, watched)
        # The finder's script ran: it would otherwise fail in silence below a path.
        page.fill("#finder", "regulator")
        expect(page.locator("#finder-results a").first).to_be_visible()
        assert watched.complaints == []
        assert watched.foreign == []


def _axe_finds_nothing(kind: str, watched: Watched) -> None:
    """Pages share their parts: the main ones are looked at in all ways, each of the others in one of two."""
    for viewport in _ONE_OF if kind in _WHOLLY else (_ONE_OF[list(KINDS).index(kind) % 2],):
        watched.page.set_viewport_size(viewport)
        for scheme in ("light", "dark") if kind in _WHOLLY else (_USUAL[viewport["width"]],):
            watched.page.emulate_media(color_scheme=scheme)
            assert watched.axe() == [], f"{kind}, {scheme}, {viewport['width']} px"


def test_axe_finds_nothing_in_the_open_finder_of_the_header(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=PHONE, bypass_csp=True) as watched:
        settled(watched.page, serve(demo_site) + FAULT)
        watched.page.fill("#finder", "regulator")
        expect(watched.page.locator("#finder-results a").first).to_be_visible()
        # In both schemes and at both widths it is looked at on the home page.
        watched.page.emulate_media(color_scheme="dark")
        assert watched.axe() == []


def test_every_page_reads_without_javascript(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=PHONE, java_script_enabled=False) as watched:
        page = watched.page
        for kind, address in KINDS.items():
            if kind == "redirect":
                page.route("**/*", without_refresh)
            page.goto(serve(demo_site) + address)
            page.unroute_all()
            expect(page.locator("h1"), kind).to_be_visible()
            assert len(page.inner_text("main").split()) > 8, kind
            expect(page.locator("a:visible", has_text="All codes").first, kind).to_be_visible()
        page.goto(serve(demo_site) + FAULT)
        page.locator("a:visible", has_text="All codes").first.click()
        expect(page.locator("main a", has_text="P0562").first).to_be_visible()


def test_by_keyboard_alone_from_home_to_the_fault(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=PHONE, service_workers="allow") as watched:
        page = watched.page
        settled(page, serve(demo_site))
        page.keyboard.press("/")
        expect(page.locator("#finder")).to_be_focused()
        page.keyboard.type("p0 562")
        wanted = page.locator(f'#finder-results a[href$="{FAULT}"]')
        expect(wanted).to_be_visible()
        for _ in range(page.locator("#finder-results a").count()):
            page.keyboard.press("ArrowDown")
            if wanted.get_attribute("aria-selected") == "true":
                break
        page.keyboard.press("Enter")
        page.wait_for_url(f"**/{FAULT}")
        assert watched.complaints == []


def test_by_tab_alone_from_home_to_the_fault(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=DESKTOP) as watched:
        page = watched.page
        settled(page, serve(demo_site))
        press_tab_until(page, "document.activeElement.id === 'finder'")
        page.keyboard.type("P0562")
        expect(page.locator(f'#finder-results a[href$="{FAULT}"]')).to_be_visible()
        press_tab_until(page, f"document.activeElement.getAttribute('href')?.endsWith('{FAULT}')")
        page.keyboard.press("Enter")
        page.wait_for_url(f"**/{FAULT}")


def press_tab_until(page: Page, condition: str) -> None:
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate(f"() => Boolean({condition})"):
            return
    pytest.fail(f"Tab does not lead to where {condition}")


def test_the_finder_keeps_its_contract(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=PHONE, service_workers="allow") as watched:
        page = watched.page
        settled(page, serve(demo_site, BELOW) + "?q=p0 562")
        expect(page.locator("#finder")).to_have_value("p0 562")
        answers = page.locator("#finder-results a")
        expect(answers.first).to_be_visible()
        found = [page.evaluate("(link) => link.href", each) for each in answers.element_handles()]
        root = serve(demo_site, BELOW)
        assert found[0] == f"{root}codes/p0562/"
        assert f"{root}{FAULT}" in found[:4]
        for address in found:
            assert page.request.get(address).status == 200


@pytest.mark.parametrize(
    ("kind", "scheme"),
    [("home", "dark"), ("fault", "dark"), ("fault", "light"), ("code", "dark"), ("model year", "light")],
)
def test_focus_is_seen(kind: str, scheme: str, demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=PHONE, color_scheme=scheme) as watched:
        page = watched.page
        settled(page, serve(demo_site) + KINDS[kind])
        seen: set[str] = set()
        for _ in range(60):
            page.keyboard.press("Tab")
            name, visible = page.evaluate("""() => {
                const focused = document.activeElement;
                const shown = (element) => {
                    const style = getComputedStyle(element);
                    const outlined = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0;
                    return outlined || style.boxShadow !== "none";
                };
                const box = focused.closest("form div");
                const within = focused.tagName === "INPUT" && box !== null && shown(box);
                return [`${focused.tagName} ${focused.className} ${focused.id}`, shown(focused) || within];
            }""")
            if name.startswith("BODY"):
                break
            seen.add(name)
            assert visible, f"{name} has the focus, and nothing shows it"
        assert len(seen) >= 5


def test_an_old_address_leads_on(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=PHONE, service_workers="allow") as watched:
        watched.page.goto(serve(demo_site, BELOW) + MOVED)
        watched.page.wait_for_url(f"**{BELOW}{FAULT}")
        assert watched.complaints == []
    old = site_links.parsed(demo_site / MOVED / "index.html")
    assert any(link.endswith("voltage-sags-when-wet/") for link in old.links), "a link for who is not sent on"
    assert old.metas["robots"] == "noindex"


def test_a_withdrawn_entry_says_so_and_gives_no_advice(demo_site: Path) -> None:
    stone = site_links.parsed(demo_site / KINDS["withdrawn"] / "index.html")
    assert "withdrawn" in stone.text.lower()
    assert stone.metas["robots"] == "noindex"
    assert not {"ride", "checks", "fixes"} & set(stone.ids)
    everything = (demo_site / "sitemap.xml").read_text(encoding="utf-8")
    assert KINDS["withdrawn"] not in everything
    assert f"/{FAULT}" in everything


def test_a_fault_answers_in_the_order_in_which_an_owner_asks(demo_site: Path) -> None:
    order = ["ride", "free", "causes", "checks", "fixes", "codes", "before", "call-sheet", "cases", "sources"]
    ids = site_links.parsed(demo_site / FAULT / "index.html").ids
    assert [each for each in ids if each in order] == order
    for page in (demo_site / "faults").glob("*/index.html"):
        there = [each for each in site_links.parsed(page).ids if each in order]
        assert there == [each for each in order if each in there], page


def test_the_drawings_are_as_wide_as_they_say(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=NARROWEST) as watched:
        settled(watched.page, serve(demo_site) + FAULT + "#causes")
        drawn = watched.page.evaluate("""() => [...document.querySelectorAll(".cause")].map((cause) => {
            const width = (name) => cause.querySelector(name).getBoundingClientRect().width;
            const said = cause.querySelector(".share__percent").textContent;
            return [parseFloat(said), 100 * width(".bar__share") / width(".bar")];
        })""")
        assert len(drawn) == 5
        for said, wide in drawn:
            assert abs(said - wide) < 0.7, "rounded to a whole percent"


def test_a_fault_page_prints_whole(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=DESKTOP) as watched:
        settled(watched.page, serve(demo_site) + FAULT)
        watched.page.emulate_media(media="print")
        for seen in (".bar__share", ".plan-all .check__do", ".plan-all .end__title", ".fix__do", ".sources"):
            expect(watched.page.locator(seen).first).to_be_visible()
        # Paper is white, whatever the screen is.
        assert watched.page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
        assert watched.complaints == []


def test_a_fault_page_is_light(demo_site: Path) -> None:
    """A page with plan, data and note goes through a thin connection: 20 kB packed."""
    packed = {page.parent.name: len(gzip.compress(page.read_bytes())) for page in demo_site.glob("faults/*/index.html")}
    assert {name: size for name, size in packed.items() if size > 20_000} == {}


def test_the_contents_list_names_every_part(demo_site: Path) -> None:
    page = site_links.parsed(demo_site / FAULT / "index.html")
    assert {"#free", "#ride", "#codes", "#causes", "#checks", "#fixes"} <= set(page.links)


def test_every_page_says_that_it_is_invented_is_reached_by_links_and_has_no_dead_ones(demo_site: Path) -> None:
    """One pass over the whole site: to read 25 MB of it takes longer than all that is asked here."""
    every = {page: site_links.parsed(page) for page in site_links.pages(demo_site)}
    assert [page for page, parsed in every.items() if INVENTED not in parsed.text] == []
    assert [page for page, parsed in every.items() if len(parsed.ids) != len(set(parsed.ids))] == []
    assert [dead for page in every for dead in dead_links(demo_site, page)] == []
    listed = {page for page, parsed in every.items() if "robots" not in parsed.metas}
    assert listed - reached_from_home(demo_site) == set()


def dead_links(site: Path, page: Path) -> Iterator[str]:
    for _tag, address in site_links.parsed(page).addresses:
        found = site_links.target(site, page, address)
        if found is None:
            continue
        file, anchor = found
        # A folder of data has no page of its own: a script names the files in it.
        if not file.is_file() and not any(file.parent.glob("*.json")):
            yield f"{page.relative_to(site)}: {address}"
        elif anchor and anchor not in site_links.parsed(file).ids:
            yield f"{page.relative_to(site)}: {address}, no such anchor"


def reached_from_home(site: Path) -> set[Path]:
    reached = {site / "index.html"}
    waiting = deque(reached)
    while waiting:
        page = waiting.popleft()
        for link in site_links.parsed(page).links:
            found = site_links.target(site, page, link)
            if found is not None and found[0].suffix == ".html" and found[0] not in reached:
                reached.add(found[0])
                waiting.append(found[0])
    return reached


def test_a_fault_leads_to_every_other_page_about_it(demo_site: Path) -> None:
    page = demo_site / FAULT / "index.html"
    there = {site_links.target(demo_site, page, link) for link in site_links.parsed(page).links}
    files = {found[0].parent.relative_to(demo_site).as_posix() for found in there if found is not None}
    assert {
        "codes/p0562",
        "models/bittern-900",
        "models/bittern-900/2007",
        "models/curlew-1100/2010",
        "systems/charging",
        "components/regulator-rectifier",
        "faults/battery-flat-overnight",
    } <= files
    assert "models/bittern-900/2009" not in files, "that year is not concerned"


def test_no_draft_is_published(demo_site: Path) -> None:
    assert not (demo_site / "faults" / "quickshifter-misses").exists()
    holding = [file for file in demo_site.rglob("*") if file.is_file() and b"quickshifter-misses" in file.read_bytes()]
    assert holding == []
