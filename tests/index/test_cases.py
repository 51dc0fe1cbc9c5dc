"""Which cases are about a fault, and which of them count as evidence, by the words of the format."""

from __future__ import annotations

from typing import Any

import pytest

from kbtools.index.cases import cases_by_fault, cases_known, cases_naming, counted_naming
from kbtools.index.cases import counted as cases_that_count
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.money import Distance
from tests.support.factories import base, case, cause, fault, row, withdrawn


def km(value: int) -> Distance:
    return Distance(value=value, unit="km")


def miles(value: int) -> Distance:
    return Distance(value=value, unit="mi")


def solved(id: str, fault_id: str = "sags", **outcome: Any) -> Case:  # noqa: A002
    return case(
        id, fault_id, outcome={"state": "solved", "cause": "plug", "after": km(900), "verified": False} | outcome
    )


def with_cases(*cases: Case) -> KnowledgeBase:
    return base(
        fault("sags", causes=(cause("plug"), cause("stator", applies_to=(row(when="2003-2005"),)))), cases=cases
    )


def counted(*cases: Case) -> dict[str, list[str]]:
    """Cause → ids of the cases that count for it."""
    knowledge = with_cases(*cases)
    found = cases_that_count(knowledge.faults["sags"], cases_by_fault(knowledge).get("sags", ()), knowledge)
    return {each: sorted(one.id for one in group) for each, group in found.items()}


@pytest.mark.parametrize(
    "outcome",
    [
        {"state": "open", "cause": None},
        {"state": "returned"},
        {"cause": None},
        {"cause": "another-fault-has-it"},
        {"after": km(499)},
        {"after": None},
        {"after": miles(310)},  # 498.9 km
    ],
)
def test_what_does_not_count(outcome: dict[str, Any]) -> None:
    assert counted(solved("one", **outcome)) == {}


@pytest.mark.parametrize(
    "outcome",
    [
        {},
        {"after": km(500)},
        {"after": miles(311)},
        {"after": None, "verified": True},
        {"after": km(1), "verified": True},
    ],
)
def test_what_counts(outcome: dict[str, Any]) -> None:
    assert counted(solved("one", **outcome)) == {"plug": ["one"]}


def test_a_cause_that_is_not_listed_counts_as_such() -> None:
    assert counted(solved("one", cause="unlisted")) == {"unlisted": ["one"]}


def test_a_case_that_a_later_one_follows_does_not_count() -> None:
    later = case("two", None, follows="one")
    assert counted(solved("one"), later) == {}
    assert counted(solved("one"), solved("two", cause="stator"), case("three", "sags", follows="two")) == {
        "plug": ["one"]
    }


def test_the_site_follows_old_ids_and_the_rules_do_not() -> None:
    """Naming an old id is KB310, so a rule must not count what that finding will change."""
    causes = (cause("plug"),)
    knowledge = base(
        fault("droops", formerly=("sags",), causes=causes),
        fault("draft", draft=True, causes=causes),
        fault("gone", withdrawn=withdrawn(), causes=causes),
        cases=[solved(f"case-of-{each}", each) for each in ("droops", "sags", "draft", "gone", "nobody")],
    )
    on_the_site = {each: {one.id for one in cases} for each, cases in cases_by_fault(knowledge).items()}
    assert on_the_site == {"droops": {"case-of-droops", "case-of-sags"}}
    for_rules = {each: [one.id for one in cases] for each, cases in counted_naming(knowledge).items()}
    assert for_rules == {each: [f"case-of-{each}"] for each in ("droops", "draft", "gone")}


def test_cases_that_name_a_fault_stand_in_the_order_of_the_files() -> None:
    knowledge = base(fault("sags"), cases=[case("b", "sags"), case("riddle"), case("a", "sags")])
    assert {each: [one.id for one in cases] for each, cases in cases_naming(knowledge).items()} == {"sags": ["b", "a"]}


@pytest.mark.parametrize(
    ("damaged", "known"), [((), True), (("/outcome/after",), False), (("/fault",), False), (("/seen",), True)]
)
def test_a_case_that_is_not_read_whole_may_count(damaged: tuple[str, ...], known: bool) -> None:
    assert cases_known(base(cases=[case("one", damaged=frozenset(damaged))])) is known


def test_without_the_club_nobody_knows_how_far_is_far_enough() -> None:
    knowledge = base(fault("sags", causes=(cause("plug"),)), cases=[solved("one")], club=None)
    assert not cases_known(knowledge)
    assert counted_naming(knowledge) == {}
