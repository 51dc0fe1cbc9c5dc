"""One plan for several faults: against every tree listed, against published results, and against sums done by hand."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from itertools import permutations
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.beside import Beside, FreeWork, Word
from kbtools.checkplan.joint import Part, joint_of
from kbtools.checkplan.joint_beside import joint_may_be_free, joint_record, joint_ride_advice
from kbtools.checkplan.problem import CheckWork
from kbtools.evidence import CauseCases
from kbtools.model.case import CheckResult
from tests.checkplan.test_outside import NOTHING, check, problem, smith
from tests.support.joint_brute import JointBrute
from tests.support.joint_instances import joint_instance
from tests.support.joint_problems import joint_from
from tests.support.make_joint_vectors import joint_vectors
from tests.support.places import VECTORS
from tests.support.plan_brute import TooManyError
from tests.support.plan_compare import NEAR, worst
from tests.support.plan_problems import owner_from

Record = dict[str, Any]
CASES: list[Record] = json.loads((VECTORS / "joint.json").read_text(encoding="utf-8"))


def solve(asked: Record) -> Any:
    joint, owner = joint_from(asked), owner_from(asked["owner"])
    return joint_record(joint, plan_of(joint.problem, owner), owner)


def compare(wanted: Record, found: Any) -> None:
    assert worst(wanted, found) <= NEAR
    assert found["fault"] is None
    assert found["ride_advice"] == wanted["ride_advice"]
    assert found["faults"] == [
        {"id": name, "share": near(share), "low": near(low), "high": near(high), "cases": cases}
        for name, share, low, high, cases in sorted(wanted["faults"], key=lambda row: -round(row[1], 12))
    ]
    assert found["causes"] == [
        {"id": name, "share": near(share), "low": None, "high": None, "cases": cases}
        for name, share, cases in sorted(wanted["causes"], key=lambda row: -round(row[1], 12))
    ]


def near(figure: float) -> Any:
    return pytest.approx(figure, rel=1e-9, abs=1e-12)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(st.randoms(use_true_random=False))
def test_the_joint_plan_is_the_best_of_all_trees(chance: random.Random) -> None:
    asked = joint_instance(chance)
    brute = JointBrute(asked)
    try:
        wanted = brute.solve()
    except TooManyError:
        assume(False)
    assert worst(wanted, solve(asked)) <= NEAR
    assert solve(asked)["ride_advice"] == brute.told()["ride_advice"]


def test_joint_plans_are_those_of_the_vectors() -> None:
    assert len(CASES) >= 100
    for row in CASES:
        compare(row["expected"], solve(row["asked"]))


def test_the_vectors_have_all_that_joins_faults() -> None:
    joints = [joint_from(row["asked"]) for row in CASES]
    assert sum(any(len(each) > 1 for each in joint.members.values()) for joint in joints) > 20
    assert sum(any(len(each) > 1 for each in joint.uses.values()) for joint in joints) > 20
    assert sum(len(joint.parts) > 2 for joint in joints) > 20
    assert {row["expected"]["ride_advice"]["from"].partition(":")[0] for row in CASES} >= {"fault", "cause"}


def test_the_vectors_are_what_their_script_writes() -> None:
    for wanted, row in zip(joint_vectors(6), CASES, strict=False):
        assert wanted["asked"] == row["asked"]
        assert worst(wanted["expected"], row["expected"]) <= 1e-12


# Published results


def part(name: str, shares: dict[str, float], checks: list[CheckWork], **more: Any) -> Part:
    made = problem(shares, checks, **{"hand_over": 1e6, **more.pop("money", {})})
    fields = {"same": {}, "shared": {}, "cases": None, **more}
    word = Word(level="ride-with-care", why=None, source=f"fault:{name}")
    fields.setdefault("beside", Beside(word=word, causes={}, free=()))
    return Part(problem=replace(made, fault=name), **fields)


@st.composite
def two_faults(draw: st.DrawFn) -> list[tuple[list[float], list[float]]]:
    found = []
    for _ in range(2):
        count = draw(st.integers(1, 3))
        weights = draw(st.lists(st.integers(1, 40), min_size=count, max_size=count))
        costs = draw(st.lists(st.integers(1, 60), min_size=count, max_size=count))
        found.append(([each / sum(weights) for each in weights], [float(each) for each in costs]))
    return found


@settings(max_examples=60, deadline=None)
@given(two_faults())
def test_falling_probability_over_cost_is_best_over_the_checks_of_both(
    faults: list[tuple[list[float], list[float]]],
) -> None:
    """Smith's rule (1956), as in `test_outside.py`: before any case both faults are as likely."""
    parts = []
    for name, (shares, costs) in zip("ab", faults, strict=True):
        ids = [f"c{number}" for number in range(len(shares))]
        checks = [check(each, each, cost=cost) for each, cost in zip(ids, costs, strict=True)]
        parts.append(part(name, dict(zip(ids, shares, strict=True)), checks))
    plan = plan_of(joint_of(parts, None, 0).problem, Owner())
    shares = [share / 2 for own, _ in faults for share in own]
    costs = [cost for _, own in faults for cost in own]
    ids = [f"{name}/c{number}" for name, (own, _) in zip("ab", faults, strict=True) for number in range(len(own))]
    ratio = sorted(range(len(shares)), key=lambda each: -shares[each] / costs[each])
    best = min(smith(shares, costs, each) for each in permutations(range(len(shares))))
    assert smith(shares, costs, tuple(ratio)) == pytest.approx(best)
    # A bike without any of these causes costs a million, times one in ten thousand million.
    assert plan.expected_cost == pytest.approx(best, abs=1e-3)
    places = [ids.index(step.id) for step in plan.steps if step.kind == "check" and step.id]
    assert smith(shares, costs, tuple(places)) == pytest.approx(best)


