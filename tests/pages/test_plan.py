"""What a fault page says of shares, plan, costs and cases, and that the page about the figures says the same."""

from __future__ import annotations

import functools
import json
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.problem import problem_of
from kbtools.edges.rendering import json_block
from kbtools.evidence import cases_words, evidence_of, shares
from kbtools.evidence.counting import Odometer
from kbtools.model.case import Paid, Tried
from kbtools.model.check import Reading
from kbtools.model.fault import Part
from kbtools.model.money import Distance
from kbtools.pages.drawing import lengths, strip_plot
from kbtools.wording.plan import WORDS, minutes_words, percent_words, reach_words
from tests.pages.test_hostile import CANARY
from tests.support import factories as make
from tests.support.page_reader import Article


def page(fault: Any, **parts: Any) -> Article:
    return Article(make.article(make.base(fault, **parts), f"faults/{fault.id}/"))


def solved(cause: str, number: int, state: str = "solved", **vehicle: Any) -> list[Any]:
    outcome = {"state": state, "cause": cause, "verified": state == "solved"}
    return [make.case(f"{cause}-{state}-{each}", "f", outcome=outcome, vehicle=vehicle) for each in range(number)]


def rects(article: Article, name: str) -> list[Mapping[str, str | None]]:
    return [attributes for tag, attributes in article.tags if tag == "rect" and attributes.get("class") == name]


def two_causes(**changes: Any) -> Any:
    """Six to three by the curators, a tenth for what is not listed."""
    causes = (make.cause("rare", share=3.0), make.cause("usual", share=6.0))
    return make.fault("f", causes=causes, **changes)


# Shares.


def test_bars_are_as_long_as_the_shares() -> None:
    # By hand, with a strength of 4: usual 4·0.9·6/9 = 2.4 and 3 cases, rare 1.2 and 2, not listed 0.4 and 1; of 10.
    article = page(two_causes(), cases=[*solved("usual", 3), *solved("rare", 2), *solved("unlisted", 1)])
    assert [bar["width"] for bar in rects(article, "bar__share")][:3] == ["54", "32", "14"]
    text = article.text
    assert "6 cases count, reported by members, with the curators' judgement." in text
    assert text.index("It is usual 54 %") < text.index("It is rare 32 %")
    assert text.index("It is rare 32 %") < text.index("Something that is not listed here 14 %")
    assert "3 of 6 cases" in text
    causes = [
        attributes["data-cause"] for tag, attributes in article.tags if tag == "li" and "data-cause" in attributes
    ]
    assert causes == ["usual", "rare", "unlisted"]
    assert {"cause-usual", "fix-cause-usual", "cause-unlisted"} <= set(article.ids)


def test_the_line_of_an_interval_begins_and_ends_with_it() -> None:
    # One cause without cases beside "not listed", both half: Beta(1, 1) is uniform, its central 90 % are 0.05 to 0.95.
    base = {"club": make.club(prior_strength=2.0, unlisted_share=0.5)}
    article = page(make.fault("f"), **base)
    assert [(bar["x"], bar["width"]) for bar in rects(article, "bar__interval")] == [("5", "90"), ("5", "90")]
    assert "about 50 %, between 5 and 95 %" in article.text


def test_below_five_cases_the_word_comes_before_the_number() -> None:
    text = page(two_causes(), cases=solved("usual", 4)).text
    # (2.4 + 4) of 8.
    assert "It is usual Often about 80 %" in text
    assert "4 of 4 cases" in text
    assert "trust the words before the numbers" in text


def test_without_a_case_it_is_judgement_only() -> None:
    text = page(two_causes()).text
    assert "Curator's judgement only: no case counts yet." in text
    assert "It is usual Often about 60 %" in text
    assert "It is rare Sometimes about 30 %" in text
    assert "of 0 cases" not in text
    silent = page(make.fault("f", causes=(make.cause("a"), make.cause("b")))).text
    assert "The entry does not say which is the likelier." in silent
    assert "It is a about 45 %" in silent


def test_a_share_is_never_said_to_be_nothing() -> None:
    assert [percent_words(each) for each in (0, 0.004, 0.006)] == ["0\u00a0%", "under 1\u00a0%", "1\u00a0%"]
    assert reach_words(0.001) == "fewer than 1 of 100 bikes get here"


