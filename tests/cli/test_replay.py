"""`kbtools replay`: its contract, its words, and a base that nobody has reported to."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from click.testing import CliRunner

from kbtools.cli import main
from kbtools.rules import samples

ROW = {
    *("case", "fault", "cause", "cause_share", "fault_share", "rank"),
    *("cost", "hand_over_cost", "likeliest_first_cost", "paid"),
}


def run(folder: str | Path, *arguments: str) -> str:
    result = CliRunner().invoke(main, ["replay", "--kb", str(folder), *arguments])
    assert result.exit_code == 0, result.output
    return result.output


def test_the_record_is_that_of_the_contract() -> None:
    found = json.loads(run("kb", "--format", "json"))
    assert set(found) == {"cases", "scores"}
    assert {frozenset(row) for row in found["cases"]} == {frozenset(ROW)}
    assert {name: set(each) for name, each in found["scores"].items()} == {
        name: {"club", "judgement", "equal"} for name in ("log", "brier")
    }
    shares = [row["cause_share"] for row in found["cases"]]
    assert found["scores"]["log"]["club"] == pytest.approx(-math.fsum(map(math.log, shares)) / len(shares))


def test_without_cases_nothing_is_scored(tmp_path: Path) -> None:
    for name, content in samples.FILES.items():
        if not name.startswith("cases/"):
            path = tmp_path / "kb" / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(content, encoding="utf-8")
    nothing = {"club": None, "judgement": None, "equal": None}
    assert json.loads(run(tmp_path / "kb", "--format", "json")) == {
        "cases": [],
        "scores": {"log": nothing, "brier": nothing},
    }
    assert run(tmp_path / "kb") == "No case counts yet, so there is nothing to hold the advice against.\n"
