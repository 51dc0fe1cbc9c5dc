"""Which cases count, the shares that follow, how sure they are, what held, what was paid."""

from __future__ import annotations

import json
from typing import Any

import numpy as np
import pytest

from kbtools.evidence import (
    CauseCases,
    Evidence,
    by_falling_share,
    cases_words,
    evidence_of,
    held,
    means,
    narrowing,
    odometers,
    paid,
    shares,
)
from kbtools.evidence.shares import intervals, parameters, wilson
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case, Paid
from kbtools.model.money import Distance
from tests.support.factories import base, case, cause, club, fault, index, model, row
from tests.support.places import VECTORS
from tests.support.plan_problems import evidence_from

CASES: dict[str, Any] = json.loads((VECTORS / "plan.json").read_text(encoding="utf-8"))


def km(value: int) -> Distance:
    return Distance(value=value, unit="km")


def miles(value: int) -> Distance:
    return Distance(value=value, unit="mi")


def solved(id: str, **outcome: Any) -> Case:  # noqa: A002
    return case(id, "sags", outcome={"state": "solved", "cause": "plug", "after": km(900), "verified": False} | outcome)


def with_cases(*cases: Case) -> KnowledgeBase:
    causes = (cause("plug", share=6.0), cause("stator", share=3.0, applies_to=(row(when="2003-2005"),)))
    return base(fault("sags", causes=causes), cases=cases)


# Which cases are counted


def test_cases_under_an_old_name_of_the_fault_count() -> None:
    one = solved("one")
    knowledge = base(fault("droops", formerly=("sags",), causes=(cause("plug"),)), cases=[one])
    built = index(knowledge)
    assert evidence_of(built.published["droops"], built, club()).causes[0].cases == 1


# Shares


def evidence(prior: list[float], counts: list[int], strength: float = 10) -> Evidence:
    """The last of each is the cause that is not listed."""
    causes = [
        CauseCases(id=f"c{number}", component=None, weight=weight, applies=None, counted={("m", 2004): count})
        for number, (weight, count) in enumerate(zip(prior[:-1], counts[:-1], strict=True))
    ]
    return Evidence(
        prior_strength=strength,
        unlisted_share=prior[-1] / sum(prior),
        causes=tuple(causes),
        unlisted={("m", 2004): counts[-1]},
    )


def test_the_worked_example_of_a_dirichlet_posterior() -> None:
    """Prior (5, 3, 2) and counts (7, 1, 0); values of scipy and statsmodels: 95 % equal-tail intervals."""
    found = evidence([5, 3, 2], [7, 1, 0])
    assert list(means(found).values()) == pytest.approx([0.666667, 0.222222, 0.111111], abs=1e-6)
    _, alphas = parameters(found)
    assert alphas == pytest.approx([12, 4, 2])
    wanted = [(0.440417, 0.857903), (0.068108, 0.434318), (0.014579, 0.286889)]
    assert np.array(intervals(alphas, 0.95)) == pytest.approx(np.array(wanted), abs=1e-6)


def test_shares_are_those_of_the_vectors() -> None:
    for each in CASES["shares"]:
        found = shares(evidence_from(each["evidence"]), each["bike"] and tuple(each["bike"]))
        assert [share.id for share in found] == [row[0] for row in each["expected"]]
        for share, (_, mean, low, high) in zip(found, each["expected"], strict=True):
            assert (share.mean, share.low, share.high) == pytest.approx((mean, low, high), rel=1e-9, abs=1e-12)


def test_intervals_against_drawing_from_the_distribution() -> None:
    """numpy draws Dirichlet samples; their own quantiles lie where the intervals say."""
    alphas = [3.4, 0.8, 2.2, 0.4]
    draws = np.random.default_rng(20_260_403).dirichlet(alphas, 200_000)
    wanted = np.quantile(draws, [0.05, 0.95], axis=0).T
    assert np.array(intervals(alphas)) == pytest.approx(wanted, abs=4e-3)


def test_only_causes_that_exist_on_the_machine_share() -> None:
    built = index(with_cases(solved("one"), solved("two", cause="stator"), solved("three", cause="unlisted")))
    found = evidence_of(built.published["sags"], built, club())
    everywhere = {share.id: share for share in shares(found)}
    # 4 · 0.9 · 6/9, 4 · 0.9 · 3/9 and 4 · 0.1, one case each: (3.4, 2.2, 1.4) of 7.
    assert [everywhere[each].mean for each in ("plug", "stator", "unlisted")] == pytest.approx([3.4 / 7, 2.2 / 7, 0.2])
    # The cases are on a Bittern of 2007, on which the stator does not fail: (3.6 + 1, 0.4 + 1) of 6.
    late = {share.id: share for share in shares(found, ("bittern-900", 2007))}
    assert {each: share.mean for each, share in late.items()} == pytest.approx({"plug": 4.6 / 6, "unlisted": 1.4 / 6})
    assert (late["plug"].cases, late["plug"].yours) == (1, 1)
    assert shares(found, ("bittern-900", 2005))[0].yours == 0


