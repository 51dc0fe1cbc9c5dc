"""`kbtools replay`: its contract, its words, and a base that nobody has reported to."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from click.testing import CliRunner

from kbtools.cli import main
from kbtools.rules import samples
from kbtools.wording.replay import verdict_on_cases

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


@pytest.mark.parametrize(
    ("log", "brier", "words"),
    [
        ((1.2, 1.3), (0.6, 0.7), "were better than"),
        ((1.4, 1.3), (0.8, 0.7), "were worse than"),
        ((1.2, 1.3), (0.8, 0.7), "better by the log score and worse by the Brier score than"),
        ((1.4, 1.3), (0.6, 0.7), "worse by the log score and better by the Brier score"),
        ((1.3, 1.3), (0.7, 0.7), "were no better than"),
        ((1.2, 1.3), (0.7, 0.7), "better by the log score and no better by the Brier"),
        ((1.4, 1.3), (0.7, 0.7), "worse by the log score and no better by the Brier"),
    ],
)
def test_it_says_so_where_the_cases_do_worse(log: tuple[float, float], brier: tuple[float, float], words: str) -> None:
    assert words in verdict_on_cases(log, brier)
