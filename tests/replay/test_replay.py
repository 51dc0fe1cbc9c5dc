"""How often the advice was right: against trees walked by hand, a base without later cases, and published formulas."""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
import math
from pathlib import Path

import pytest

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.parts import joint_plan
from kbtools.checkplan.problem import problem_of
from kbtools.edges import cache
from kbtools.edges.clock import today
from kbtools.edges.folder import load
from kbtools.index.answers import Index
from kbtools.index.build import build_index
from kbtools.index.cases import followed
from kbtools.index.together import GivenCode, faults_of_codes, machine_of
from kbtools.model.case import Case, Paid, SeenCode
from kbtools.model.codes import read_code
from kbtools.replay import Advice, ReplayRow, Scores, advice, calibration, costs, replay, scores
from kbtools.replay.advice import Turned, advice_of
from kbtools.replay.scores import brier_of, log_of
from kbtools.report.replay import render
from kbtools.wording.replay import LIMIT, judged_words
from tests.support import factories as f
from tests.support.page_reader import Article
from tests.support.plan_brute import UNLISTED, TooManyError
from tests.support.plan_compare import NEAR, deviation
from tests.support.plan_instances import instance
from tests.support.plan_problems import problem_from
from tests.support.replay_brute import GivenCause

DAY = dt.date(2026, 3, 2)
NOBODY: dict[str, object] = {
    "skill": "home",
    "own_time_value": None,
    "has": [],
    "lacks": [],
    "absent": False,
    "opened": [],
    "covered": [],
    "results": {},
}

# What each way costs, given the cause


@functools.cache
def problems() -> tuple[tuple[GivenCause, list[Advice], list[str]], ...]:
    """Random problems, each with a first case of every cause on one bike."""
    found = []
    for number in range(150):
        record, _ = instance(number, most_causes=4, most_checks=4)
        record["evidence"]["unlisted"] = {}
        for cause in record["evidence"]["causes"]:
            cause["cases"] = {}
        bike = ("bittern-900", 2004 + 3 * (number % 2))
        brute = GivenCause(record, {**NOBODY, "bike": list(bike)})
        told = list(advice_of(problem_from(record), [Turned(day=1, bike=bike, cause=each) for each in brute.causes]))
        found.append((brute, told, brute.causes))
    return tuple(found)


def test_the_plan_costs_what_walking_its_tree_with_the_cause_costs() -> None:
    compared, apart = 0, 0
    for brute, told, causes in problems():
        try:
            tree = brute.best()
        except TooManyError:
            continue
        wanted = [brute.walked(tree, cause, brute.open) for cause in causes]
        assert max(deviation(one, each.cost) for one, each in zip(wanted, told, strict=True)) <= NEAR
        compared += 1
        apart += len({round(each, 6) for each in wanted}) > 1
    assert compared >= 130
    assert apart >= 100


def test_so_do_handing_over_and_the_likeliest_first() -> None:
    for brute, told, causes in problems():
        for cause, each in zip(causes, told, strict=True):
            assert deviation(brute.handed_over(cause), each.hand_over) <= NEAR
            wanted = brute.likeliest_with(cause, brute.weights(), brute.silent, brute.open)
            assert deviation(wanted, each.likeliest_first) <= NEAR


def test_weighed_by_the_shares_they_are_the_costs_of_the_plan() -> None:
    """The law of total expectation."""
    for brute, told, causes in problems()[:60]:
        plan = plan_of(problem_from(brute.problem), Owner(bike=tuple(brute.owner["bike"])))
        shares = told[0].shares
        assert shares == pytest.approx([brute.shares[each] for each in causes])
        wanted = (plan.expected_cost, plan.hand_over, plan.likeliest_first)
        for one, name in zip(wanted, ("cost", "hand_over", "likeliest_first"), strict=True):
            found = math.fsum(share * getattr(each, name) for share, each in zip(shares, told, strict=True))
            assert deviation(one, found) <= NEAR


# What was said to each case


@pytest.fixture(scope="module")
def demo() -> Index:
    return build_index(load(Path("kb")).base, today())


@pytest.fixture(scope="module")
def rows(demo: Index) -> tuple[ReplayRow, ...]:
    return replay(demo)


