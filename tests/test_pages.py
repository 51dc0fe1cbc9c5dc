"""What the generated pages say, in which order, and that no link of theirs leads nowhere."""

from __future__ import annotations

import dataclasses
import datetime as dt
import posixpath
from html.parser import HTMLParser
from pathlib import Path
from types import UnionType
from typing import Any, get_args, get_origin, get_type_hints

import factories as make
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Tried
from kbtools.model.codes import CodeReading
from kbtools.model.fault import DistinctFrom, Part, Reading, RideLevel, Verify
from kbtools.pages.catalogue import collisions
from kbtools.pages.spec import PageSpec
from kbtools.pages.words import share_words
from kbtools.pages.work import access_jobs
from kbtools.rendering import DeadLinkError, Renderer, relative


class Article(HTMLParser):
    """Links, ids, headings and text of an article, as a browser reads it."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: list[str] = []
        self.sections: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.feed(html)
        self.close()
        self.text = " ".join(self.text.split())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = dict(attrs)
        self.tags.append((tag, attributes))
        if tag == "a":
            self.links.append(attributes["href"] or "")
        if attributes.get("id"):
            self.ids.append(attributes["id"] or "")
            if tag in {"section", "nav"}:
                self.sections.append(attributes["id"] or "")

    def handle_data(self, data: str) -> None:
        self.text += f"{data} "


def full_base(**changes: Any) -> KnowledgeBase:
    """A base in which every page kind and every link between them occurs."""
    plug = make.cause(
        "plug",
        component="regulator",
        share=6.0,
        often_with=("stator",),
        applies_to=(make.row(when="2003-2005", note="Early loom."),),
        only_if="Is the plug green?",
        fix=make.fix(
            parts=(Part(name="Terminal kit", price=make.span(8, 20), at=""),),
            tools=("multimeter",),
            access=("tank-off",),
            verify=Verify(do="Measure again.", expect="13.5 to 14.8 V"),
        ),
    )
    stator = make.cause("stator", share=3.0, component="regulator", fix=make.fix(skill="workshop"))
    reading = Reading(
        place="battery posts",
        when="warm",
        good=make.span(13.5, 14.8),
        unit="V",
        low_points_to=("plug",),
        high_points_to=("stator",),
        at="",
    )
    sags = make.fault(
        "sags",
        applies_to=(make.row(when="2003-2008", unit="ecu"), make.row("curlew-1100", "2024-", only_if="Finned?")),
        codes=(
            make.code("P0562", unit="ecu", meaning="System voltage low", sets_when="Below 11.5 V."),
            make.code("4-2", follow_on=True, with_codes=(make.code("P0562").read, make.code("P0999").read)),
        ),
        symptoms=("Lamp flickers",),
        ride_advice=make.advice("ride-to-workshop", stop_if=("The *other* lamp comes on",)),
        cautions=("battery-gas",),
        causes=(plug, stator),
        checks=(
            make.check("look", points_to=("plug",), finds=0.8, access=("tank-off",), tools=("multimeter",)),
            make.check("volts", expect=None, reading=reading, bike="running", only_while_present=True, cost=5.0),
        ),
        sources=(
            make.source("manual", url="https://manual.example/", archived="https://archive.example/"),
            make.source("bulletin", number="B-1", covers=("plug",)),
            make.source("recall", number="R-1", issuer="Ostrel", region="EU", applies_to=(make.row(when="2003"),)),
        ),
        related=("flat",),
        distinct_from=(DistinctFrom(fault="typed", because="That one drains.", at=""),),
        formerly=("sags-in-rain",),
    )
    flat = make.fault("flat", codes=(make.code("P0562"),), ride_advice=make.advice("no-restriction"))
    typed = make.fault("typed", codes=(make.code("P0562-11"),), system="abs", ride_advice=make.advice("do-not-ride"))
    gone = make.fault("gone", withdrawn=make.withdrawn(replaced_by="sags"))
    parts: dict[str, Any] = {
        "systems": [make.system(), make.system("brakes", safety_critical=True), make.system("abs", parent="brakes")],
        "components": [make.component("regulator"), make.component("lamp", system="abs")],
        "access": [make.access("tank-off", "seat-off", cautions=("fuel",)), make.access("seat-off")],
        "cautions": [
            *make.base().cautions.values(),
            dataclasses.replace(make.base().cautions["battery-gas"], id="fuel", text="Fuel *burns*."),
        ],
        "models": [
            make.model(control_units=(make.unit("ecu", "2003-2007"),), also_called=("B9",)),
            make.model("curlew-1100", "2024-"),
        ],
        "cases": [
            make.case("one", "sags", outcome={"state": "solved", "cause": "plug"}),
            make.case("two", symptoms=("It ticks",)),
        ],
    }
    return make.base(sags, flat, typed, gone, make.fault("secret", draft=True), **{**parts, **changes})


def all_articles(base: KnowledgeBase) -> tuple[dict[str, PageSpec], dict[str, Article]]:
    specs = make.pages(base)
    hand_written = {"safety/"} if any(page.path == "pages/safety.md" for page in base.pages) else set()
    renderer = Renderer(specs.keys() | hand_written)
    return specs, {address: Article(make.rendered(spec, renderer)) for address, spec in specs.items()}


def target(link: str, address: str) -> tuple[str, str]:
    """Address and anchor to which a relative link on a page leads."""
    path, _, anchor = link.partition("#")
    if not path:
        return address, anchor
    joined = posixpath.normpath(posixpath.join("/", address, path)).lstrip("/")
    return (f"{joined}/" if joined else ""), anchor


SPECS, ARTICLES = all_articles(full_base())


@pytest.mark.parametrize("address", ARTICLES)
def test_every_link_leads_to_a_page_and_to_a_place_on_it(address: str) -> None:
    for link in ARTICLES[address].links:
        if link.startswith("https://"):
            continue
        page, anchor = target(link, address)
        assert page in ARTICLES
        assert not anchor or anchor in ARTICLES[page].ids


@pytest.mark.parametrize("address", ARTICLES)
def test_a_page_has_one_first_heading_its_sections_and_no_id_twice(address: str) -> None:
    article, spec = ARTICLES[address], SPECS[address]
    assert [tag for tag, _ in article.tags].count("h1") == 1
    assert len(article.ids) == len(set(article.ids))
    assert [each for each in article.sections if each in {section.id for section in spec.sections}] == [
        section.id for section in spec.sections
    ]


def test_every_page_can_be_reached_from_the_home_page() -> None:
    seen, to_do = set(), [""]
    while to_do:
        address = to_do.pop()
        if address not in seen:
            seen.add(address)
            to_do.extend(target(link, address)[0] for link in ARTICLES[address].links if "://" not in link)
    # Only who follows an old link from elsewhere comes to an old address.
    assert set(ARTICLES) - seen == {"faults/sags-in-rain/"}


@pytest.mark.parametrize(
    ("page", "leads_to"),
    [
        (
            "faults/sags/",
            "codes/p0562/ codes/4-2/ models/bittern-900/ models/bittern-900/2007/ models/curlew-1100/2027/ "
            "systems/charging/ components/regulator/ faults/flat/ faults/typed/ faults/gone/",
        ),
        ("faults/flat/", "faults/sags/"),
        ("faults/typed/", "faults/sags/ systems/brakes/ systems/abs/"),
        ("codes/p0562/", "faults/sags/ faults/flat/ faults/typed/ codes/p0562-11/ models/bittern-900/ codes/"),
        ("codes/p0562-11/", "faults/typed/ codes/p0562/ systems/abs/"),
        ("models/bittern-900/", "models/bittern-900/2003/ faults/sags/ systems/charging/ codes/p0562/ models/"),
        ("models/bittern-900/2004/", "models/bittern-900/2003/ models/bittern-900/2005/ models/bittern-900/"),
        ("systems/brakes/", "systems/abs/ faults/typed/ models/bittern-900/ components/"),
        ("systems/abs/", "components/lamp/ faults/typed/ codes/p0562-11/"),
        ("components/regulator/", "faults/sags/ systems/charging/ codes/p0562/"),
        ("codes/", "codes/p0562/ codes/p0562-11/ codes/4-2/ systems/charging/ models/curlew-1100/"),
        ("", "models/ systems/ codes/ components/ models/bittern-900/ systems/charging/"),
    ],
)
def test_a_page_leads_to_what_a_reader_wants_next(page: str, leads_to: str) -> None:
    found = {target(link, page)[0] for link in ARTICLES[page].links}
    assert set(leads_to.split()) <= found


def test_a_fault_answers_in_the_order_in_which_an_owner_asks() -> None:
    order = ["free", "ride", "codes", "causes", "before", "checks", "fixes", "cases", "sources", "next"]
    assert ARTICLES["faults/sags/"].sections == order
    # What an entry does not have leaves no empty heading behind.
    assert ARTICLES["faults/flat/"].sections == ["ride", "codes", "causes", "before", "fixes", "sources", "next"]


def test_drafts_are_nowhere() -> None:
    assert "faults/secret/" not in SPECS
    assert not any("secret" in article.text for article in ARTICLES.values())


def test_a_dead_link_is_an_error_that_names_both_pages() -> None:
    specs = make.pages(full_base())
    renderer = Renderer(specs.keys() - {"components/regulator/"})
    with pytest.raises(DeadLinkError, match=r"faults/sags/.*components/regulator/"):
        renderer.article(specs["faults/sags/"])


@given(st.lists(st.from_regex(r"[a-z0-9-]{1,5}/", fullmatch=True), max_size=4).map("".join), st.integers(0, 4))
def test_a_relative_link_leads_where_it_should(address: str, depth: int) -> None:
    page = "x/" * depth
    assert target(relative(address, depth), page) == (address, "")


# May I ride it.


@pytest.mark.parametrize(
    ("levels", "answer"),
    [
        (["no-restriction", "do-not-ride", "ride-with-care"], "No. Do not ride it."),
        (["no-restriction", "ride-with-care"], "Yes, with care."),
        (["no-restriction"], "Yes, without restriction."),
        ([None], "Not known."),
        ([None, "ride-with-care"], "Yes, with care."),
    ],
)
def test_the_strictest_advice_stands_on_a_code_page(levels: list[RideLevel | None], answer: str) -> None:
    faults = [
        make.fault(f"f{place}", codes=(make.code("P0562"),), ride_advice=level and make.advice(level))
        for place, level in enumerate(levels)
    ]
    assert f"May I ride it? {answer}" in Article(make.article(make.base(*faults), "codes/p0562/")).text


def test_a_code_page_heeds_the_faults_under_the_same_code_with_a_failure_type() -> None:
    # A reader that shows no failure type must not hide the stricter advice.
    assert "No. Do not ride it." in ARTICLES["codes/p0562/"].text
    assert "No. Do not ride it." in ARTICLES["codes/p0562-11/"].text


def test_ride_advice_says_why_and_when_to_stop() -> None:
    text = ARTICLES["faults/sags/"].text
    assert "To the workshop, and no further. Because. Stop at once if: The other lamp comes on" in text


# Whom it concerns, and what may be free.


def test_recalls_and_bulletins_come_first_on_a_model_year() -> None:
    article = ARTICLES["models/bittern-900/2003/"]
    assert article.sections[:2] == ["notices", "faults"]
    assert article.text.index("Recall R-1") < article.text.index("Bulletin B-1")
    # The recall's own rows name 2003 alone, so 2004 has the bulletin only.
    assert "R-1" not in ARTICLES["models/bittern-900/2004/"].text
    assert "B-1" in ARTICLES["models/bittern-900/2004/"].text


def test_a_recall_that_stands_in_two_faults_is_told_once() -> None:
    recall = make.source("recall", number="R-1", issuer="Ostrel")
    base = make.base(make.fault("a", sources=(recall,)), make.fault("b", sources=(recall,)))
    text = Article(make.article(base, "models/bittern-900/2003/")).text
    assert text.count("R-1") == 1
    assert text.index("Title of a") < text.index("Title of b")


def test_a_question_is_asked_and_never_answered() -> None:
    base = make.base(make.fault("f", applies_to=(make.row(only_if="Is it *finned*?"),)))
    assert "Only if this is so on your bike: Is it finned ?" in Article(make.article(base, "faults/f/")).text
    assert "Only if: Is it finned ?" in Article(make.article(base, "models/bittern-900/2003/")).text


def test_a_model_shows_its_control_units_in_words_and_as_bars() -> None:
    article = ARTICLES["models/bittern-900/"]
    assert "Unit ecu 2003–2007" in article.text
    bars = [attributes for tag, attributes in article.tags if tag == "rect"]
    # Five of the model's ten years, from the first one on.
    assert [(bar["x"], bar["width"]) for bar in bars] == [("0", "5")]


def test_model_years_turn_to_the_one_before_and_after() -> None:
    first, last = ARTICLES["models/bittern-900/2003/"], ARTICLES["models/bittern-900/2012/"]
    assert [a.get("rel") for tag, a in first.tags if tag == "a" and a.get("rel")] == ["next"]
    assert [a.get("rel") for tag, a in last.tags if tag == "a" and a.get("rel")] == ["prev"]


def test_a_case_that_nobody_has_explained_stands_on_its_model_year() -> None:
    text = ARTICLES["models/bittern-900/2007/"].text
    assert "1 case that nobody has explained yet" in text
    assert "Nobody knows yet what it is. Noticed: It ticks ." in text


# Causes, checks, fixes.


@pytest.mark.parametrize(
    ("weights", "words"),
    [
        ([6.0, 3.0, 1.0], ["Often", "Sometimes", "Rarely"]),
        ([6.0, 6.0], ["Often", "Often"]),
        ([70.0, 20.0, 10.0], ["Often", "Sometimes", "Rarely"]),
        ([None, None], [None, None]),
        ([6.0], [None]),
        ([], []),
    ],
)
def test_shares_are_told_in_words(weights: list[float | None], words: list[str | None]) -> None:
    causes = [make.cause(f"c{place}", share=weight) for place, weight in enumerate(weights)]
    assert list(share_words(causes)) == words


def test_what_a_cause_costs_at_home_and_in_a_workshop() -> None:
    # By hand: parts 8 to 20; 0.5 to 1 h at 70 to 95 an hour is 35 to 95; an owner takes twice the hours.
    text = ARTICLES["faults/sags/"].text
    assert "At home 8–20\u00a0EUR".replace("\u00a0", " ") in text.replace("\u00a0", " ")
    assert "for parts, 1–2 h of your own time In a workshop 43–115 EUR parts and 0.5–1 h of labour" in text.replace(
        "\u00a0", " "
    )
    assert "At home Not advised." in text


def test_a_part_without_a_known_price_gives_no_sum() -> None:
    parts = (
        Part(name="Kit", price=make.span(8, 20), at=""),
        Part(name="Seal", price=None, at=""),
    )
    base = make.base(make.fault("f", causes=(make.cause(fix=make.fix(parts=parts)),)))
    text = Article(make.article(base, "faults/f/")).text
    assert "Seal (price not known)" in text
    assert "In a workshop parts and 0.5–1 h of labour" in text


def test_cautions_stand_at_the_top_of_the_work_and_at_the_step() -> None:
    text = ARTICLES["faults/sags/"].text
    before, checks, fixes = (text.index(each) for each in ("Before you start", "What to check first", "Mending it"))
    assert before < text.index("Keep sparks away.") < checks
    # The check itself names no caution: it is the tank that has to come off for it.
    fuel = [place for place in range(len(text)) if text.startswith("Fuel burns .", place)]
    assert len(fuel) == 2
    assert checks < fuel[0] < fixes < fuel[1]


def test_access_comes_with_what_it_needs_in_the_order_of_the_work() -> None:
    jobs = [make.access("c", "b", "a"), make.access("b", "a"), make.access("a")]
    base = make.base(access=jobs)
    assert [job.id for job in access_jobs(["c", "a"], base)] == ["a", "b", "c"]
    loop = make.base(access=[make.access("x", "y"), make.access("y", "x")])
    assert {job.id for job in access_jobs(["x"], loop)} == {"x", "y"}
    assert access_jobs(["nowhere"], base) == ()


def test_a_check_says_what_is_good_and_what_a_bad_result_means() -> None:
    text = ARTICLES["faults/sags/"].text.replace("\u00a0", " ")
    assert "Good: 13.5–14.8 V at battery posts , warm" in text
    assert "Too low: It is plug" in text
    assert "Too high: It is stator" in text
    assert "It shows on 8 of ten bikes with such a cause" in text
    assert "It says something only while the fault is there." in text
    assert "costs 5 EUR" in text
    assert "Seat-off" not in text
    assert "Access seat-off (3 min), then access tank-off (3 min) first" in text


def test_codes_say_when_they_set_and_which_one_comes_first() -> None:
    text = ARTICLES["faults/sags/"].text
    assert "P0562 System voltage low Reported by: Unit ecu. Sets when: Below 11.5 V." in text
    assert "Here it is a consequence: look for the code behind it first." in text
    assert "P stands for powertrain." in text
    # P0999 has no entry and so no page, but it is still named.
    assert "Only together with: P0562 , P0999 ." in text
    assert "codes/p0999/" not in SPECS


def test_a_lamp_code_means_nothing_without_its_control_unit() -> None:
    assert "it means nothing without the control unit that shows it" in ARTICLES["codes/4-2/"].text


def test_cases_say_what_it_was_and_what_did_not_help() -> None:
    tried = (
        Tried(check=None, fix="stator", result="no-change", reading=None, at=""),
        Tried(check=None, fix="plug", result="helped", reading=None, at=""),
        Tried(check="look", fix=None, result="bad", reading=None, at=""),
    )
    outcome = {"state": "returned", "cause": "plug", "note": "Only the *middle* way."}
    base = full_base(cases=[make.case("one", "sags", tried=tried, outcome=outcome)], club=make.club(distance_unit="mi"))
    text = Article(make.article(base, "faults/sags/")).text
    # 61,200 km are 38,028 miles, by units(1): 38027.917.
    assert "Bittern 900, 2007 38\u202f028\u00a0mi".replace("\u202f", " ").replace("\u00a0", " ") in text.replace(
        "\u202f", " "
    ).replace("\u00a0", " ")
    assert "Came back after the fix It was: It is plug . Did not help: It is stator. Only the middle way." in text


# Sources and reviews.


def test_sources_are_linked_only_to_the_web() -> None:
    hostile = make.source(url="javascript:alert(1)", archived="data:text/html,x", title="Bad <b>link</b>")
    html = make.article(make.base(make.fault("f", sources=(hostile,))), "faults/f/")
    assert "javascript:" not in html
    assert "data:text" not in html
    assert "Bad &lt;b&gt;link&lt;/b&gt;" in html


@pytest.mark.parametrize(("today", "overdue"), [(dt.date(2028, 3, 1), False), (dt.date(2028, 4, 1), True)])
def test_an_old_review_is_said_to_be_old(today: dt.date, overdue: bool) -> None:
    # Reviewed on 14 March 2026, due after 24 months.
    base = make.base(make.fault("f"))
    specs = make.pages(base, today)
    html = Renderer(specs.keys()).article(specs["faults/f/"])
    assert "Reviewed on 14 March 2026 by curator-3" in html
    assert ("review is overdue" in html) == overdue


def test_the_page_about_safety_is_linked_where_there_is_one() -> None:
    assert "safety/" not in make.article(full_base(), "faults/sags/")
    assert 'href="../../safety/"' in make.article(full_base(pages=(make.hand_page("pages/safety.md"),)), "faults/sags/")


# What is gone.


def test_a_withdrawn_entry_says_so_and_gives_no_advice() -> None:
    article, spec = ARTICLES["faults/gone/"], SPECS["faults/gone/"]
    assert "Withdrawn on 1 May 2026" in article.text
    assert "no longer advice" in article.text
    assert "Folded." in article.text
    assert "Read instead: Title of sags" in article.text
    assert "May I ride it" not in article.text
    assert "It is worn" not in article.text
    assert not spec.listed


def test_an_old_id_sends_on_to_the_entry() -> None:
    spec = SPECS["faults/sags-in-rain/"]
    assert spec.redirect_to == "faults/sags/"
    assert not spec.listed
    assert ARTICLES["faults/sags-in-rain/"].links == ["../../faults/sags/"]


def test_pages_that_claim_one_address_are_found() -> None:
    base = make.base(make.fault("a"), make.fault("b", formerly=("a",)))
    specs = make.pages(base).values()
    assert not collisions(specs)
    found = collisions([*specs, make.pages(make.base(make.fault("b", formerly=("a",))))["faults/a/"]])
    assert [each.address for each in found] == ["faults/a/"]
    found = collisions(specs, [("Models/", "pages/Models.md"), ("about/", "pages/about.md")])
    assert [each.titles for each in found] == [("Models", "pages/Models.md")]


# Hostile texts.

CANARY = (
    "</title><script>canary()</script>\"'><img src=x onerror=canary()>{{ canary }} **[x](javascript:canary())\u202e"
)


def hostile(value: Any, hint: Any, name: str = "") -> Any:
    """The value with every text in it replaced by a hostile one; ids, addresses and words of a fixed list stay."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type | CodeReading):
        hints = get_type_hints(type(value))
        return dataclasses.replace(
            value,
            **{
                each.name: hostile(getattr(value, each.name), hints[each.name], each.name)
                for each in dataclasses.fields(value)
            },
        )
    if isinstance(value, tuple):
        inner = get_args(hint)[0] if get_origin(hint) is tuple else Any
        return tuple(hostile(each, inner, name) for each in value)
    if isinstance(value, str) and name in TEXT_FIELDS:
        return CANARY
    return value


