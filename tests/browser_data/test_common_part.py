"""Several codes at once: the reference for the one part that would explain them all, by hand."""

from __future__ import annotations

import json
from typing import Any

import pytest

from kbtools.model.codes import FaultCode, read_code
from tests.support.common_part import CodeFault, Suspects, code_faults, suspects
from tests.support.factories import FORMATS, base, cause, club, code, component, fault, index, model, row
from tests.support.places import VECTORS
from tests.support.plan_problems import evidence_from

CASES: dict[str, Any] = json.loads((VECTORS / "plan.json").read_text(encoding="utf-8"))
COMPONENTS = [component(each) for each in ("regulator", "stator", "pump", "earth")]


def obd(text: str) -> FaultCode:
    found = read_code(text, FORMATS).code
    assert found is not None
    return found


def part(name: str, share: float, **changes: Any) -> Any:
    return cause(f"{name}-bad", component=name, share=share, **changes)


KNOWLEDGE = base(
    fault("sags", codes=(code("P0562"),), causes=(part("regulator", 6), part("stator", 3))),
    fault("flat", codes=(code("P0562"), code("U0121", follow_on=True)), causes=(part("earth", 1),)),
    fault(
        "stalls", codes=(code("P0230-11"), code("P0562", follow_on=True)), causes=(part("pump", 8), part("earth", 1))
    ),
    fault("later", codes=(code("P0230"),), applies_to=(row(when="2010-2012"),), causes=(part("stator", 1),)),
    models=[model()],
    components=COMPONENTS,
)
INDEX = index(KNOWLEDGE)


def explain(*texts: str, bike: tuple[str, int] | None = ("bittern-900", 2007)) -> Suspects:
    return suspects({text: code_faults(obd(text), INDEX, club()) for text in texts}, bike)


def test_one_code_by_hand() -> None:
    """Sags gives the regulator .6 and the stator .3, flat the earth .9, each halved; stalls only follows."""
    found = explain("P0562")
    assert {each.component: each.by_code["P0562"] for each in found.suspects} == pytest.approx(
        {"regulator": 0.3, "stator": 0.15, "earth": 0.45}
    )
    assert [each.component for each in found.suspects] == ["earth", "regulator", "stator"]
    assert sum(each.probability for each in found.suspects) == pytest.approx(1)


def test_the_part_that_explains_both_codes_comes_first() -> None:
    """P0230: pump .8, earth .1. Products: earth .45 · .1, regulator .3 · .02, stator .15 · .02, pump .02 · .8."""
    found = explain("P0562", "P0230-11")
    products = {"earth": 0.045, "regulator": 0.006, "stator": 0.003, "pump": 0.016}
    assert {each.component: each.probability for each in found.suspects} == pytest.approx(
        {each: value / 0.07 for each, value in products.items()}
    )
    assert found.suspects[0].component == "earth"


def test_a_consequence_is_skipped_and_said_to_be_one() -> None:
    found = explain("U0121", "P0562", "P0999")
    assert found.used == ("P0562",)
    assert found.follow_on == ("U0121",)
    assert found.unknown == ("P0999",)
    assert explain("U0121").suspects == ()


def test_only_the_faults_of_the_machine_speak() -> None:
    assert [each.component for each in explain("P0230").suspects] == ["pump", "earth"]
    early = explain("P0230", bike=("bittern-900", 2011))
    assert {each.component for each in early.suspects} == {"pump", "earth", "stator"}
    assert explain("P0230", bike=("curlew-1100", 2011)).unknown == ("P0230",)
    assert {each.component for each in explain("P0230", bike=None).suspects} == {"pump", "earth", "stator"}


def test_suspects_are_those_of_the_vectors() -> None:
    for each in CASES["several"]:
        codes = {text: [code_fault(one) for one in faults] for text, faults in each["codes"]}
        found = suspects(codes, each["bike"] and tuple(each["bike"]))
        assert {one.component: one.probability for one in found.suspects} == pytest.approx(each["expected"], rel=1e-9)
        assert sorted([*found.used, *found.follow_on, *found.unknown]) == sorted(codes)


def code_fault(record: dict[str, Any]) -> CodeFault:
    return CodeFault(
        fault=record["fault"],
        follow_on=record["follow_on"],
        applies={each: tuple((first, last) for first, last in runs) for each, runs in record["applies"].items()},
        evidence=evidence_from(record["evidence"]),
    )