# What held, what was paid, how far it had run.


def test_a_fix_says_how_often_it_held() -> None:
    # Wilson's 95 % interval of 4 in 5 is 0.376 to 0.964 (Wilson 1927; tables of it are widely published).
    text = page(two_causes(), cases=[*solved("usual", 4), *solved("usual", 1, "returned")]).text
    assert "It held in 4 of 5 cases; between 38 and 96 % of such fixes hold." in text
    few = page(two_causes(), cases=solved("usual", 1)).text
    assert "It held in 1 of 1 case: too few to say how often it will." in few
    assert "It held in" not in page(two_causes()).text


def test_what_was_paid_is_told_from_five_cases_on() -> None:
    # Of 10, 20, 30, 40, 90 the median is 30, the quartiles 20 and 40.
    def paid(amounts: list[float]) -> str:
        cases = [
            make.case(
                f"c{place}",
                "f",
                outcome={
                    "state": "solved",
                    "cause": "usual",
                    "verified": True,
                    "paid": Paid(parts=amount, labour=None, where="home"),
                },
            )
            for place, amount in enumerate(amounts)
        ]
        return page(two_causes(), cases=cases).text

    sentence = "Paid at home in 5 cases: 30 EUR in the middle, half of them between 20 EUR and 40 EUR."
    # Once for the fault and once for its only cause that was found.
    assert paid([10.0, 20.0, 30.0, 40.0, 90.0]).count(sentence) == 2
    assert "in the middle" not in paid([10.0, 20.0, 30.0, 40.0])


def test_readings_stand_where_they_belong() -> None:
    def mark(value: int, cause: str, counted: bool = True) -> Odometer:
        return Odometer(distance=Distance(value=value, unit="km"), case="c", cause=cause, counted=counted)

    marks = [mark(20_000, "a"), mark(45_000, "b"), mark(80_000, "a"), mark(99_000, "a", counted=False)]
    plot = strip_plot(marks, ["a", "b", "c"])
    assert plot is not None
    # Four steps of 20 000 km hold them all.
    assert (plot.end, plot.grid) == ("80\u202f000\u00a0km", ("25", "50", "75"))
    assert [(row.cause, row.marks) for row in plot.rows] == [("a", ("25", "100")), ("b", ("56.2",))]
    assert strip_plot(marks[:1], ["a"]) is None
    assert strip_plot([mark(0, "a"), mark(0, "a")], ["a"]) is None


def test_what_was_changed_in_vain_is_told_once_with_its_count() -> None:
    tried = (Tried(check=None, fix="rare", result="no-change", reading=None, at=""),)
    cases = [make.case(f"c{place}", "f", tried=tried) for place in range(2)]
    assert "Mended without success: It is rare (2 cases)." in page(two_causes(), cases=cases).text


def test_bars_of_costs_are_compared_with_the_dearest() -> None:
    assert lengths([50, 100, 0]) == ("50", "100", "0")
    assert lengths([0, 0]) == ("0", "0")


# The plan.


def pencil(**changes: Any) -> tuple[Any, dict[str, Any]]:
    """The example of the page about the figures: a fault, and the rest of its base."""
    earth = make.cause(
        "earth",
        share=3.0,
        fix=make.fix(parts=(Part(name="Washer", price=make.span(8), at=""),), labour_hours=make.span(0.5)),
    )
    regulator = make.cause(
        "regulator",
        share=1.0,
        fix=make.fix(
            parts=(Part(name="Regulator", price=make.span(140), at=""),), labour_hours=make.span(1), skill="workshop"
        ),
    )
    checks = (
        make.check("look", points_to=("earth",), minutes=50.0),
        make.check("measure", points_to=("regulator",), minutes=10.0),
    )
    club = make.club(
        prior_strength=5.0,
        unlisted_share=0.2,
        labour_rate=make.span(80),
        diagnosis_hours=1.0,
        confirm_hours=0.25,
        unlisted_repair=make.span(300),
        own_time_value=12.0,
        home_time_factor=2.0,
    )
    cases = [*solved("earth", 2), *solved("regulator", 2), *solved("unlisted", 1)]
    fault = make.fault("f", **{"causes": (earth, regulator), "checks": checks, **changes})
    return fault, {"club": club, "cases": cases}