def evening_before(index: Index, day: dt.date) -> Index:
    """The site as it was with the cases of earlier days, but for those that turned out not to be over."""
    over = followed(index.base)
    cases = {
        name: case
        for name, case in index.base.cases.items()
        if case.seen is not None and case.seen < day and name not in over
    }
    return build_index(dataclasses.replace(index.base, cases=cases), today())


def test_it_says_what_the_site_would_have_said_the_evening_before(demo: Index, rows: tuple[ReplayRow, ...]) -> None:
    together = 0
    for row in rows[:: len(rows) // 12]:
        index = evening_before(demo, row.seen)
        case = demo.base.cases[row.case]
        bike = machine_of(case)
        plan = plan_of(problem_of(index.published[row.fault], index), Owner(bike=bike))
        assert sorted(each.mean for each in plan.causes) == pytest.approx(sorted(row.advice.shares))
        said = {each.id: each.mean for each in plan.causes}
        assert row.advice.share == pytest.approx(said[row.cause])
        assert row.advice.rank == [each.id for each in plan.causes].index(row.cause) + 1
        given = [GivenCode(code=each.read.code, unit=None) for each in case.codes if each.read.code is not None]
        faults = faults_of_codes(given, bike, index) if given else ()
        if row.fault in {each.id for each in faults}:
            shares = {each.id: each.mean for each in joint_plan(faults, given, bike, index).faults}
            assert row.fault_share == pytest.approx(shares[row.fault])
            together += 1
        else:
            assert row.fault_share is None
    assert together >= 3


def test_every_counted_case_has_a_row_in_the_order_of_the_days(demo: Index, rows: tuple[ReplayRow, ...]) -> None:
    cases = demo.base.cases
    over, far = followed(demo.base), demo.club.solved_after
    assert {row.case for row in rows} == {
        name
        for name, case in cases.items()
        if demo.renamed.get(case.fault or "", case.fault) in demo.published
        and case.outcome.is_solved(far)
        and name not in over
    }
    assert [(row.seen, row.case) for row in rows] == sorted((cases[row.case].seen, row.case) for row in rows)


def base_of(*cases: Case) -> Index:
    causes = (f.cause("plug", share=3.0), f.cause("stator", share=1.0), f.cause("late", share=1.0, applies_to=(LATE,)))
    fault = f.fault("sags", causes=causes, codes=(f.code("P0562"),))
    other = f.fault("drains", codes=(f.code("P0562"),))
    return f.index(f.base(fault, other, cases=cases))


LATE = f.row(when="2010-2012")


def solved(name: str, cause: str = "plug", fault: str | None = "sags", **changes: object) -> Case:
    outcome = {"state": "solved", "cause": cause, "verified": True, **changes.pop("outcome", {})}  # type: ignore[dict-item]
    return f.case(name, fault, outcome=outcome, **changes)


def seen(*texts: str) -> tuple[SeenCode, ...]:
    return tuple(SeenCode(read=read_code(text, f.FORMATS), status=None, freeze_frame=(), at="") for text in texts)


def test_only_cases_of_earlier_days_speak() -> None:
    """Judged: of 4 cases 0.4 unlisted, plug 2.7 and stator 0.9; then a plug on one day, a stator on the next."""
    later = DAY + dt.timedelta(days=1)
    found = replay(base_of(solved("b"), solved("a"), solved("c", "stator", seen=later)))
    assert [row.case for row in found] == ["a", "b", "c"]
    assert [row.advice.share for row in found] == pytest.approx([2.7 / 4, 2.7 / 4, 0.9 / 6])
    assert [row.advice.rank for row in found] == [1, 1, 2]
    assert found[2].advice.judgement == pytest.approx((2.7 / 4, 0.9 / 4, 0.1))


def test_a_cause_that_is_not_on_the_bike_counts_as_unlisted() -> None:
    (row,) = replay(base_of(solved("a", "late")))
    assert (row.cause, row.advice.rank) == (UNLISTED, 3)
    assert row.advice.share == pytest.approx(0.1)
    (row,) = replay(base_of(solved("a", "late", vehicle={"year": 2011})))
    assert (row.cause, row.advice.rank) == ("late", 3)
    assert row.advice.share == pytest.approx(0.9 / 5)


def test_equal_shares_rank_as_the_file_has_them() -> None:
    fault = f.fault("sags", causes=(f.cause("plug"), f.cause("stator")))
    found = replay(f.index(f.base(fault, cases=[solved("a", "stator"), solved("b", "plug")])))
    assert [(row.cause, row.advice.rank) for row in found] == [("stator", 2), ("plug", 1)]


def test_what_was_paid_is_told_where_it_was_said() -> None:
    paid = [None, Paid(parts=14.0, labour=None, where="home"), Paid(parts=None, labour=None, where="home")]
    found = replay(base_of(*(solved(f"c{n}", outcome={"paid": each}) for n, each in enumerate(paid))))
    assert [row.paid for row in found] == [None, 14.0, None]


def test_the_share_of_a_fault_is_that_of_the_plan_for_its_codes() -> None:
    """Two faults have the code: 1.8 of 4 judged cases each, 0.4 for one not described; counted are earlier ones."""
    later = DAY + dt.timedelta(days=1)
    found = replay(
        base_of(
            solved("a", codes=seen("P0562")),
            # Its cause does not exist on the bike of the others.
            solved("b", "late", vehicle={"year": 2011}, codes=seen("P0562")),
            solved("c", fault=None, codes=seen("P0562-11")),
            solved("d", "worn", "drains", seen=later, codes=seen("P0562", "P0335")),
            solved("e", "worn", "drains", seen=later, codes=seen("P0335")),
            solved("f", "worn", "drains", seen=later),
        )
    )
    near = pytest.approx
    assert {row.case: row.fault_share for row in found} == {
        "a": near(1.8 / 4),
        "b": near(1.8 / 4),
        "d": near(1.8 / (4 + 1 + 1)),
        "e": None,
        "f": None,
    }


# In sum

THIRD = (0.7, 0.2, 0.1)


def said(shares: tuple[float, ...], cause: int, judgement: tuple[float, ...] | None = None) -> ReplayRow:
    told = Advice(
        cause=cause,
        shares=shares,
        judgement=judgement or shares,
        cost=10.0,
        hand_over=30.0,
        likeliest_first=20.0 + cause,
    )
    return ReplayRow(case="c", seen=DAY, fault="f", cause="x", fault_share=None, advice=told, paid=None)


def test_scores_are_those_of_the_formulas() -> None:
    """By hand: −ln 0.7, and 0.3² + 0.2² + 0.1². scipy has both under other names, for every place."""
    from scipy import stats
    from scipy.spatial.distance import sqeuclidean

    assert log_of(THIRD, 0) == pytest.approx(0.356675, abs=1e-6)
    assert brier_of(THIRD, 0) == pytest.approx(0.14)
    for place in range(3):
        one = [float(place == each) for each in range(3)]
        assert log_of(THIRD, place) == pytest.approx(-stats.multinomial(1, THIRD).logpmf(one))
        assert brier_of(THIRD, place) == pytest.approx(sqeuclidean(THIRD, one))


def test_they_are_means_of_three_ways_to_say_it() -> None:
    log, brier = scores([said(THIRD, 0, (0.5, 0.25, 0.25)), said((0.5, 0.5), 1)]) or (None, None)
    assert log is not None
    assert brier is not None
    assert log.club == pytest.approx((math.log(1 / 0.7) + math.log(2)) / 2)
    assert log.judgement == pytest.approx(math.log(2))
    assert log.equal == pytest.approx((math.log(3) + math.log(2)) / 2)
    assert brier.club == pytest.approx((0.14 + 0.5) / 2)
    assert brier.judgement == pytest.approx((0.375 + 0.5) / 2)
    assert brier.equal == pytest.approx((2 / 3 + 0.5) / 2)
    assert scores([]) is None


def test_what_was_called_is_counted_by_how_likely_it_was_called() -> None:
    """Shares on an edge belong above it; a share of 1 to the last bin."""
    found = calibration([said(THIRD, 0), said((0.4, 0.6), 1), said((1.0,), 0)])
    assert [(each.low, each.called, each.were) for each in found] == [
        *((0.0, 0, 0), (0.1, 1, 0), (0.2, 1, 0), (0.4, 1, 0)),
        *((0.6, 2, 2), (0.8, 1, 1)),
    ]
    assert [each.mean for each in found if each.called] == pytest.approx([0.1, 0.2, 0.4, 0.65, 1.0])


def test_costs_are_averages() -> None:
    found = costs([said(THIRD, 0), said(THIRD, 2)])
    assert found is not None
    assert (found.plan, found.hand_over, found.likeliest_first) == (10, 30, 21)
    assert costs([]) is None


def test_the_terminal_shows_every_case_and_says_what_it_is_no_test_of(rows: tuple[ReplayRow, ...]) -> None:
    words = render(rows, "EUR")
    lines = words.splitlines()
    assert [line.split()[0] for line in lines[1 : len(rows) + 1]] == [row.case for row in rows]
    for sentence in judged_words(*scores(rows) or ()):
        assert sentence in lines
    assert LIMIT in lines
    assert any(line.startswith("40 to 60") for line in lines)


@pytest.mark.parametrize(
    ("log", "brier", "words"),
    [
        ((1.2, 1.3, 1.5), (0.6, 0.7, 0.8), "were better than"),
        ((1.4, 1.3, 1.5), (0.8, 0.7, 0.9), "were worse than"),
        ((1.2, 1.3, 1.5), (0.8, 0.7, 0.9), "were better by the log score and worse by the Brier score than"),
        ((1.3, 1.3, 1.5), (0.6, 0.7, 0.8), "were no better by the log score and better by the Brier score than"),
        ((1.6, 1.3, 1.5), (0.8, 0.7, 0.9), "Judgement and cases did no better than the same share for each cause, by"),
        (
            (1.6, 1.5, 1.5),
            (0.9, 0.9, 0.9),
            "The curators' judgement alone did no better than the same share for each cause.",
        ),
    ],
)
def test_it_says_so_where_the_cases_do_worse(
    log: tuple[float, float, float], brier: tuple[float, float, float], words: str
) -> None:
    one, other = (Scores(club=each[0], judgement=each[1], equal=each[2]) for each in (log, brier))
    assert words in " ".join(judged_words(one, other))


def test_the_page_of_the_figures_says_it_with_its_limit() -> None:
    """By hand, before any case: plug 0.675, which it was; then 3.7 of 5, and it was the stator, with 0.9 of 5."""
    later = DAY + dt.timedelta(days=1)
    index = base_of(
        solved("a", outcome={"paid": Paid(parts=14.0, labour=None, where="home")}), solved("b", "stator", seen=later)
    )
    text = Article(f.article(index.base, "figures/")).text
    log = (-math.log(0.675) - math.log(0.18)) / 2
    alone = (-math.log(0.675) - math.log(0.225)) / 2
    assert f"Judgement and cases {log:.3f}" in text
    assert f"The curators' judgement alone {alone:.3f}" in text
    assert "the shares were worse" in text
    assert "Called 60 to 80 % 50 % 1 of 2 were it" in text
    assert "1 case says what was paid: 14 EUR on average" in text
    assert LIMIT in text
    assert "No case counts yet" in Article(f.article(f.base(), "figures/")).text


# Kept


@pytest.fixture
def worked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The faults whose plans were really made."""
    done: list[str] = []
    real = advice._Said

    def counting(problem: object) -> object:
        done.append(problem.fault)  # type: ignore[attr-defined]
        return real(problem)  # type: ignore[arg-type]

    monkeypatch.setattr(advice, "_Said", counting)
    return done


def test_what_did_not_change_is_not_planned_again(tmp_path: Path, worked: list[str]) -> None:
    cases = [solved("a"), solved("b", "worn", "drains"), solved("c", "stator", seen=DAY + dt.timedelta(days=1))]

    def run(*cases: Case) -> tuple[ReplayRow, ...]:
        worked.clear()
        base = base_of(*cases).base
        digests = {"club.yml": b"club", **{each.path: repr(each).encode() for each in base.faults.values()}}
        digests.update({each.path: repr(each).encode() for each in base.cases.values()})
        with cache.opened(tmp_path, DAY.toordinal()) as memory:
            return replay(f.index(dataclasses.replace(base, digests=digests)), memory)

    first = run(*cases)
    assert sorted(worked) == ["drains", "sags"]
    assert run(*cases) == first
    assert worked == []
    more = run(*cases, solved("d", "worn", "drains", seen=cases[-1].seen))
    assert worked == ["drains"]
    assert more[:-1] == first