FOUR = {"a": 0.5, "b": 0.3, "c": 0.15, "d": 0.05}, {"a": 60, "b": 10, "c": 5, "d": 20}
NONE = {"a": 0.45, "b": 0.25, "c": 0.20}, {"a": 30, "b": 10, "c": 40}


@pytest.mark.parametrize(
    ("published", "split", "strength", "cases", "best", "order", "likeliest"),
    [
        # Both faults are as likely before any case: a has its half alone.
        (FOUR, ("a", "bcd"), 1, 0, 47.5, "bcad", 67),
        # Of 9 judged cases and one counted: 5.5 to 4.5.
        (FOUR, ("ad", "bc"), 9, 1, 47.5, "bcad", 67),
        # 100 if it is none of them, which is one in ten.
        (NONE, ("a", "bc"), 1, 0, 54.5, "bac", 57.5),
    ],
)
def test_published_examples_come_out_the_same_over_two_faults(  # noqa: PLR0917 (a row each)
    published: tuple[dict[str, float], dict[str, int]],
    split: tuple[str, str],
    strength: float,
    cases: int,
    best: float,
    order: str,
    likeliest: float,
) -> None:
    """The examples of `test_outside.py`, their causes and checks dealt out to two faults."""
    shares, costs = published
    # A cause that is not listed may be of either fault, or of one that is not described: (1 − u)² is listed.
    outside = 1 - sum(shares.values()) ** 0.5
    parts = []
    for name, own in zip("xy", split, strict=True):
        whole = sum(shares[each] for each in own)
        inside = {each: shares[each] / whole * (1 - outside) for each in own}
        made = part(name, inside, [check(each, each, cost=costs[each]) for each in own], money={"hand_over": 100})
        evidence = replace(made.problem.evidence, prior_strength=strength, unlisted_share=max(outside, NOTHING))
        spoken = {own[0]: cases if name == "x" else 0}
        parts.append(replace(made, problem=replace(made.problem, evidence=evidence), cases=spoken))
    plan = plan_of(joint_of(parts, None, 0).problem, Owner())
    assert plan.expected_cost == pytest.approx(best, abs=1e-4)
    assert plan.likeliest_first == pytest.approx(likeliest, abs=1e-4)
    assert "".join((step.id or "")[-1] for step in plan.steps if step.kind == "check") == order


def counted(made: Part, cases: dict[str, int]) -> Part:
    causes = [
        CauseCases(
            id=each.id,
            component=None,
            weight=each.weight,
            applies=None,
            counted={("bittern-900", 2007): cases.get(each.id, 0)},
        )
        for each in made.problem.evidence.causes
    ]
    evidence = replace(made.problem.evidence, causes=tuple(causes), prior_strength=4.0, unlisted_share=0.1)
    return replace(made, problem=replace(made.problem, evidence=evidence))


def two() -> list[Part]:
    """Three and one case: with m = 4 and u = 0.1 the parameters are 3 + 1.8, 1 + 1.8."""
    one = counted(part("a", {"x": 0.5, "y": 0.5}, [check("t", "x", cost=5)]), {"x": 2, "y": 1})
    return [one, counted(part("b", {"z": 1.0}, [check("t", "z", cost=5)]), {"z": 1})]


def test_shares_of_faults_are_a_dirichlet_distribution() -> None:
    """Two solved cases are about no fault: 2 + 0.4. In all 4.8 + 2.8 + 2.4 = 10."""
    from scipy import stats

    found = joint_of(two(), None, 2).faults
    assert [(each.id, each.cases) for each in found] == [("a", 3), ("b", 1), ("unlisted", 2)]
    for each, alpha in zip(found, (4.8, 2.8, 2.4), strict=True):
        assert each.mean == pytest.approx(alpha / 10)
        assert [each.low, each.high] == pytest.approx(stats.beta(alpha, 10 - alpha).ppf([0.05, 0.95]).tolist())


def test_causes_share_what_their_fault_has() -> None:
    """In a: x 2 + 1.8, y 1 + 1.8, unlisted 0.4 of 7; in b: z 1 + 3.6, unlisted 0.4 of 5."""
    found: dict[str, Any] = {each.id: (each.mean, each.cases) for each in joint_of(two(), None, 2).causes}
    assert found["a/x"] == (pytest.approx(0.48 * 3.8 / 7), 2)
    assert found["a/y"] == (pytest.approx(0.48 * 2.8 / 7), 1)
    assert found["b/z"] == (pytest.approx(0.28 * 4.6 / 5), 1)
    assert found["unlisted"][0] == pytest.approx(0.24 + 0.48 * 0.4 / 7 + 0.28 * 0.4 / 5)
    assert sum(share for share, _ in found.values()) == pytest.approx(1)


