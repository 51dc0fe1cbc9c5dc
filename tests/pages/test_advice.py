"""What a fault page and a terminal say beside the plan: starting, riding, codes, what may be free, second causes."""

from __future__ import annotations

from typing import Any

import pytest

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.beside import words_of_codes
from kbtools.checkplan.problem import problem_of
from kbtools.model.catalogue import Caution
from kbtools.model.fault import Fault
from kbtools.model.money import Distance, Speed
from kbtools.report.plan import Asked, render
from kbtools.wording.labels import verdict
from kbtools.wording.plan import WORDS, no_difference
from tests.support import factories as make
from tests.support.page_reader import Article

WORN = make.cause("worn", fix=make.fix(skill="home", parts=()))
LOOK = make.check("look", do="Look at it.", points_to=("worn",))


def entry(**changes: Any) -> Fault:
    return make.fault("f", **{"causes": (WORN, make.cause("loose")), "checks": (LOOK,), **changes})


def page(fault: Fault, **parts: Any) -> str:
    return Article(make.article(make.base(fault, **parts), f"faults/{fault.id}/")).text


def terminal(fault: Fault, owner: Owner | None = None, *, codes: bool = False, **parts: Any) -> str:
    index = make.index(make.base(fault, **parts))
    problem, owner = problem_of(fault, index), owner or Owner()
    words = tuple(words_of_codes((row.read.text, row) for row in fault.codes)) if codes else ()
    text = render(plan_of(problem, owner), fault, Asked(problem=problem, owner=owner, codes=words), index)
    return " ".join(text.split())


# Good


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"finds": 1.0, "finds_said": True}, "Good: rules it out."),
        ({"finds": 0.8, "finds_said": True}, "Good: makes it less likely, no more: it shows on 8 of ten bikes"),
        ({"finds": 0.9, "finds_said": False}, "Good: makes it less likely, no more."),
        ({"finds": 1.0, "finds_said": False}, "Good: makes it less likely, no more."),
    ],
)
def test_a_good_result_rules_out_only_where_the_author_says_so(changes: dict[str, Any], said: str) -> None:
    text = page(entry(checks=(make.check("look", points_to=("worn",), **changes),)))
    assert said in text
    if not changes["finds_said"]:
        assert "of ten bikes" not in text


# May I ride it


@pytest.mark.parametrize(
    ("level", "starting", "said"),
    [
        ("ride-with-care", "yes", "It will not start. Once it runs: with care."),
        ("do-not-ride", "sometimes", "It may not start. Once it runs: do not ride it."),
        ("ride-with-care", None, "Yes, with care."),
        (None, "yes", "It will not start. Once it runs: not known."),
    ],
)
def test_the_verdict_says_first_whether_it_starts(level: Any, starting: Any, said: str) -> None:
    assert verdict(level, starting) == said
    if level is not None:
        fault = entry(ride_advice=make.advice(level), does_not_start=starting)
        assert f"May I ride it? {said}" in page(fault)
        assert f"May I ride it? {said}" in terminal(fault)


def test_how_fast_and_how_far_stands_beside_the_verdict() -> None:
    advice = make.advice(
        "ride-to-workshop", max_speed=Speed(value=80, unit="km/h"), max_distance=Distance(value=20, unit="km")
    )
    for text in (page(entry(ride_advice=advice)), terminal(entry(ride_advice=advice))):
        assert "No faster than 80 km/h and no farther than 20 km." in text.replace("\u00a0", " ")


def test_signs_to_stop_at_stand_beside_the_verdict() -> None:
    advice = make.advice("ride-to-workshop", why="It may stop.", stop_if=("The lamp lights.", "It smells hot."))
    for text in (page(entry(ride_advice=advice)), terminal(entry(ride_advice=advice))):
        assert text.index("May I ride it?") < text.index("Stop at once if:") < text.index("The lamp lights.")
        assert text.count("It smells hot.") == 1


def test_a_code_with_stricter_advice_stands_beside_the_faults() -> None:
    rows = (make.code("P0562", ride_advice=make.advice("do-not-ride", why="It boils.")), make.code("P0563"))
    fault = entry(codes=rows)
    for text in (page(fault), terminal(fault)):
        assert "Yes, with care." in text
        assert "With P0562: No. Do not ride it. It boils." in text
        assert "With P0563" not in text
    # Once the code is known, there is one answer.
    known = terminal(fault, codes=True)
    assert "May I ride it? With P0562: No. Do not ride it. It boils." in known
    assert "Yes, with care." not in known


def test_a_codes_own_page_shows_the_strictest_that_applies() -> None:
    fault = entry(codes=(make.code("P0562", ride_advice=make.advice("do-not-ride")), make.code("P0563")))
    base = make.base(fault)
    assert "No. Do not ride it." in Article(make.article(base, "codes/p0562/")).text
    assert "No. Do not ride it." not in Article(make.article(base, "codes/p0563/")).text


# Cautions