def test_the_example_of_the_page_about_the_figures_comes_out_as_it_says() -> None:
    # The page does the sum by hand, and so did its author; here the programs do it.
    fault, parts = pencil()
    base = make.base(fault, **parts)
    index = make.index(base)
    found = shares(evidence_of(fault, index, parts["club"]))
    assert [row.mean for row in found] == pytest.approx([0.5, 0.3, 0.2])
    plan = plan_of(problem_of(fault, index), Owner())
    assert [plan.hand_over, plan.likeliest_first, plan.expected_cost] == pytest.approx([230, 169, 167])
    assert [step.id for step in plan.steps] == ["measure", "look", None]
    text = Article(make.article(base, "figures/")).text
    assert "Loose earth 3 2 5 50 %" in text
    assert "Worn regulator 1 2 3 30 %" in text
    assert "Not listed 1 1 2 20 %" in text
    assert f"anywhere from {100 * found[0].low:.0f} to {100 * found[0].high:.0f} %" in text, (
        "the interval of the loose earth"
    )
    for sums in ("80 + 24 + 66 + 60 = 230", "10 + 10 + 1 + 72 + 76 = 169", "2 + 72 + 7 + 10 + 76 = 167"):
        assert sums in text
        left, _, right = sums.partition(" = ")
        assert sum(map(int, left.split(" + "))) == int(right)


def test_the_plan_stands_on_the_page_in_its_order() -> None:
    fault, parts = pencil()
    text = page(fault, **parts).text
    assert "63 EUR less than handing the bike over at once" in text
    assert (
        "By this plan about 170 EUR After the likeliest cause first about 170 EUR Handed over at once about 230" in text
    )
    # 2 of 169 is less than a tenth.
    assert WORDS["no_difference"] in text
    # By hand: 0.7 of all bikes get to the second check, 0.2 to handing over, for 80 + 300.
    order = [
        "Start here Look",
        "70 of 100 bikes get here Look (2)",
        "20 of 100 bikes get here Hand it over About 380",
    ]
    assert [text.index(each) for each in order] == sorted(text.index(each) for each in order)
    assert "If not: likely It is regulator. Have it done, and name the cause: about 240 EUR in a workshop." in text
    assert "If not: likely It is earth. Mend it yourself: about 20 EUR, 60 min of your own time included." in text
    assert "Still possible: Something that is not listed here." in text


def test_each_check_has_one_card_in_the_order_of_the_plan() -> None:
    fault, parts = pencil()
    article = page(fault, **parts)
    assert [each for each in article.ids if each.startswith("check-")] == ["check-measure", "check-look"]
    experienced = make.check("probe", points_to=("earth",), skill="experienced")
    other = page(make.fault("f", causes=fault.causes, checks=(experienced, *fault.checks)), **parts)
    assert [each for each in other.ids if each.startswith("check-")][-1] == "check-probe"
    assert other.text.index("Other checks") < other.text.index("An experienced owner")


def test_a_branch_is_told_where_its_result_is() -> None:
    fault, parts = pencil()
    both = make.check("both", points_to=("earth", "regulator"), minutes=1.0)
    text = page(make.fault("f", causes=fault.causes, checks=(both, *fault.checks[1:])), **parts).text
    assert "likely It is earth; It is regulator. Next: Look (2) (10 min)." in text
    assert "If not: Then it is: It is regulator. Have it done, and name the cause: about 240 EUR" in text
    # The earth is then left without any check of its own.
    assert "Good: Then it is: It is earth. Mend it yourself: about 20 EUR" in text
    assert WORDS["inferred"] in text


def test_a_fault_without_checks_still_says_what_to_do() -> None:
    fault, parts = pencil(checks=())
    article = page(fault, **parts)
    assert "First step Hand it over" in article.text
    assert "The entry lists nothing to check." in article.text
    assert "Hand it over About 230" in article.text
    assert "checks" in article.sections