# What joins them


def joined(**more: Any) -> list[Part]:
    first, second = two()
    same = {"x": "one"}, {"z": "one"}
    return [
        Part(problem=each.problem, beside=each.beside, same=own, shared=more.get("shared", {}), cases=None)
        for each, own in zip((first, second), same, strict=True)
    ]


def test_a_cause_of_two_faults_is_one_and_called_by_the_likelier() -> None:
    found = joint_of(joined(), None, 2)
    assert found.members == {"a/x": (("a", "x"), ("b", "z")), "a/y": (("a", "y"),)}
    share = {each.id: each.mean for each in found.causes}
    assert share["a/x"] == pytest.approx(0.48 * 3.8 / 7 + 0.28 * 4.6 / 5)
    assert [set(each.outcomes[0][1]) for each in found.problem.checks] == [{"a/x"}, {"a/x"}]


def test_a_check_of_two_faults_is_one_and_means_the_causes_of_both() -> None:
    parts = [
        Part(problem=each.problem, beside=each.beside, same={}, shared={"t": "rest"}, cases=None) for each in two()
    ]
    found = joint_of(parts, None, 2)
    assert [(each.id, dict(each.outcomes)) for each in found.problem.checks] == [("rest", {"bad": ("a/x", "b/z")})]
    assert found.uses == {"rest": (("a", "t"), ("b", "t"))}


def test_only_cases_with_the_codes_speak_for_a_fault() -> None:
    """None of a's three cases, and three of b's: 1.8, 4.8, 0.4 of 7. Within a fault all its cases count still."""
    parts = [
        Part(problem=each.problem, beside=each.beside, same={}, shared={}, cases=cases)
        for each, cases in zip(two(), ({"x": 0}, {"z": 3}), strict=True)
    ]
    found = joint_of(parts, None, 0)
    assert [(each.id, each.cases) for each in found.faults] == [("b", 3), ("a", 0), ("unlisted", 0)]
    assert found.faults[0].mean == pytest.approx(4.8 / 7)
    assert {each.id: each.mean for each in found.causes}["a/x"] == pytest.approx(1.8 / 7 * 3.8 / 7)


# May I ride it


def advised(results: dict[str, CheckResult], codes: list[Word] | None = None) -> str:
    parts = two()
    levels = ("ride-to-workshop", "ride-with-care")
    causes: tuple[dict[str, Word], ...] = ({"y": Word(level="do-not-ride", why="It seizes.", source="cause:y")}, {})
    told = [
        Part(
            problem=each.problem,
            beside=Beside(
                word=Word(level=level, why=None, source=f"fault:{each.problem.fault}"),  # type: ignore[arg-type]
                causes=own,
                free=(),
            ),
            same={},
            shared={},
            cases=None,
        )
        for each, level, own in zip(parts, levels, causes, strict=True)
    ]
    joint = joint_of(told, None, 0)
    plan = plan_of(joint.problem, Owner(results=results))
    return joint_ride_advice(joint, plan.chances, codes or [], []).source


def test_the_advice_of_a_fault_holds_while_one_of_its_causes_is_possible() -> None:
    assert advised({}) == "fault:a"
    assert advised({"b/t": "bad"}) == "fault:b"
    # A good result rules z out; y is likelier than not only once x is out as well.
    assert advised({"b/t": "good"}) == "fault:a"
    assert advised({"b/t": "good", "a/t": "good"}) == "cause:a/y"
    # They contradict each other: nobody knows which it is.
    assert advised({"b/t": "bad", "a/t": "bad"}) == "fault:a"
    assert advised({"b/t": "bad"}, [Word(level="do-not-ride", why=None, source="code:P0562")]) == "code:P0562"


def test_recalls_of_all_of_them_cover_joint_causes() -> None:
    parts = joined()
    free = [
        FreeWork(source="B1", kind="bulletin", covers=("x", "y"), spans={"bittern-900": ((2003, 2005),)}),
        FreeWork(source="R1", kind="recall", covers=("z",), spans={"bittern-900": ((2004, 2008),)}),
    ]
    told = [
        Part(
            problem=each.problem,
            beside=Beside(word=each.beside.word, causes={}, free=(work,)),
            same=each.same,
            shared={},
            cases=None,
        )
        for each, work in zip(parts, free, strict=True)
    ]
    joint = joint_of(told, ("bittern-900", 2004), 0)
    found = joint_may_be_free(joint, ("bittern-900", 2004))
    assert [(each.source, each.covers) for each in found] == [("R1", ("a/x",)), ("B1", ("a/x", "a/y"))]
    assert [each.source for each in joint_may_be_free(joint, ("bittern-900", 2007))] == ["R1"]
