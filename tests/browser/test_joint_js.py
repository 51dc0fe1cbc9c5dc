"""`core/joint.js` and `core/joint-parts.js` in Chromium, held to the vectors and to the Python side."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser

from kbtools.browser_data.joint import cases_without_fault_data, code_row, joint_data
from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.beside import beside_of, beside_record, words_of_codes
from kbtools.checkplan.joint_beside import joint_record
from kbtools.checkplan.parts import joint_plan
from kbtools.checkplan.problem import problem_of, problem_record
from kbtools.cli.named import code_rows
from kbtools.edges.checking import check
from kbtools.edges.clock import today
from kbtools.index.answers import Index
from kbtools.index.build import build_index
from kbtools.index.together import GivenCode, faults_of_codes
from tests.support.joint_instances import joint_instance
from tests.support.joint_problems import joint_from
from tests.support.places import ROOT, VECTORS
from tests.support.plan_compare import NEAR, deviation, worst
from tests.support.plan_problems import owner_from

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
Record = dict[str, Any]
CASES: list[Record] = json.loads((VECTORS / "joint.json").read_text(encoding="utf-8"))
Run = Callable[[str, object], Any]
SEVERAL = """
    const told = (asked, more) => {
        const found = joint.planSeveral(asked.parts, asked.owner, {withoutFault: asked.without_fault, ...more});
        const {plan, faults, causes, next, ride_advice, may_be_free, before_riding} = found;
        return {plan, faults, causes, next, ride_advice, may_be_free, before_riding};
    };
"""


@pytest.fixture(scope="module")
def run(browser: Browser, serve: Callable[..., str]) -> Iterator[Run]:
    """Runs the body of a function of the modules and `input` in the browser."""
    page = browser.new_page()
    page.goto(f"{serve(SCRIPTS)}core/joint.js")

    def run_body(body: str, given: object) -> Any:
        script = f"""async (input) => {{
            const joint = await import("/core/joint.js");
            const parts = await import("/core/joint-parts.js");
            const {{NOBODY}} = await import("/core/plan.js");
            {SEVERAL}
            const body = (input) => {{ {body} }};
            return JSON.stringify(body(JSON.parse(input)));
        }}"""
        return json.loads(page.evaluate(script, json.dumps(given)))

    yield run_body
    page.close()


def test_joint_plans_are_those_of_the_vectors(run: Run) -> None:
    answers = run("return input.map((asked) => told(asked, {}));", [row["asked"] for row in CASES])
    assert len(answers) == len(CASES) >= 100
    for row, answer in zip(CASES, answers, strict=True):
        wanted = row["expected"]
        assert worst(wanted, answer["plan"]) <= NEAR, row["number"]
        assert answer["ride_advice"] == wanted["ride_advice"]
        faults = [[each[name] for name in ("id", "share", "low", "high", "cases")] for each in answer["faults"]]
        causes = [[each[name] for name in ("id", "share", "cases")] for each in answer["causes"]]
        for found, rows in ((faults, wanted["faults"]), (causes, wanted["causes"])):
            assert {each[0]: each[1:] for each in found} == {
                each[0]: pytest.approx(each[1:], rel=1e-8, abs=1e-12) for each in rows
            }
            assert [each[1] for each in found] == sorted((each[1] for each in found), reverse=True)


def test_larger_ones_and_those_of_few_states_are_as_in_python(run: Run) -> None:
    rows = [
        joint_instance(random.Random(f"larger {number}"), most_faults=3, most_causes=4, most_checks=4)
        for number in range(60)
    ]
    few = 0
    for most in (None, 3):
        more = {} if most is None else {"mostStates": most}
        answers = run("return input.rows.map((asked) => told(asked, input.more));", {"rows": rows, "more": more})
        for asked, answer in zip(rows, answers, strict=True):
            joint, owner = joint_from(asked), owner_from(asked["owner"])
            plan = plan_of(joint.problem, owner) if most is None else plan_of(joint.problem, owner, most)
            ours: Any = joint_record(joint, plan, owner)
            assert worst(ours, answer["plan"]) <= NEAR
            assert answer["plan"]["exact"] is ours["exact"]
            assert deviation(ours.get("at_least"), answer["plan"].get("at_least")) <= NEAR
            assert answer["ride_advice"] == ours["ride_advice"]
            assert answer["before_riding"] == ours["before_riding"]
            assert [each["id"] for each in answer["faults"]] == [each["id"] for each in ours["faults"]]
            few += not ours["exact"]
    assert few > 10


# From the data of the demo's faults


@pytest.fixture(scope="module")
def demo() -> Index:
    return build_index(check(Path("kb"), today()).base, today())


def test_the_demos_codes_lead_to_the_same_plans_from_the_data_of_its_faults(run: Run, demo: Index) -> None:
    faults = [each for each in demo.published.values() if each.codes and each.causes]
    data = [
        {
            "problem": problem_record(problem_of(each, demo)),
            "beside": beside_record(beside_of(each, demo)),
            "joint": joint_data(each, demo),
        }
        for each in sorted(faults, key=lambda fault: fault.id)
    ]
    asked: list[Record] = []
    wanted: list[Any] = []
    for code in demo.uses_by_code:
        units = sorted({use.row.unit for use in demo.uses_by_code[code] if use.row.unit is not None})
        for unit in [None, *units]:
            for bike in (None, ("bittern-900", 2006), ("dunlin-650", 1998), ("curlew-1100", 2019)):
                given = [GivenCode(code=code, unit=unit)]
                found = faults_of_codes(given, bike, demo)
                asked.append({"given": [{"code": code_row(code, demo), "unit": unit}], "bike": bike})
                if not found:
                    wanted.append(None)
                    continue
                joint = joint_plan(found, given, bike, demo)
                owner = Owner(bike=bike)
                words = tuple(words_of_codes(code_rows(given, found, bike, demo)))
                good = {each.id: each.good for each in joint.problem.checks}
                wanted.append({**joint_record(joint, plan_of(joint.problem, owner), owner, words), "good": good})
    answers = run(
        """return input.asked.map(({given, bike}) => {
            const planned = input.data.filter((each) => parts.partFor(each, given, bike) !== null);
            if (!planned.length) { return null; }
            const all = planned.map((each) => parts.partFor(each, given, bike));
            const found = joint.planSeveral(all, {...NOBODY, bike}, {
                withoutFault: parts.withoutFault(input.without, given),
                codes: parts.wordsOfCodes(planned, given, bike),
            });
            const good = Object.fromEntries(found.joint.problem.checks.map((each) => [each.id, each.good]));
            return {...found, joint: null, good};
        });""",
        {"asked": asked, "data": data, "without": cases_without_fault_data(demo)},
    )
    several = lithium = 0
    for ours, answer in zip(wanted, answers, strict=True):
        assert (ours is None) == (answer is None)
        if ours is not None:
            assert worst(ours, answer["plan"]) <= NEAR
            assert answer["ride_advice"] == ours["ride_advice"]
            assert answer["good"] == {name: each and list(each) for name, each in ours["good"].items()}
            lithium += ours["good"].get("battery-rest") == (13.1, 13.4)
            assert [(each["id"], each["cases"]) for each in answer["faults"]] == [
                (each["id"], each["cases"]) for each in ours["faults"]
            ]
            assert [[each["source"], each["covers"]] for each in answer["may_be_free"]] == [
                [each["source"], each["covers"]] for each in ours["may_be_free"]
            ]
            several += len(ours["faults"]) > 2
    assert several > 5
    # By kb/checks.yml, for curlew-1100 from 2018 on.
    assert lithium > 0
