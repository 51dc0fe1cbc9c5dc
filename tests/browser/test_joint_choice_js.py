"""Which faults go into one plan: `core/joint-choice.js` and `core/given-codes.js` in Chromium."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser

from kbtools.wording.joint import JOINT_WORDS
from tests.support.joint_instances import joint_instance
from tests.support.places import ROOT

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
Record = dict[str, Any]
Run = Callable[[str, object], Any]


@pytest.fixture(scope="module")
def run(browser: Browser, serve: Callable[..., str]) -> Iterator[Run]:
    page = browser.new_page()
    page.goto(f"{serve(SCRIPTS)}core/joint-choice.js")

    def run_body(body: str, given: object) -> Any:
        script = f"""async (input) => {{
            const own = await import("/core/joint-choice.js");
            const codes = await import("/core/given-codes.js");
            const {{ jointOf }} = await import("/core/joint.js");
            const {{ makePlan, NOBODY }} = await import("/core/plan.js");
            const body = (input) => {{ {body} }};
            return JSON.stringify(body(JSON.parse(input)));
        }}"""
        return json.loads(page.evaluate(script, json.dumps(given)))

    yield run_body
    page.close()


def test_machines_are_shared_as_a_list_of_all_years_says(run: Run) -> None:
    chance = random.Random(11)

    def applies() -> dict[str, list[list[int]]]:
        found: dict[str, list[list[int]]] = {}
        for model in chance.sample("abc", chance.choice((0, 1, 2))):
            first = chance.randint(2000, 2006)
            last = chance.randint(first, 2007)
            found[model] = [[first, last], [last + 2, last + 2]] if chance.random() < 0.4 else [[first, last]]
        return found

    def years(spans: dict[str, list[list[int]]]) -> set[tuple[str, int]]:
        return {
            (model, year) for model, runs in spans.items() for first, last in runs for year in range(first, last + 1)
        }

    rows = [[applies() for _ in range(chance.randint(1, 4))] for _ in range(200)]
    expected = []
    for row in rows:
        told = [years(each) for each in row if each]
        expected.append(not told or bool(set.intersection(*told)))
    found = run("return input.map((row) => own.shareAMachine(row.map((applies) => ({applies}))));", rows)
    assert found == expected
    assert {True, False} == set(expected)


def large(faults: int) -> list[Record]:
    """Faults of nine causes and nine checks each: three of them are 54 bits and more."""
    chance = random.Random(4)
    asked = joint_instance(chance, most_faults=1, most_causes=1, most_checks=0)
    part = asked["parts"][0]
    problem = part["problem"]
    (fix,) = problem["fixes"][:1]
    found = []
    for number in range(faults):
        ids = [f"c{place}" for place in range(9)]
        check = {
            "finds": 1,
            "only_while_present": False,
            "before_riding": False,
            "bike": 0,
            "minutes": 5,
            "cost": 0,
            "skill": 0,
            "tools": [],
            "access": [],
            "good": None,
        }
        cause: Record = {"component": None, "weight": 1, "applies": None, "cases": {}}
        # The later ones have the more cases, so the first is left out first.
        counted = {"m": {"2001": number}}
        found.append(
            {
                "beside": {
                    "advice": {"level": None, "why": None, "from": f"fault:f{number}"},
                    "causes": {},
                    "free": [],
                },
                "same": {},
                "shared": {},
                "good_for": {},
                "cases": None,
                "problem": {
                    **problem,
                    "fault": f"f{number}",
                    "access": [],
                    "fixes": [{**fix, "id": each, "access": [], "tools": []} for each in ids],
                    "checks": [{**check, "id": f"t{each}", "outcomes": {"bad": [each]}} for each in ids],
                    "evidence": {
                        **problem["evidence"],
                        "causes": [{**cause, "id": each, "cases": counted} for each in ids],
                        "unlisted": {},
                    },
                },
            }
        )
    return found


def test_what_does_not_fit_into_a_browser_is_planned_without_the_least_likely(run: Run) -> None:
    body = """let whole = null;
        try { makePlan(jointOf(input).problem, NOBODY, 50); } catch (error) { whole = error.name; }
        const {joint, faults, left} = own.fitting(input, null, 0);
        const plan = makePlan(joint.problem, NOBODY, 50);
        return {whole, left, faults, planned: joint.parts.map(({problem}) => problem.fault), steps: plan.steps.length,
            shares: joint.faults};"""
    found = run(body, large(4))
    assert found["whole"] == "RangeError"
    assert found["left"] == ["f0", "f1"]
    assert found["planned"] == ["f2", "f3"]
    assert found["steps"] > 0
    assert [each["id"] for each in found["faults"] if each["id"] != "unlisted"] == ["f3", "f2", "f1", "f0"]
    # Nine causes with 0, 1, 2, 3 cases each; those of the faults left out speak for none that is planned.
    assert {each["id"]: each["cases"] for each in found["shares"]} == {"f2": 18, "f3": 27, "unlisted": 9}


def fault(name: str, applies: Record, rows: list[Record], cases: list[Any] | None = None) -> Record:
    causes: list[Record] = [{"id": "c", "component": None, "weight": 1, "applies": None, "cases": {}}]
    evidence = {"prior_strength": 4, "unlisted_share": 0.1, "causes": causes, "unlisted": {}}
    joint = {"applies": applies, "same": {}, "shared": {}, "good_for": {}, "rows": rows, "cases": cases or []}
    return {"problem": {"fault": name, "checks": [], "evidence": evidence}, "beside": {}, "joint": joint}


def row(text: str, **more: object) -> Record:
    code = ["obd", text, text]
    return {"code": code, "unit": None, "fits": None, "with": [], "follow_on": False, "word": None, **more}


GIVEN = [{"code": ["obd", "P0562", "P0562"], "unit": None}]
OLD, NEW = {"a": [[2000, 2003]]}, {"a": [[2004, 2009]]}


@pytest.mark.parametrize(
    ("faults", "bike", "whole", "expected"),
    [
        ([fault("f", OLD, [row("P0562", follow_on=True)])], None, True, "follows"),
        ([fault("f", OLD, [row("P0562", **{"with": [["obd", "U0121", "U0121"]]})])], ["a", 2001], True, "follows"),
        ([fault("f", OLD, [row("P0562", unit="ecu", fits={"a": [[2000, 2000]]})])], ["a", 2001], True, "none_here"),
        ([fault("f", OLD, [row("P0562")])], ["a", 2005], True, "none_here"),
        ([], ["a", 2005], False, "not_here"),
        ([fault("f", OLD, [row("P0562")]), fault("g", NEW, [row("P0562")])], None, True, "no_machine"),
        ([fault("f", OLD, [row("P0562")]), fault("g", NEW, [row("P0562")])], ["a", 2001], True, None),
        ([fault(f"f{number}", OLD, [row("P0562")]) for number in range(9)], None, True, "too_many"),
        ([fault(f"f{number}", OLD, [row("P0562")]) for number in range(8)], None, True, None),
    ],
)
def test_why_there_is_no_plan_is_one_of_the_sentences(
    faults: list[Record], bike: list[object] | None, whole: bool, expected: str | None, run: Run
) -> None:
    body = """const {faults, given, bike, isWhole} = input;
        return own.obstacleTo(own.partsFor(faults, given, bike), faults, {given, bike, isWhole});"""
    assert run(body, {"faults": faults, "given": GIVEN, "bike": bike, "isWhole": whole}) == expected
    if expected is not None:
        assert {expected, f"{expected}_first"} <= JOINT_WORDS.keys()


def test_cases_on_the_model_of_the_bike_are_those_with_the_code(run: Run) -> None:
    code, other = ["obd", "P0562", "P0562"], ["obd", "P0230", "P0230"]
    cases = [
        ["c", [code], "a"],
        ["c", [code], "b"],
        ["c", [other], "a"],
        ["unlisted", [other, code], "a"],
        ["c", [code], None],
    ]
    asked = {"fault": fault("f", OLD, [row("P0562")], cases), "given": GIVEN}
    found = run(
        'return [["a", 2001], ["b", 2001], null].map((bike) => own.casesOnModel(input.fault, input.given, bike));',
        asked,
    )
    # The fault does not concern model b; without a bike nothing is said of a model.
    assert found == [2, 0, 0]


WORD = {"level": "do-not-ride", "why": None, "from": "code:x"}


@pytest.mark.parametrize(
    ("read", "listed", "expected"),
    [
        ("P0016", ["obd", "P0016", "P0016"], True),
        ("p0016", ["obd", "P0016", "P0016"], True),
        # SAE J2012: the failure type stands behind the code; readers and entries may leave it out.
        ("P0016-13", ["obd", "P0016", "P0016"], True),
        ("P0016", ["obd", "P0016-13", "P0016"], True),
        ("P0016-13", ["obd", "P0016-1C", "P0016"], False),
        ("4-2", ["flash", "4-2", "4-2"], True),
        ("4-2", ["flash", "4", "4"], False),
        ("P0017", ["obd", "P0016", "P0016"], False),
        ("P0230, P0016 ,P0016", ["obd", "P0016", "P0016"], True),
        ("<b>call 555</b>,", ["obd", "P0016", "P0016"], False),
    ],
)
def test_a_code_that_was_read_brings_its_own_advice(read: str, listed: list[str], expected: bool, run: Run) -> None:
    body = """const read = codes.readCodes(input.read);
        return codes.wordsOf([input.row], read, null).map(({level}) => level);"""
    found = run(body, {"read": read, "row": {**row(""), "code": listed, "word": WORD}})
    assert found == (["do-not-ride"] if expected else [])


def test_what_has_not_the_look_of_a_code_is_not_read_out_of_an_address(run: Run) -> None:
    text = "P0562,<img src=x>,," + "A" * 60 + ",abs-a:4-2"
    assert run("return codes.readCodes(input);", text) == ["P0562", "abs-a:4-2"]


def test_a_code_of_a_unit_that_the_bike_has_not_brings_no_advice(run: Run) -> None:
    rows = [{**row("P0016"), "unit": "engine-d", "fits": {"a": [[2010, 2012]]}, "word": WORD}]
    body = 'return [null, ["a", 2011], ["a", 2013]].map((bike) => codes.wordsOf(input, ["P0016"], bike).length);'
    assert run(body, rows) == [1, 1, 0]
