"""`kbtools plan` for several faults: its contract, its words, and what it refuses."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from tests.support.plan_compare import every_step

PAIR = ("battery-flat-overnight", "voltage-sags-when-wet")
BIKE = ("--model", "bittern-900", "--year", "2006")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["plan", *arguments, "--kb", "kb"])


def plan(*arguments: str) -> dict[str, Any]:
    result = run(*arguments, "--format", "json")
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.output)
    return found


def test_the_record_is_that_of_the_contract() -> None:
    found = plan("--code", "p 0562", *BIKE)
    assert found["fault"] is None
    assert set(found) == {
        *("fault", "faults", "expected_cost", "currency", "baselines", "exact", "steps", "causes"),
        *("before_riding", "ride_advice", "may_be_free"),
    }
    assert {each["id"] for each in found["faults"]} == {*PAIR, "unlisted"}
    for rows in (found["faults"], found["causes"]):
        shares = [each["share"] for each in rows]
        assert shares == sorted(shares, reverse=True)
        assert math.fsum(shares) == pytest.approx(1)
        assert {frozenset(each) for each in rows} == {frozenset({"id", "share", "low", "high", "cases"})}
    assert all(each["low"] < each["share"] < each["high"] for each in found["faults"])
    assert all(each["low"] is None and each["high"] is None for each in found["causes"])
    steps = list(every_step(found["steps"]))
    assert sum(each["reach"] * each["cost"] for each in steps) == pytest.approx(found["expected_cost"])
    assert {each["id"].partition("/")[0] for each in steps if each["id"]} == {*PAIR, "battery-rest"}
    assert set(found["ride_advice"]) == {"level", "why", "from"}


def test_named_faults_count_all_their_cases_and_codes_those_with_the_code() -> None:
    named = {each["id"]: each["cases"] for each in plan(*PAIR, *BIKE)["faults"]}
    coded = {each["id"]: each["cases"] for each in plan("--code", "P0562", *BIKE)["faults"]}
    assert all(coded[each] <= named[each] for each in PAIR)
    assert coded != named


def test_codes_give_this_form_for_one_fault_as_well() -> None:
    found = plan("--code", "P0335", "--model", "bittern-900", "--year", "2006")
    assert found["fault"] is None
    assert len(found["faults"]) == 2


def test_one_fault_with_a_code_is_the_plan_of_that_fault() -> None:
    found = plan(PAIR[0], "--code", "P0562")
    assert found["fault"] == PAIR[0]
    assert "faults" not in found


def test_results_and_covered_causes_go_by_the_ids_of_the_joint_plan() -> None:
    first = plan(*PAIR, *BIKE)
    step = first["steps"][0]
    good = plan(*PAIR, *BIKE, "--result", f"{step['id']}=good")
    assert [each["id"] for each in good["steps"]] == [each["id"] for each in first["steps"][1:]]
    assert good["faults"] == first["faults"]
    cause = next(each["id"] for each in first["causes"] if each["id"] != "unlisted")
    covered = plan(*PAIR, *BIKE, "--covered", cause)
    assert {each["where"] for each in every_step(covered["steps"]) if each["id"] == cause} == {"maker"}


def test_a_cause_of_both_is_one_and_may_be_named_by_either() -> None:
    pair = ("charge-lamp-stays-on", "voltage-sags-when-wet")
    found = plan(*pair, *BIKE)
    ids = {each["id"] for each in found["causes"]}
    assert len(ids & {"charge-lamp-stays-on/plug-burnt", "voltage-sags-when-wet/corroded-plug"}) == 1
    one = plan(*pair, *BIKE, "--covered", "charge-lamp-stays-on/plug-burnt")
    assert one == plan(*pair, *BIKE, "--covered", "voltage-sags-when-wet/corroded-plug")


def test_the_words_say_which_fault_it_may_be_and_end_with_reading_again() -> None:
    text = " ".join(run("--code", "P0562", "--code", "P0999", *BIKE).output.split())
    for said in (
        "One plan for: Battery flat after one or two nights; Charging voltage sags after a wet ride",
        "- A fault not described here: ",
        "None of these faults sets P0999 by itself.",
        "1. Pull the plug",
    ):
        assert said in text
    assert text.endswith("clear them, ride as before, read again.")
    assert "read again" not in run("--code", "P0562", *BIKE).output


MANY = (
    *("battery-flat-overnight", "voltage-sags-when-wet", "charge-lamp-stays-on", "starter-only-clicks"),
    *("cranks-but-does-not-fire", "pickup-fails-hot", "boils-at-speed", "overheats-in-town", "chain-slack-and-jumps"),
)


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ((), "Name a fault, or a code with --code."),
        ((*PAIR, "--code", "P0562"), "several faults and --code do not go together"),
        ((PAIR[0], PAIR[0]), f"{PAIR[0]} is named twice."),
        (("--code", "P0999", "--code", "P0998"), "No entry has P0999 or P0998."),
        (("--code", "U0121", "--model", "curlew-1100", "--year", "2014"), "it follows from another code"),
        (("--code", "P0562", "--model", "dunlin-650", "--year", "1998"), "No fault of dunlin-650 of 1998 has P0562."),
        ((*PAIR, "--model", "dunlin-650", "--year", "1850"), "was not built in 1850"),
        (
            (*PAIR, *BIKE, "--result", "look-at-plug=bad"),
            'There is no check "look-at-plug". Did you mean "voltage-sags-when-wet/look-at-plug"?',
        ),
        ((*PAIR, *BIKE, "--result", "no-such=bad"), 'There is no check "no-such".'),
        ((*PAIR, *BIKE, "--result", "battery-rest=bad"), '"bad" cannot come out of battery-rest, but low, high, good,'),
        (("battery-flat-overnight", "purge-valve-stuck", "throttle-sensor-worn"), "No machine can have all of"),
        ((*PAIR, *BIKE, "--covered", "corroded-plug"), 'There is no cause "corroded-plug".'),
        (MANY, "9 faults are too many for one plan: 8 at most."),
    ],
)
def test_what_makes_no_joint_plan_is_refused_in_a_sentence(arguments: tuple[str, ...], sentence: str) -> None:
    result = run(*arguments)
    assert result.exit_code == 2
    assert sentence in " ".join(result.output.split())
