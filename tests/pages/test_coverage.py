"""Where the base is thin, what is new, the note for the workshop: what is said of a base that is counted by hand."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from kbtools.checkplan.where_cases_help import evidence_rows, narrowest
from kbtools.model.check import Reading
from kbtools.model.days import months_after
from kbtools.model.fault import Reviewed
from kbtools.pages import new
from kbtools.pages.coverage import MOST_LISTED, SHADES
from kbtools.pages.workshop_note import beginning
from tests.support import factories as make
from tests.support.page_reader import Article, full_base


def read_on(*day: int, by: str = "curator-3", second: str | None = None) -> Reviewed:
    return Reviewed(on=dt.date(*day), by=by, second=second, at="")


def rows(article: Article, html: str) -> list[list[str]]:
    """The cells of all rows of all tables."""
    found: list[list[str]] = []
    for row in html.split("<tr>")[1:]:
        cells = [each.split("</t")[0] for each in row.replace("<th", "<td").split("<td")[1:]]
        found.append([Article(f"<p{each}</p>").text.strip() for each in cells])
    assert article.tags, "parsed"
    return found


def coverage(base: Any) -> tuple[Article, list[list[str]]]:
    html = make.article(base, "coverage/")
    article = Article(html)
    return article, rows(article, html)


# Coverage.


def two_systems() -> Any:
    """Three years. One fault in all of them, one in the last only, in a system below brakes; nothing about lighting."""
    return make.base(
        make.fault("old"),
        make.fault("late", system="abs", applies_to=(make.row(when="2005"),)),
        systems=[
            make.system(),
            make.system("brakes"),
            make.system("abs", parent="brakes"),
            make.system("lighting"),
        ],
        models=[make.model(when="2003-2005")],
        cases=[make.case("one", "old", vehicle={"year": 2004}), make.case("two", vehicle={"year": 2004})],
        pages=(make.hand_page("pages/contribute.md"),),
    )


def test_each_field_has_the_faults_of_its_model_year_and_system() -> None:
    article, table = coverage(two_systems())
    assert table == [
        ["", "2003", "2004", "2005", "All"],
        ["Charging", "1", "1", "1", "1"],
        ["Brakes", "0", "0", "1", "1"],
        ["Lighting", "0", "0", "0", "0"],
        ["All systems", "1", "1", "2", "2"],
        ["Case reports", "0", "2", "0", "2"],
    ]
    assert "Nothing yet about Lighting." in article.text
    assert {"../models/bittern-900/2005/", "../systems/brakes/", "../models/bittern-900/", "../contribute/"} <= set(
        article.links
    )


def test_the_grid_is_a_table_with_heads_that_a_keyboard_can_scroll() -> None:
    article, _ = coverage(two_systems())
    scopes = [attributes.get("scope") for tag, attributes in article.tags if tag == "th"]
    assert scopes.count("col") == 4
    assert scopes.count("row") == 5
    region = next(attributes for tag, attributes in article.tags if attributes.get("role") == "region")
    assert region["tabindex"] == "0"
    assert region["aria-labelledby"] in article.ids


def test_more_faults_have_a_darker_shade_and_the_key_says_so() -> None:
    faults = [make.fault(f"f{number}") for number in range(SHADES[-1])]
    for number, shade in ((1, 1), (2, 2), (3, 3), (4, 3), (5, 4)):
        html = make.article(make.base(*faults[:number], models=[make.model(when="2003")]), "coverage/")
        assert f'<td class="cell--{shade}">{number}</td>' in html
    assert "Faults in a field: 0 1 2 3–4 5 or more" in Article(html).text


def test_the_entries_that_one_case_would_narrow_most_come_first() -> None:
    # By the definition each case narrows less than the one before; nothing else differs.
    def cases(fault: str, number: int) -> list[Any]:
        outcome = {"state": "solved", "cause": "worn", "verified": True}
        return [make.case(f"{fault}-{each}", fault, outcome=outcome) for each in range(number)]

    base = make.base(
        *(make.fault(each) for each in ("many", "none", "some")), cases=[*cases("many", 9), *cases("some", 2)]
    )
    text = coverage(base)[0].text
    part = text[text.index("Where one more case helps most") :]
    assert part.index("Title of none") < part.index("Title of some") < part.index("Title of many")
    assert "No case counts yet; one share may lie anywhere within" in part
    assert "2 cases count;" in part
    index = make.index(base)
    assert [fault.id for fault, _ in narrowest(index, 2)] == ["none", "some"]
    # The command line tells the same order.
    assert [row.fault for row in evidence_rows(index)] == [fault.id for fault, _ in narrowest(index, 9)]


def test_entries_without_a_case_and_overdue_ones_are_named() -> None:
    base = make.base(
        make.fault("seen"),
        make.fault("unseen", reviewed=read_on(2024, 5, 31)),
        make.fault("older", reviewed=read_on(2020, 1, 1)),
        cases=[make.case("one", "seen"), make.case("two", "older")],
    )
    text = coverage(base)[0].text
    unseen = text[text.index("Entries without a case") : text.index("Review overdue")]
    assert "Title of unseen Bittern 900" in unseen
    assert "Title of seen" not in unseen
    late = text[text.index("Review overdue") :]
    assert late.index("Title of older Last reviewed on 1 January 2020") < late.index("Title of unseen")
    assert "Title of seen" not in late


@pytest.mark.parametrize(("day", "overdue"), [((2024, 6, 1), False), ((2024, 5, 31), True)])
def test_a_review_is_overdue_from_the_day_after_its_months_are_over(day: tuple[int, ...], overdue: bool) -> None:
    # Today is 1 June 2026, and the club wants a review every 24 months.
    base = make.base(make.fault("f", reviewed=read_on(*day)))
    assert ("Review overdue" in coverage(base)[0].text) == overdue
    assert ("review is overdue" in Article(make.article(base, "faults/f/")).text) == overdue


def test_long_lists_end_with_a_number() -> None:
    faults = [make.fault(f"f{number:02}") for number in range(MOST_LISTED + 2)]
    text = coverage(make.base(*faults))[0].text
    part = text[text.index("Entries without a case") :]
    assert part.count("Title of") == MOST_LISTED
    assert "And 2 others." in part


def test_months_end_where_a_month_is_shorter() -> None:
    # By the calendar.
    assert months_after(dt.date(2024, 2, 29), 12) == dt.date(2025, 2, 28)
    assert months_after(dt.date(2025, 10, 31), 4) == dt.date(2026, 2, 28)
    assert months_after(dt.date(2026, 1, 31), -12) == dt.date(2025, 1, 31)
    assert months_after(dt.date.max, 1) == dt.date.max


# What is new.


def told(base: Any) -> str:
    return Article(make.article(base, "new/")).text


def test_news_stand_by_month_the_newest_first() -> None:
    base = make.base(
        make.fault("read", reviewed=read_on(2026, 5, 30, second="mechanic-1")),
        make.fault("gone", withdrawn=make.withdrawn(on=dt.date(2026, 5, 31))),
        make.fault("hidden", draft=True, reviewed=read_on(2026, 5, 31)),
        cases=[
            make.case("one", "read", seen=dt.date(2026, 3, 2), outcome={"state": "solved", "cause": "worn"}),
            make.case("two", seen=dt.date(2026, 3, 1)),
        ],
    )
    text = told(base)
    order = [
        "May 2026",
        "31 Withdrawn Title of gone",
        "30 Reviewed by curator-3 and mechanic-1 Title of read",
        "March 2026",
        "2 Case: solved · Bittern 900, 2007 Title of read",
        "1 Case: still open · Bittern 900, 2007 Nobody knows yet what it is",
    ]
    places = [text.index(each) for each in order]
    assert places == sorted(places)
    assert "hidden" not in text
    links = Article(make.article(base, "new/")).links
    assert "../faults/read/#case-one" in links
    assert "../models/bittern-900/2007/#case-two" in links


def test_news_of_the_future_wait_and_old_ones_go() -> None:
    recent = [make.fault(f"f{number:02}", reviewed=read_on(2026, 5, 1)) for number in range(new.LEAST)]
    base = make.base(
        *recent,
        make.fault("last", reviewed=read_on(2025, 6, 1)),
        make.fault("old", reviewed=read_on(2025, 5, 31)),
        make.fault("later", reviewed=read_on(2026, 6, 2)),
    )
    text = told(base)
    assert "Title of last" in text, "twelve months ago to the day"
    assert "Title of old" not in text
    assert "Title of later" not in text
    # A quiet club's page is not empty.
    assert "Title of old" in told(make.base(make.fault("old", reviewed=read_on(2019, 5, 31))))
    assert "Nothing yet." in told(make.base())


def test_news_are_not_too_many_and_do_not_depend_on_the_order_of_the_files() -> None:
    faults = [make.fault(f"f{number:03}", reviewed=read_on(2026, 5, 1)) for number in range(new.MOST + 5)]
    text = told(make.base(*faults))
    assert text.count("Reviewed by") == new.MOST
    assert text == told(make.base(*reversed(faults)))


# The note for the workshop.


def sheet(base: Any, fault: str) -> str:
    text = Article(make.article(base, f"faults/{fault}/")).text
    return text[text.index("Note for the workshop") : text.index("Where this comes from")]


def test_the_note_for_the_workshop_has_what_a_workshop_asks_for() -> None:
    text = sheet(full_base(), "sags")
    order = [
        "Bike, model year",
        "Odometer",
        "May it be ridden, says the club To the workshop only.",
        "P0562 System voltage low present stored comes and goes Sets: Below 11.5 V.",
        "Good: 13.5–14.8 V",
        "What was changed already",
        "Lamp flickers",
        "The club's guess",
        # By hand: parts 8 to 20, 0.5 to 1 hour at 70 to 95: 43 to 115, two figures of it.
        "In a workshop 43–120 EUR",
        "Something that is not listed here",
        "It is not a finding on this one: please confirm a cause before parts are ordered.",
        "what does it cost to confirm the likeliest cause",
        "Entry sags, reviewed on 14 March 2026.",
    ]
    places = [text.index(each) for each in order]
    assert places == sorted(places)


def test_the_note_for_the_workshop_says_what_its_shares_stand_on() -> None:
    assert "It comes from the curators' judgement alone, from other bikes." in sheet(make.base(make.fault("f")), "f")
    outcome = {"state": "solved", "cause": "worn", "verified": True}
    base = make.base(make.fault("f"), cases=[make.case("one", "f", outcome=outcome)])
    assert "It comes from 1 case reported by members and the curators' judgement" in sheet(base, "f")
    assert "It is worn: often, about" in sheet(base, "f")


def test_an_entry_that_says_little_has_a_note_for_the_workshop_too() -> None:
    text = sheet(make.base(make.fault("f", causes=(), checks=(), codes=())), "f")
    assert "The entry names none. Read out:" in text
    assert "Not known." in text or "Yes, with care." in text


def test_a_task_on_the_note_for_the_workshop_is_its_first_sentence() -> None:
    assert beginning("Pull the *plug*. Look for green.") == "Pull the plug"
    assert beginning("Below 11.5 V, lamps on.") == "Below 11.5 V, lamps on"
    assert beginning("Engine off: measure <b>") == "Engine off: measure <b>"
    long = beginning("word " * 60)
    assert len(long) <= 112
    assert long.endswith("word …")


def test_what_a_report_calls_things_stands_apart() -> None:
    reading = Reading(
        place="posts", when=None, good=make.span(1, 2), unit="V", low_points_to=("worn",), high_points_to=(), at=""
    )
    base = make.base(make.fault("f", checks=(make.check("volts", expect=None, reading=reading),)))
    text = Article(make.article(base, "faults/f/")).text
    start = text.index("For a case report: the words of this page")
    for word in ("The entry is f.", "volts Look", "worn It is worn"):
        assert word in text[start:]
    assert "in a report" not in text
