"""What the generated pages say, and in which order."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from kbtools.edges.rendering import Renderer
from kbtools.model.case import Cleared, SeenCode, Tried
from kbtools.model.codes import read_code
from kbtools.model.fault import Part
from kbtools.model.money import Distance
from kbtools.model.ride_advice import RideLevel
from kbtools.pages.catalogue import collisions
from kbtools.wording.labels import share_words
from tests.support import factories as make
from tests.support.page_reader import Article, full_base, full_pages


def page(address: str) -> Article:
    """The article at an address of the full base."""
    return full_pages()[1][address]


def test_a_fault_answers_in_the_order_in_which_an_owner_asks() -> None:
    order = ["ride", "free", "causes", "checks", "fixes", "codes", "before", "call-sheet", "cases", "sources", "next"]
    assert page("faults/sags/").sections == order
    # What an entry does not have leaves no empty heading behind.
    assert page("faults/flat/").sections == [
        *("ride", "causes", "checks", "fixes", "codes", "before", "call-sheet", "sources", "next"),
    ]


def test_drafts_are_nowhere() -> None:
    assert "faults/secret/" not in full_pages()[0]
    assert not any("secret" in article.text for article in full_pages()[1].values())


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
    assert "No. Do not ride it." in page("codes/p0562/").text
    assert "No. Do not ride it." in page("codes/p0562-11/").text


def test_a_fault_without_advice_is_not_known_and_never_free_to_ride() -> None:
    base = make.base(make.fault("f", ride_advice=None))
    assert "May I ride it? Not known." in Article(make.article(base, "faults/f/")).text
    assert "Title of f Not known" in Article(make.article(base, "models/bittern-900/")).text


def test_ride_advice_says_why_and_when_to_stop() -> None:
    text = page("faults/sags/").text
    assert "To the workshop only. Because. First step" in text
    assert (
        text.index("First step")
        < text.index("Stop at once if: The other lamp comes on")
        < text.index("What it usually is")
    )


# Whom it concerns, and what may be free.


def test_recalls_and_bulletins_come_first_on_a_model_year() -> None:
    article = page("models/bittern-900/2003/")
    assert article.sections[:2] == ["notices", "faults"]
    assert article.text.index("Recall R-1") < article.text.index("Bulletin B-1")
    # The recall's own rows name 2003 alone, so 2004 has the bulletin only.
    assert "R-1" not in page("models/bittern-900/2004/").text
    assert "B-1" in page("models/bittern-900/2004/").text


def test_a_recall_that_stands_in_two_faults_is_told_once() -> None:
    recall = make.source("recall", number="R-1", issuer="Ostrel")
    base = make.base(make.fault("a", sources=(recall,)), make.fault("b", sources=(recall,)))
    text = Article(make.article(base, "models/bittern-900/2003/")).text
    assert text.count("R-1") == 1
    assert text.index("Title of a") < text.index("Title of b")


def test_a_question_is_asked_and_never_answered() -> None:
    base = make.base(make.fault("f", applies_to=(make.row(only_if="Is it *finned*?"),)))
    assert "Only if this is so on your bike: Is it finned?" in Article(make.article(base, "faults/f/")).text
    assert "Only if: Is it finned?" in Article(make.article(base, "models/bittern-900/2003/")).text


def test_a_model_shows_its_years_in_one_drawing_and_the_same_in_words() -> None:
    article = page("models/bittern-900/")
    drawing = next(attributes for tag, attributes in article.tags if tag == "svg")
    # By hand: of 2003 to 2012 two faults concern all years, the third one 2003 to 2007, as its unit does.
    assert drawing["role"] == "img"
    assert drawing["aria-label"] == (
        "Model years 2003 to 2012: 2 to 3 known faults a year. Unit ecu, 2003–2007. 2 recalls and bulletins. "
        "The lists below say the same in words."
    )
    bars = [(each["class"], each["x"], each["width"], each["height"]) for tag, each in article.tags if tag == "rect"]
    # Ten years, each a tenth of the width, a tenth of it left free on either side; the tallest bar 56 pixels high.
    assert bars[0] == ("timeline__bar", "1%", "8%", "56")
    assert bars[9] == ("timeline__bar", "91%", "8%", "37")
    # Five of the model's ten years, from the first one on.
    assert bars[10:] == [("timeline__span--unit", "0%", "50%", "9")]
    marks = [(each["class"], each["cx"]) for tag, each in article.tags if tag == "circle"]
    assert marks[0] == ("timeline__mark timeline__mark--recall", "5%")
    assert marks[1:3] == [("timeline__mark timeline__mark--bulletin", each) for each in ("5%", "15%")]
    assert "Unit ecu 2003–2007" in article.text
    assert "Recall R-1 A recall, issued by Ostrel (EU). For model years 2003: Title of sags" in article.text


def test_a_campaign_that_leaves_years_out_is_not_drawn_through_them() -> None:
    recall = make.source("recall", number="R-1", applies_to=(make.row(when="2003-2004"), make.row(when="2010")))
    article = Article(make.article(make.base(make.fault("f", sources=(recall,))), "models/bittern-900/"))
    lines = [each for tag, each in article.tags if tag == "line" and each["class"] == "timeline__line"]
    assert [(each["x1"], each["x2"]) for each in lines] == [("5%", "15%")]
    assert [each["cx"] for tag, each in article.tags if tag == "circle"] == ["5%", "15%", "75%"]
    assert "For model years 2003–2004, 2010:" in article.text


def test_model_years_turn_to_the_one_before_and_after() -> None:
    first, last = page("models/bittern-900/2003/"), page("models/bittern-900/2012/")
    assert [a.get("rel") for tag, a in first.tags if tag == "a" and a.get("rel")] == ["next"]
    assert [a.get("rel") for tag, a in last.tags if tag == "a" and a.get("rel")] == ["prev"]


def test_a_case_that_nobody_has_explained_stands_on_its_model_year() -> None:
    text = page("models/bittern-900/2007/").text
    assert "1 case that nobody has explained yet" in text
    assert "Nobody knows yet what it is. Noticed: It ticks." in text


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
    # By hand: parts 8 to 20; 0.5 to 1 h at 70 to 95 an hour is 35 to 95, with them 43 to 115, of
    # which two figures are shown; an owner takes twice the hours.
    text = page("faults/sags/").text
    assert "At home 8–20 EUR" in text
    assert "for parts, 1–2 h of your own time In a workshop 43–120 EUR parts and 0.5–1 h of labour" in text.replace(
        " ", " "
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
    text = page("faults/sags/").text
    checks, fixes = (text.index(each) for each in ("What to check first", "Mending it"))
    assert checks < text.index("Keep sparks away.") < text.index("All checks")
    # The check itself names no caution: it is the tank that has to come off for it.
    fuel = [place for place in range(len(text)) if text.startswith("Fuel burns.", place)]
    assert len(fuel) == 2
    assert checks < fuel[0] < fixes < fuel[1]


def test_a_check_says_what_is_good_and_what_a_bad_result_means() -> None:
    text = page("faults/sags/").text
    assert "Good: 13.5–14.8 V at battery posts, warm" in text
    assert "Too low: likely It is plug." in text
    assert "Too high: likely It is stator." in text
    assert "makes it less likely, no more: it shows on 8 of ten bikes with such a cause" in text
    assert "It says something only while the fault is there." in text
    assert "costs 5 EUR" in text
    assert "Seat-off" not in text
    # Two times three minutes to open, five for the check; the next one finds it open.
    assert "Key off 11 min Access seat-off, then access tank-off first, included" in text


def test_codes_say_when_they_set_and_which_one_comes_first() -> None:
    text = page("faults/sags/").text
    assert "P0562 System voltage low Reported by: Unit ecu. Sets when: Below 11.5 V." in text
    assert "Here it is a consequence: look for the code behind it first." in text
    assert "P stands for powertrain." in text
    # SAE J2012 calls it "system voltage low"; from memory, and the page says so.
    assert "system voltage low (from memory of SAE J2012, not held against its text)" in text
    # P0999 has no entry and so no page, but it is still named.
    assert "Only together with: P0562, P0999." in text
    assert "codes/p0999/" not in full_pages()[0]


def test_a_code_that_nobody_remembers_is_not_said_to_be_the_standard_s() -> None:
    doubtful = make.fault("front", codes=(make.code("C0035", meaning="Front wheel sensor"),))
    text = Article(make.article(make.base(doubtful), "codes/c0035/")).text
    assert "What the standard calls it is not known here." in text
    assert "is given by the standard" not in text


def test_a_lamp_code_means_nothing_without_its_control_unit() -> None:
    assert "it means nothing without the control unit that shows it" in page("codes/4-2/").text


def test_cases_say_what_it_was_and_what_did_not_help() -> None:
    tried = (
        Tried(check=None, fix="stator", result="no-change", reading=None, at=""),
        Tried(check=None, fix="plug", result="helped", reading=None, at=""),
        Tried(check="look", fix=None, result="bad", reading=None, at=""),
    )
    outcome = {"state": "returned", "cause": "plug", "note": "Only the *middle* way."}
    base = full_base(cases=[make.case("one", "sags", tried=tried, outcome=outcome)], club=make.club(distance_unit="mi"))
    text = Article(make.article(base, "faults/sags/")).text
    # 61,200 km are 38,028 miles, 61,200 / 1.609344 being 38,027.9.
    assert "Bittern 900, 2007 38 028 mi" in text.replace(" ", " ")
    assert "Came back after the fix It was: It is plug. Did not help: It is stator. Only the middle way." in text


def test_a_case_says_under_what_it_was_seen_and_what_was_changed_on_the_bike() -> None:
    frozen = (("rpm", "1150"), ("coolant_temperature", "91"))
    seen = SeenCode(read=read_code("P0562", make.FORMATS), status="stored", freeze_frame=frozen, at="")
    one = make.case(
        "one",
        "sags",
        vehicle={"modified": ("Heated <b>grips</b>", "Alarm")},
        conditions=("wet", "cold"),
        codes=(seen,),
        cleared=Cleared(on=None, back_after=Distance(value=300, unit="km")),
    )
    text = Article(make.article(full_base(cases=[one]), "faults/sags/")).text
    assert "Seen when: wet, cold." in text
    assert "Changed on this bike: Heated <b>grips</b>; Alarm." in text
    assert "Stored with P0562: rpm 1150, coolant temperature 91." in text
    assert "Cleared, and back after 300 km." in text.replace("\u202f", " ").replace("\xa0", " ")


# Sources and reviews.


def test_sources_are_linked_only_to_the_web() -> None:
    hostile = make.source(url="javascript:alert(1)", archived="data:text/html,x", title="Bad <b>link</b>")
    html = make.article(make.base(make.fault("f", sources=(hostile,))), "faults/f/")
    assert "javascript:" not in html
    assert "data:text" not in html
    assert "Bad &lt;b&gt;link&lt;/b&gt;" in html


def test_the_archived_copy_stands_first_where_the_link_died_and_never_where_it_died_too() -> None:
    url, copy = "https://notes.zz/a", "https://archive.zz/a"
    base = make.base(make.fault("f", sources=(make.source(title="Teardown", url=url, archived=copy),)))
    specs = make.pages(base)

    def first_link(*gone: str) -> tuple[str, bool]:
        html = Renderer(specs.keys(), gone=gone).article(specs["faults/f/"])
        (target,) = re.findall(r'href="([^"]*)"[^>]*>Teardown<', html)
        return target, "led nowhere" in html

    assert first_link() == (url, False)
    assert first_link(url) == (copy, True)
    assert first_link(url, copy) == (url, False)


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
    article, spec = page("faults/gone/"), full_pages()[0]["faults/gone/"]
    assert "Withdrawn on 1 May 2026" in article.text
    assert "no longer advice" in article.text
    assert "Folded." in article.text
    assert "Read instead: Title of sags" in article.text
    assert "May I ride it" not in article.text
    assert "It is worn" not in article.text
    assert not spec.listed


def test_an_old_id_sends_on_to_the_entry() -> None:
    spec = full_pages()[0]["faults/sags-in-rain/"]
    assert spec.redirect_to == "faults/sags/"
    assert not spec.listed
    assert page("faults/sags-in-rain/").links == ["../../faults/sags/"]


def test_pages_that_claim_one_address_are_found() -> None:
    base = make.base(make.fault("a"), make.fault("b", formerly=("a",)))
    specs = make.pages(base).values()
    assert not collisions(specs)
    found = collisions([*specs, make.pages(make.base(make.fault("b", formerly=("a",))))["faults/a/"]])
    assert [each.address for each in found] == ["faults/a/"]
    found = collisions(specs, [("Models/", "pages/Models.md"), ("about/", "pages/about.md")])
    assert [each.titles for each in found] == [("Models", "pages/Models.md")]
