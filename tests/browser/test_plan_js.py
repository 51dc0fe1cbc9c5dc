"""`core/plan.js`, `core/evidence.js` and `core/several.js` in Chromium, held to the vectors and to the Python side."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser
from scipy import special

from kbtools.checkplan import plan_of, plan_record
from kbtools.checkplan.beside import (
    Beside,
    FreeWork,
    Word,
    bad_before_riding,
    before_riding,
    beside_record,
    may_be_free,
    ride_advice,
    second_faults,
    word_record,
)
from kbtools.evidence import cases_words, shares, sureness
from kbtools.model.ride_advice import RIDE_LEVELS
from tests.support.places import ROOT
from tests.support.plan_compare import NEAR, deviation, worst
from tests.support.plan_instances import answered, instance
from tests.support.plan_problems import evidence_from, owner_from, problem_from

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
VECTORS: dict[str, Any] = json.loads((ROOT / "tests" / "vectors" / "plan.json").read_text(encoding="utf-8"))
Run = Callable[[str, object], Any]


@pytest.fixture(scope="module")
def run(browser: Browser, serve: Callable[..., str]) -> Iterator[Run]:
    """Runs the body of a function of the modules and `input` in the browser."""
    page = browser.new_page()
    page.goto(f"{serve(SCRIPTS)}core/plan.js")

    def run_body(body: str, given: object) -> Any:
        script = f"""async (input) => {{
            const plan = await import("/core/plan.js");
            const evidence = await import("/core/evidence.js");
            const several = await import("/core/several.js");
            const beta = await import("/core/beta.js");
            const beside = await import("/core/plan-beside.js");
            const body = (input) => {{ {body} }};
            return JSON.stringify(body(JSON.parse(input)));
        }}"""
        return json.loads(page.evaluate(script, json.dumps(given)))

    yield run_body
    page.close()


PLAN = "return input.map(({problem, owner}) => plan.makePlan(problem, owner));"


def test_plans_are_those_of_the_vectors(run: Run) -> None:
    rows = VECTORS["plans"]
    answers = run(PLAN, rows)
    assert len(answers) == len(rows) >= 200
    for row, answer in zip(rows, answers, strict=True):
        assert worst(row["expected"], answer) <= NEAR, row["number"]


def test_shares_are_those_of_the_vectors(run: Run) -> None:
    rows = VECTORS["shares"]
    answers = run("return input.map(({evidence: given, bike}) => evidence.shares(given, bike));", rows)
    for row, answer in zip(rows, answers, strict=True):
        assert [each[0] for each in row["expected"]] == [each["id"] for each in answer]
        for (_, mean, low, high), each in zip(row["expected"], answer, strict=True):
            assert each["share"] == pytest.approx(mean, rel=1e-12)
            assert each["low"] == pytest.approx(low, rel=1e-8, abs=1e-12)
            assert each["high"] == pytest.approx(high, rel=1e-8, abs=1e-12)


def test_suspects_are_those_of_the_vectors(run: Run) -> None:
    rows = VECTORS["several"]
    for row, answer in zip(
        rows, run("return input.map(({codes, bike}) => several.suspects(codes, bike));", rows), strict=True
    ):
        found = {each["component"]: each["probability"] for each in answer["suspects"]}
        assert found == pytest.approx(row["expected"], rel=1e-9)
        assert list(found.values()) == sorted(found.values(), reverse=True)
        assert sorted(answer["used"] + answer["follow_on"] + answer["unknown"]) == [code for code, _ in row["codes"]]


def test_quantiles_of_the_beta_distribution_against_scipy(run: Run) -> None:
    chance = random.Random(20_260_401)
    rows = [[10 ** chance.uniform(-2, 3.5), 10 ** chance.uniform(-2, 3.5)] for _ in range(2_000)]
    rows += [[1, 1], [0.5, 0.5], [2, 3], [1e-3, 1], [1, 1e-3], [400, 1e4]]
    answers = run("return input.map(([a, b]) => [0.05, 0.95].map((p) => beta.betaQuantile(a, b, p)));", rows)
    for (a, b), answer in zip(rows, answers, strict=True):
        wanted = special.betaincinv(a, b, [0.05, 0.95])
        # Near the ends of the range a share is 0 or 1 for all that a drawing shows.
        assert answer == pytest.approx(wanted.tolist(), rel=1e-7, abs=1e-9), (a, b)


def test_the_function_itself_against_scipy(run: Run) -> None:
    chance = random.Random(20_260_402)
    rows = [[10 ** chance.uniform(-2, 3), 10 ** chance.uniform(-2, 3), chance.random()] for _ in range(2_000)]
    answers = run("return input.map(([a, b, x]) => beta.betaBelow(a, b, x));", rows)
    assert answers == pytest.approx([special.betainc(*row) for row in rows], rel=1e-9, abs=1e-12)


# The two sides


def test_larger_instances_than_can_be_listed_are_solved_as_in_python(run: Run) -> None:
    pairs = [instance(number, most_causes=9, most_checks=9) for number in range(50_000, 50_150)]
    answers = run(PLAN, [{"problem": problem, "owner": owner} for problem, owner in pairs])
    for (problem, owner), answer in zip(pairs, answers, strict=True):
        ours = plan_of(problem_from(problem), owner_from(owner))
        assert worst(plan_record(ours), answer) <= NEAR
        assert deviation(ours.minutes, answer["minutes"]) <= NEAR
        assert answer["chances"] == pytest.approx(dict(ours.chances))
        assert [each.id for each in ours.causes] == [each["id"] for each in answer["causes"]]


def test_a_plan_with_few_states_is_as_in_python(run: Run) -> None:
    pairs = [instance(number, most_causes=6, most_checks=6) for number in range(30_000, 30_120)]
    rows = [{"problem": problem, "owner": owner} for problem, owner in pairs]
    answers = run("return input.map(({problem, owner}) => plan.makePlan(problem, owner, 3));", rows)
    bounded = 0
    for (problem, owner), answer in zip(pairs, answers, strict=True):
        ours: Any = plan_record(plan_of(problem_from(problem), owner_from(owner), 3))
        assert worst(ours, answer) <= NEAR
        assert answer["exact"] is ours["exact"]
        assert deviation(ours.get("at_least"), answer.get("at_least")) <= NEAR
        bounded += not answer["exact"]
    assert bounded > 20


def test_what_stands_beside_the_cost_is_as_in_python(run: Run) -> None:
    pairs = [answered(number) for number in range(60_000, 60_600)]
    given = [{"problem": problem, "owner": owner} for problem, owner in pairs]
    names = ("beforeRiding", "badBeforeRiding", "secondFaults")
    body = ", ".join(f"beside.{name}(problem, owner)" for name in names)
    answers = run(f"return input.map(({{problem, owner}}) => [{body}]);", given)
    seconds = 0
    for (problem, owner), answer in zip(pairs, answers, strict=True):
        ours = problem_from(problem), owner_from(owner)
        second = [[check, list(causes)] for check, causes in second_faults(*ours).items()]
        assert answer == [list(before_riding(*ours)), list(bad_before_riding(*ours)), second]
        seconds += len(second)
    assert seconds > 10


def test_the_strictest_advice_is_as_in_python(run: Run) -> None:
    chance = random.Random(20_261_129)
    levels = (*RIDE_LEVELS, None)

    def word(source: str) -> Word:
        return Word(level=chance.choice(levels), why=chance.choice((None, "It seizes.")), source=source)

    rows = []
    for _ in range(300):
        beside = Beside(word=word("fault:f"), causes={each: word(f"cause:{each}") for each in "abc"}, free=())
        chances = dict(
            zip("abc", chance.choice(([0.5, 0.5, 0], [0.49, 0.41, 0.1], [0.1, 0.9 - 1e-12, 0])), strict=True)
        )
        codes = [word(f"code:P000{number}") for number in range(chance.randint(0, 2))]
        rows.append((beside, chances, codes, chance.choice(([], [], ["again"]))))
    given = [
        [beside_record(beside), chances, [word_record(each) for each in codes], bad]
        for beside, chances, codes, bad in rows
    ]
    answers = run("return input.map((row) => beside.rideAdvice(...row));", given)
    assert answers == [word_record(ride_advice(*row)) for row in rows]
    assert {answer["from"].partition(":")[0] for answer in answers} == {"fault", "cause", "code", "check"}


def test_whom_a_recall_covers_is_as_in_python(run: Run) -> None:
    free = [
        FreeWork(source="one", kind="recall", covers=("a",), spans={"bittern-900": ((2003, 2005), (2007, 2007))}),
        FreeWork(source="two", kind="bulletin", covers=("b",), spans={"curlew-1100": ((2010, 2012),)}),
    ]
    beside = Beside(word=Word(level=None, why=None, source="fault:f"), causes={}, free=tuple(free))
    bikes = [None, *(("bittern-900", year) for year in range(2002, 2009)), ("curlew-1100", 2012), ("toString", 2004)]
    answers = run(
        "return input.bikes.map((bike) => beside.mayBeFree(input.beside, bike).map((each) => each.source));",
        {"bikes": bikes, "beside": beside_record(beside)},
    )
    assert answers == [[each.source for each in may_be_free(beside, bike)] for bike in bikes]


def test_what_the_page_adds_is_as_in_python(run: Run) -> None:
    def flat(steps: Any) -> list[tuple[object, ...]]:
        found: list[tuple[object, ...]] = []
        for step in steps:
            found.append((step.kind, step.id, step.inferred, round(step.minutes, 6)))
            for following in step.outcomes.values():
                found += flat(following)
        return found

    def flat_js(steps: Any) -> list[tuple[object, ...]]:
        found: list[tuple[object, ...]] = []
        for step in steps:
            found.append((step["kind"], step["id"], step.get("inferred", False), round(step["minutes"], 6)))
            for following in step["outcomes"].values():
                found += flat_js(following)
        return found

    rows = VECTORS["plans"]
    inferred = 0
    for row, answer in zip(rows, run(PLAN, rows), strict=True):
        steps = flat(plan_of(problem_from(row["problem"]), owner_from(row["owner"])).steps)
        assert flat_js(answer["steps"]) == steps
        inferred += sum(bool(step[2]) for step in steps)
    assert inferred > 10


def test_words_and_counts_of_cases_are_as_in_python(run: Run) -> None:
    pairs = [(0, 0, None), (1, 1, None), (0, 3, 0), (3, 7, 1), (5, 5, 0)]
    words = run("return input.map((row) => [evidence.casesWords(...row), evidence.sureness(row[1])]);", pairs)
    assert words == [[cases_words(*row), sureness(row[1])] for row in pairs]
    rows = VECTORS["shares"]
    counts = run(
        "return input.map(({evidence: given, bike}) => evidence.shares(given, bike).map((e) => [e.cases, e.yours]));",
        rows,
    )
    for row, found in zip(rows, counts, strict=True):
        bike = row["bike"] and tuple(row["bike"])
        assert found == [[each.cases, each.yours] for each in shares(evidence_from(row["evidence"]), bike)]


def test_a_reading_falls_on_its_side(run: Run) -> None:
    values = [13.49, 13.5, 14, 14.8, 14.81, -1]
    sides = run("return input.map((value) => plan.sideOf({good: [13.5, 14.8]}, value));", values)
    assert sides == ["low", "good", "good", "good", "high", "low"]


def test_what_stands_in_the_way_is_named(run: Run) -> None:
    fix = {"parts": 1, "hours": 1, "trial": False, "access": []}
    check = {
        "good": None,
        "finds": 1,
        "minutes": 1,
        "cost": 0,
        "access": ["cover-off"],
        "before_riding": False,
        "bike": 0,
    }
    problem = {
        **instance(1)[0],
        "evidence": {
            "prior_strength": 4,
            "unlisted_share": 0.1,
            "unlisted": {},
            "causes": [
                {"id": each, "component": None, "weight": 1, "applies": None, "cases": {}} for each in ("one", "two")
            ],
        },
        "access": [
            {"id": "tank-off", "minutes": 1, "needs": [], "skill": 1, "allows": 4},
            {"id": "cover-off", "minutes": 1, "needs": ["tank-off"], "skill": 0, "allows": 4},
        ],
        "tools": {"gauge": False},
        "fixes": [
            {"id": "one", "skill": 2, "tools": [], **fix},
            {"id": "two", "skill": 0, "tools": ["gauge"], **fix},
        ],
        "checks": [
            {"id": "look", "only_while_present": True, "skill": 0, "tools": [], "outcomes": {"bad": ["one"]}, **check},
            {"id": "done", "only_while_present": False, "skill": 2, "tools": [], "outcomes": {"bad": ["one"]}, **check},
        ],
    }
    owner = "{...plan.NOBODY, absent: true, results: {done: 'unclear'}}"
    assert run(f"return plan.obstacles(input, {owner});", problem) == [
        {"kind": "check", "id": "look", "skill": False, "tools": [], "access": ["tank-off"], "absent": True},
        {"kind": "fix", "id": "one", "skill": True, "tools": [], "access": [], "absent": False},
        {"kind": "fix", "id": "two", "skill": False, "tools": ["gauge"], "access": [], "absent": False},
    ]


def test_an_entry_beyond_all_bounds_is_refused(run: Run) -> None:
    problem, _ = instance(1)
    job = {"minutes": 1, "needs": [], "skill": 0, "allows": 4}
    jobs = [{"id": f"job-{number}", **job} for number in range(60)]
    refused = "try { plan.makePlan(input); return null; } catch (error) { return error.name; }"
    assert run(refused, {**problem, "access": jobs}) == "RangeError"
