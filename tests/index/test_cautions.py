"""Cautions hold where the hands are, whoever names them: at the row, its system, its component or what is opened."""

from __future__ import annotations

import dataclasses

from kbtools.index.access import most_allowed
from kbtools.index.cautions import cautions_of_check, cautions_of_fault, cautions_of_fix, hazards
from kbtools.index.references import faults_naming
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Caution
from kbtools.model.fault import Fault
from tests.support import factories as make


def a_base() -> tuple[KnowledgeBase, Fault]:
    fault = make.fault(
        "f",
        system="anti-lock",
        cautions=("of-fault",),
        causes=(
            make.cause("worn", component="sensor", fix=make.fix(cautions=("of-fix",), access=("wheel-out",))),
            make.cause("loose"),
        ),
        checks=(
            make.check("look", points_to=("loose",), cautions=("of-check", "of-brakes")),
            make.check("gap", points_to=("worn",), access=("wheel-out",)),
        ),
    )
    names = ("of-fault", "of-fix", "of-check", "of-brakes", "of-anti-lock", "of-sensor", "of-wheels", "of-wheel-out")
    base = make.base(
        fault,
        systems=[
            make.system("brakes", cautions=("of-brakes",)),
            make.system("anti-lock", parent="brakes", cautions=("of-anti-lock",)),
            make.system("wheels", cautions=("of-wheels",)),
        ],
        components=[make.component("sensor", system="wheels", cautions=("of-sensor",))],
        access=[make.access("bike-up", cautions=("lifting",)), make.access("wheel-out", "bike-up", allows="off")],
        cautions=[Caution(id=each, text=each, at="") for each in names]
        + [Caution(id="lifting", text="Tie it.", at="", hazard="lifting")],
    )
    return base, fault


def ids(cautions: tuple[Caution, ...]) -> list[str]:
    return [each.id for each in cautions]


def test_a_fault_has_its_own_cautions_and_those_of_its_systems() -> None:
    base, fault = a_base()
    assert ids(cautions_of_fault(base, fault)) == ["of-fault", "of-anti-lock", "of-brakes"]


def test_a_fix_has_those_of_what_it_opens_of_its_component_and_of_that_ones_system() -> None:
    base, fault = a_base()
    of_worn = ids(cautions_of_fix(base, fault, fault.causes[0]))
    assert of_worn == ["of-fix", "lifting", "of-sensor", "of-wheels", "of-fault", "of-anti-lock", "of-brakes"]
    assert hazards(cautions_of_fix(base, fault, fault.causes[0])) == {"lifting"}
    assert ids(cautions_of_fix(base, fault, fault.causes[1])) == ["of-fault", "of-anti-lock", "of-brakes"]


def test_a_check_has_those_of_the_parts_that_it_looks_at_each_once() -> None:
    base, fault = a_base()
    look, gap = fault.checks
    assert ids(cautions_of_check(base, fault, look)) == ["of-check", "of-brakes", "of-fault", "of-anti-lock"]
    assert ids(cautions_of_check(base, fault, gap))[:3] == ["lifting", "of-sensor", "of-wheels"]


def test_what_is_open_allows_what_the_strictest_of_it_allows() -> None:
    base, _ = a_base()
    assert most_allowed(["bike-up"], base) == "riding"
    assert most_allowed(["wheel-out"], base) == "off"
    # What it needs counts too.
    cover = make.access("cover-off", "wheel-out", allows="running")
    whole = make.base(access=[*base.access.values(), cover])
    assert most_allowed(["cover-off"], whole) == "off"
    assert most_allowed([], whole) == "riding"


def test_an_entry_whose_cause_is_the_same_names_the_other() -> None:
    one = make.fault("one", causes=(make.cause("worn", same_as="other/worn"),))
    other = make.fault("other", causes=(make.cause("worn"),))
    base = make.base(one, other)
    assert faults_naming(base, "other") == ("one",)
    assert faults_naming(base, "one") == ()
    assert faults_naming(dataclasses.replace(base, faults={"other": other}), "other") == ()