def test_checks_that_do_not_pay_lead_to_handing_over() -> None:
    fault, parts = pencil(checks=(make.check("dear", points_to=("earth",), minutes=900.0),))
    text = page(fault, **parts).text
    assert "is worth its time: hand the bike over." in text
    assert "Start here Hand it over" in text
    assert text.index("Hand it over") < text.index("Other checks")


def test_a_single_cause_is_not_taken_for_certain() -> None:
    text = page(make.fault("f", checks=(make.check(points_to=("worn",)),))).text
    assert "It is worn about 90 %" in text
    assert "Something that is not listed here about 10 %" in text
    assert "Start here Look" in text


def test_an_entry_that_says_too_little_has_no_plan_and_says_why() -> None:
    fault, parts = pencil(checks=(make.check("look", points_to=("earth",), minutes=None),))
    article = page(fault, **parts)
    assert "No plan can be worked out, because the entry does not say enough (the minutes of look)." in article.text
    assert "check-look" in article.ids
    assert not article.data


def test_an_entry_whose_plan_nobody_would_wait_for_still_has_its_page(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kbtools.export.fault_json.plan_of", functools.partial(plan_of, most_states=-1))
    fault, parts = pencil()
    article = page(fault, **parts)
    assert (
        "There are too many ways to weigh them all: this is a good one, and none costs less than about " in article.text
    )
    # The likeliest first is the better of what is left then.
    assert "By this plan about 170 EUR After the likeliest cause first about 170 EUR" in article.text
    assert {each for each in article.ids if each.startswith("check-")} == {"check-look", "check-measure"}


@pytest.mark.parametrize(("k", "of"), [(1, 1), (2, 7), (0, 7), (0, 0)])
def test_the_browser_is_given_the_words_that_the_pages_use(k: int, of: int) -> None:
    name = "cases_none" if of == 0 else "cases_one" if of == 1 else "cases"
    assert WORDS[name].format(k=k, n=of) == cases_words(k, of)
    assert f"{WORDS['cases'].format(k=2, n=7)}, {WORDS['cases_yours'].format(n=1)}" == cases_words(2, 7, 1)


def test_minutes_turn_into_hours() -> None:
    assert [minutes_words(each) for each in (7.6, 99.4, 111)] == ["8\u00a0min", "99\u00a0min", "1.9\u00a0h"]


# What the page's script is given.


def texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, each in value.items():
            yield key
            yield from texts(each)
    elif isinstance(value, list):
        for each in value:
            yield from texts(each)


def test_the_data_of_the_plan_stand_in_the_page() -> None:
    reading = Reading(
        place="posts", when=None, good=make.span(13, 15), unit="V", low_points_to=("earth",), high_points_to=(), at=""
    )
    fault, parts = pencil(checks=(make.check("volts", expect=None, reading=reading, tools=("multimeter",)),))
    (block,) = page(fault, **parts).data
    data = json.loads(block)
    assert data["problem"]["fault"] == "f"
    assert data["names"] == {
        "causes": {"earth": "It is earth", "regulator": "It is regulator", "unlisted": WORDS["unlisted"]},
        "checks": {"volts": "Look"},
        "tasks": {"volts": "Look"},
        "access": {},
        "tools": {"multimeter": "Multimeter"},
    }
    assert (data["units"], data["currency"], data["digits"]) == ({"volts": "V"}, "EUR", 2)
    assert data["models"] == [["bittern-900", "Bittern 900", list(range(2003, 2013))]]
    assert data["words"] == WORDS


@pytest.mark.parametrize("text", [CANARY, "</script>", "<!--<script>", "]]>&amp;\u2028\u2029", "\u202e\u0000"])
def test_no_text_ends_the_block_of_data(text: str) -> None:
    block = str(json_block({"a": [text]}))
    assert not set(block) & set("<>&\u2028\u2029")
    assert json.loads(block) == {"a": [text]}
    fault, parts = pencil()
    hostile = make.fault("f", causes=(make.cause("earth", summary=text), *fault.causes[1:]), checks=fault.checks)
    article = page(hostile, **parts)
    (data,) = article.data
    assert not any("\u202e" in each or "\u0000" in each for each in texts(json.loads(data)))
    assert sum(tag == "script" for tag, _ in article.tags) == 1