TEXT_FIELDS = {
    *("name", "also_called", "text", "only_if", "note", "meaning", "sets_when", "why", "stop_if", "summary", "do"),
    *(
        "expect",
        "place",
        "when",
        "unit_name",
        "title",
        "number",
        "issuer",
        "region",
        "url",
        "archived",
        "because",
        "by",
    ),
    *("second", "reason", "symptoms", "modified", "conditions", "reading"),
}
assert UnionType  # keeps the import of typing's helpers honest for Python 3.11


def hostile_base() -> KnowledgeBase:
    base = full_base(pages=(make.hand_page("pages/safety.md"),))
    changed = {
        kind: {key: hostile(value, Any) for key, value in getattr(base, kind).items()}
        for kind in ("systems", "components", "access", "tools", "cautions", "models", "faults", "cases")
    }
    return dataclasses.replace(base, club=dataclasses.replace(base.club or make.club(), name=CANARY), **changed)


ALLOWED_ATTRIBUTES = {
    *("class", "id", "href", "rel", "role", "type", "for", "name", "method", "action", "hidden", "open", "placeholder"),
    *("viewbox", "width", "height", "fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin"),
    *("stroke-dasharray", "d", "cx", "cy", "r", "x", "y", "focusable", "preserveaspectratio", "enterkeyhint"),
    *("autocomplete", "autocapitalize", "autocorrect", "spellcheck", "maxlength"),
}