def test_a_caution_of_the_system_stands_where_the_hands_are_once_and_whole() -> None:
    hot = Caution(id="hot", text="It is hot. Let it cool.", at="")
    parts: dict[str, Any] = {"cautions": [hot], "systems": [make.system("charging", cautions=("hot",))]}
    assert page(entry(), **parts).count("It is hot. Let it cool.") >= 1
    assert terminal(entry(), **parts).count("! It is hot. Let it cool.") == 1
    # At the first step, not above it.
    text = terminal(entry(), **parts)
    assert text.index("1. Look at it.") < text.index("! It is hot.")


def test_a_caution_of_whatever_is_done_is_told_once_and_says_so() -> None:
    hot = Caution(id="hot", text="It is hot.", at="")
    checks = (LOOK, make.check("feel", do="Feel it.", points_to=("loose",)))
    text = terminal(entry(checks=checks, cautions=("hot",)), cautions=[hot])
    assert text.count("It is hot") == 1
    assert "! It is hot. This holds for every step." in text


def test_a_caution_of_an_access_job_is_said_once_at_a_check() -> None:
    hot = Caution(id="hot", text="It is hot.", at="")
    check = make.check("look", points_to=("worn",), access=("cover-off",), cautions=("hot",))
    parts: dict[str, Any] = {"cautions": [hot], "access": [make.access("cover-off", cautions=("hot",))]}
    assert terminal(entry(checks=(check,)), **parts).count("It is hot") == 1
    assert page(entry(checks=(check,)), **parts).count("It is hot.") == 1


# Before riding


AGAIN = make.check("again", do="Hold the lever.", points_to=("loose",), before_riding=True, skill="workshop")


def test_what_comes_before_riding_stands_at_the_end_until_it_is_done() -> None:
    fault = entry(checks=(LOOK, AGAIN))
    for text in (page(fault), terminal(fault)):
        end = text.index(WORDS["before_riding"])
        assert "Hold the lever" in text[end:]
        assert WORDS["workshop_before_riding"] in text[end:]
    assert WORDS["before_riding"] not in terminal(fault, Owner(results={"again": "good"}))
    assert WORDS["before_riding"] in terminal(fault, Owner(results={"again": "unclear"}))


def test_a_bad_one_after_the_cause_was_found_is_told_as_a_second_fault() -> None:
    text = terminal(entry(checks=(LOOK, AGAIN)), Owner(results={"look": "bad", "again": "bad"}))
    assert WORDS["second_fault"] in text
    assert "again: It is loose." in text
    assert "do not ride" in text.lower()
    assert "contradict" not in text


# Money


def test_what_may_be_free_stands_before_any_price() -> None:
    fault = entry(sources=(make.source("recall", number="2013-005", covers=("worn",)),))
    told = terminal(fault, Owner(results={"look": "bad"}))
    assert told.index("recall 2013-005") < told.index("EUR")
    # Half an hour to an hour, no parts: 0.75 · 2 · 15 = 22.5 at home.
    assert "nothing, if the dealer confirms it by the frame number; else mend it at home, about 22 EUR" in told
    text = page(fault)
    assert text.index("2013-005") < text.index("EUR")
    # In a workshop 0.75 · 82.5 = 61.875.
    assert "Nothing, if the dealer confirms it by the frame number; else about 62 EUR." in text
    # And in the note for the workshop: 0.5 to 1 hour at 70 to 95.
    assert "confirms it by the frame number; else: In a workshop 35–95 EUR" in text.replace("\u00a0", " ")
    paid = terminal(fault, Owner(results={"look": "bad"}, covered=frozenset({"worn"})))
    assert "the maker pays" in paid


def test_a_saving_of_less_than_a_tenth_is_no_difference() -> None:
    assert no_difference(91, 100)
    assert not no_difference(90, 100)
    assert not no_difference(50, 100)


def test_no_saving_is_shown_where_a_mistake_can_hurt() -> None:
    assert "less than handing the bike over at once" in page(entry())
    critical: dict[str, Any] = {"systems": [make.system("charging", safety_critical=True)]}
    assert "less than handing the bike over at once" not in page(entry(), **critical)
    assert "Handing over at once" in terminal(entry())
    assert "Handed over at once" not in page(entry(), **critical)
    assert "Handing over at once" not in terminal(entry(), **critical)
    assert "A mistake here can hurt someone." in terminal(entry(), **critical)


# Cases


def test_second_causes_are_counted_with_which_and_by_whom_they_were_reported() -> None:
    def solved(number: int, *also: str) -> Any:
        return make.case(
            f"c{number}", "f", outcome={"state": "solved", "cause": "worn", "verified": True, "also": also}
        )

    cases = [solved(1, "loose"), solved(2), solved(3, "loose"), solved(4), solved(5)]
    for text in (page(entry(), cases=cases), terminal(entry(), cases=cases)):
        assert "A second cause was there in 2 of 5 cases: It is loose (2)." in text
        assert "reported by members" in text.lower()
    assert "second cause" not in page(entry(), cases=cases[1:2])