def test_without_weights_all_weigh_the_same_and_without_causes_nothing_is_listed() -> None:
    knowledge = base(fault("sags", causes=(cause("a"), cause("b"), cause("c"))), models=[model()])
    built = index(knowledge)
    found = evidence_of(built.published["sags"], built, club())
    assert list(means(found).values()) == pytest.approx([0.3, 0.3, 0.3, 0.1])
    (only,) = shares(Evidence(prior_strength=4, unlisted_share=0.1, causes=(), unlisted={}))
    assert (only.id, only.mean, only.low, only.high) == ("unlisted", 1.0, 1.0, 1.0)


def test_the_largest_share_first_and_equal_ones_in_their_order() -> None:
    found = shares(evidence([3, 6, 3, 1], [0, 0, 0, 0]))
    assert [share.id for share in by_falling_share(found)] == ["c1", "c0", "c2", "unlisted"]


def test_words_about_cases() -> None:
    assert cases_words(0, 0) == "curator's judgement only"
    assert cases_words(1, 1) == "1 of 1 case"
    assert cases_words(3, 7, 1) == "3 of 7 cases, 1 of them on yours"
    assert cases_words(0, 7, 0) == "0 of 7 cases"


# What held


@pytest.mark.parametrize(
    ("successes", "trials", "low", "high"),
    [
        # Computed by statsmodels; the last four pairs of counts are those of R. G. Newcombe (1998).
        (0, 10, 0, 0.277533),
        (1, 10, 0.017876, 0.404150),
        (3, 10, 0.107791, 0.603222),
        (7, 20, 0.181192, 0.567146),
        (10, 10, 0.722467, 1),
        (81, 263, 0.255289, 0.366210),
        (15, 148, 0.062386, 0.160487),
        (0, 20, 0, 0.161125),
        (1, 29, 0.006113, 0.171755),
    ],
)
def test_wilsons_interval(successes: int, trials: int, low: float, high: float) -> None:
    assert wilson(successes, trials) == pytest.approx((low, high), abs=1e-6)


def test_a_fix_held_where_its_cases_count_and_not_where_the_fault_came_back() -> None:
    built = index(
        with_cases(solved("one"), solved("two"), solved("three", state="returned"), solved("four", after=None))
    )
    plug, stator = evidence_of(built.published["sags"], built, club()).causes
    found = held(plug)
    assert found is not None
    assert (found.held, found.tried) == (2, 3)
    assert held(stator) is None


# Money and odometers


def paying(*totals: float, where: str = "home") -> list[Case]:
    return [
        solved(f"c{number}", paid=Paid(parts=total - 10, labour=10.0, where=where))  # type: ignore[arg-type]
        for number, total in enumerate(totals)
    ]


def test_quartiles_of_what_was_paid_are_interpolated() -> None:
    """numpy's linear definition; another one (`statistics.quantiles`) gives 150, 200, 400."""
    found = paid(paying(120, 150, 180, 200, 260, 400, 950))
    assert found is not None
    assert (found.cases, found.lower, found.median, found.upper) == (7, 165, 200, 330)


def test_under_five_nothing_is_said_of_money() -> None:
    assert paid(paying(1, 2, 3, 4)) is None
    assert paid([*paying(1, 2, 3, 4), solved("none", paid=Paid(parts=None, labour=None, where="home"))]) is None
    assert paid(paying(1, 2, 3, 4, 5), where="workshop") is None
    assert paid(paying(1, 2, 3, 4, 5), cause="stator") is None
    assert paid(paying(1, 2, 3, 4, 5), cause="plug", where="home") is not None


def test_odometers_rise_in_the_unit_of_the_club() -> None:
    far = case("far", "sags", vehicle={"odometer": miles(50_000)})
    near = solved("near")
    built = index(with_cases(far, near))
    marks = odometers(built.published["sags"], built, club())
    assert [(mark.case, mark.distance.text, mark.cause, mark.counted) for mark in marks] == [
        ("near", "61\u202f200\u00a0km", "plug", True),
        ("far", "80\u202f467\u00a0km", None, False),
    ]


# What one more case would tell


@pytest.mark.parametrize("counts", [[0, 0, 0], [7, 1, 0], [2, 30, 4]])
def test_the_narrowing_is_the_mean_over_what_the_next_case_may_be(counts: list[int]) -> None:
    found = evidence([5, 3, 2], counts, strength=4)
    _, alphas = parameters(found)

    def variance(of: list[float]) -> float:
        a = np.array(of)
        total = a.sum()
        # Variances of a Dirichlet distribution's marginals, as textbooks have them.
        return float((a * (total - a) / (total**2 * (total + 1))).sum())

    total = sum(alphas)
    after = sum(
        alpha / total * variance([each + (place == chosen) for place, each in enumerate(alphas)])
        for chosen, alpha in enumerate(alphas)
    )
    known = narrowing(found)
    assert known.spread == pytest.approx(variance(alphas) ** 0.5)
    assert known.narrowing == pytest.approx(variance(alphas) ** 0.5 - after**0.5)
    assert known.cases == sum(counts)


def test_a_case_tells_more_where_there_are_few() -> None:
    few, many = narrowing(evidence([5, 3, 2], [1, 1, 0])), narrowing(evidence([5, 3, 2], [10, 10, 0]))
    assert few.narrowing > many.narrowing
    assert few.widest > many.widest