def test_hostile_texts_are_shown_and_never_run() -> None:
    base = hostile_base()
    specs, articles = all_articles(base)
    assert specs.keys() == SPECS.keys()
    for address, article in articles.items():
        for tag, attributes in article.tags:
            assert tag not in {"script", "img", "iframe", "style", "title", "link", "object"}, address
            odd = {name for name in attributes if not name.startswith(("aria-", "data-"))} - ALLOWED_ATTRIBUTES
            assert not odd, (address, tag, odd)
        assert not any("javascript:" in link for link in article.links)
        assert "\u202e" not in article.text
    shown = articles["faults/sags/"].text
    # Each text once and more: title, symptoms, ride advice, codes, causes, checks, fixes, sources, cases.
    assert shown.count("<script>canary()</script>") > 30
    assert "{{ canary }}" in shown
    assert "⟦U+202E⟧" in shown


def test_a_template_that_changes_is_read_again(tmp_path: Path) -> None:
    (tmp_path / "redirect.html").write_text("before {{ to.title }}")
    spec = SPECS["faults/sags-in-rain/"]
    renderer = Renderer(SPECS.keys(), tmp_path)
    assert renderer.article(spec) == "before Title of sags"
    changed = tmp_path / "redirect.html"
    changed.write_text("after {{ to.title }}")
    import os

    os.utime(changed, (1, 1))
    assert renderer.article(spec) == "after Title of sags"


def test_a_template_never_prints_what_is_not_there(tmp_path: Path) -> None:
    (tmp_path / "redirect.html").write_text("{{ spec.edit_path }}")
    with pytest.raises(TypeError, match="not there"):
        Renderer(SPECS.keys(), tmp_path).article(SPECS["faults/sags-in-rain/"])
