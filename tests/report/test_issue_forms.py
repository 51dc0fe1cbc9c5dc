"""The forms for issues: made from the schema, as the host wants them, and read back by what they make.

The host's rules: its documentation of the syntax for issue forms (keys of the top level, types of elements, ids of
letters, digits, hyphens and underscores, each once; labels each once).
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from kbtools.cli import main
from kbtools.edges.shipped import shapes
from kbtools.intake.fields import fields_of
from kbtools.intake.issue_form import NOT_ASKED
from kbtools.report.issue_forms import PARTS, issue_forms
from tests.support.places import ROOT
from tests.support.sample_base import in_folder
from tests.support.yaml_files import core_load

FOLDER = ROOT / ".github" / "ISSUE_TEMPLATE"
SCHEMA = shapes()["case"].schema


def form(name: str) -> dict[str, Any]:
    # YAML 1.1, as the host's reader: what is no text there must not be one that was meant as a text.
    made: dict[str, Any] = yaml.safe_load((FOLDER / name).read_text("utf-8"))
    return made


def test_the_forms_are_those_that_the_schema_makes() -> None:
    """If this fails, the schema of cases has changed: run `kbtools schemas --issue-forms .github/ISSUE_TEMPLATE`."""
    assert {path.name: path.read_text("utf-8") for path in FOLDER.iterdir()} == issue_forms(SCHEMA)


@pytest.mark.parametrize("name", ["report.yml", "correction.yml"])
def test_the_host_takes_them(name: str) -> None:
    made = form(name)
    assert set(made) == {"name", "description", "title", "labels", "body"}
    ids, labels = [], []
    for each in made["body"]:
        assert each["type"] in {"markdown", "input", "textarea", "dropdown", "checkboxes"}
        if each["type"] != "markdown":
            assert re.fullmatch(r"[\w-]+", each["id"], re.ASCII)
            ids.append(each["id"])
            labels.append(each["attributes"]["label"])
        for key, value in each["attributes"].items():
            options = value if key == "options" and each["type"] == "dropdown" else []
            assert all(isinstance(option, str) for option in options)
            assert key == "options" or isinstance(value, str)
    assert len(set(ids)) == len(ids)
    assert len(set(labels)) == len(labels)


def test_it_asks_for_every_key_of_a_case_and_insists_on_what_a_case_needs() -> None:
    asked = {each["id"]: each for each in form("report.yml")["body"] if "id" in each}
    keys = fields_of(SCHEMA)
    assert list(asked) == [*(name for name in keys if name not in NOT_ASKED), "promise"]
    needed = {name for name, each in asked.items() if each.get("validations", {}).get("required")}
    assert needed == {"model", "year", "odometer", "seen", "state"}
    assert asked["state"]["attributes"]["options"] == SCHEMA["properties"]["outcome"]["properties"]["state"]["enum"]


def test_the_page_and_the_form_call_the_parts_of_an_entry_the_same() -> None:
    script = (ROOT / "site_overrides/assets/js/core/report-other.js").read_text("utf-8")
    (found,) = re.findall(r"PARTS = \[(.*?)\]", script, re.DOTALL)
    assert tuple(re.findall(r'"([\w-]+)"', found)) == PARTS


ANSWERS = {
    "model": "Wren 400",
    "year": "2006",
    "odometer": "38.000 km",
    "bike": "b009",
    "seen": "2 April 2026",
    "codes": "P0562 stored",
    "symptoms": "Charge lamp flickers\nHorn croaks: only in the rain",
    "fault": "Charge lamp flickers in the rain",
    "tried": "look-at-plug: bad\ncorroded-plug: helped",
    "state": "solved",
    "cause": "Corroded plug at the regulator",
    "after": "900 km",
    "verified": "yes",
    "parts": "12,50",
    "note": "### Not a head\n\nOnly the middle way was green.",
}


def body(answers: dict[str, str]) -> str:
    """As the host makes it of a form: a head and an answer each, CR LF between lines."""
    pieces = []
    for each in form("report.yml")["body"]:
        if each["type"] == "checkboxes":
            pieces.append(f"### {each['attributes']['label']}\n\n- [X] {each['attributes']['options'][0]['label']}")
        elif "id" in each:
            pieces.append(f"### {each['attributes']['label']}\n\n{answers.get(each['id'], '_No response_')}")
    return "\n\n".join(pieces).replace("\n", "\r\n")


def add(text: str) -> tuple[int, str]:
    Path("issue.md").write_bytes(text.encode())
    done = CliRunner().invoke(main, ["add-report", "issue.md"])
    return done.exit_code, " ".join(done.stderr.split())


def test_what_the_form_makes_becomes_a_case(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    in_folder(tmp_path, monkeypatch)
    assert add(body(ANSWERS)) == (0, "")
    assert core_load(Path("kb/cases/2026/wren-400-0002.yml").read_text("utf-8")) == {
        "vehicle": {"model": "wren-400", "year": 2006, "odometer": "38000 km", "bike": "b009"},
        "seen": "2026-04-02",
        "codes": [{"code": "P0562", "status": "stored"}],
        "symptoms": ["Charge lamp flickers", "Horn croaks: only in the rain"],
        "fault": "lamp-flickers",
        "tried": [{"check": "look-at-plug", "result": "bad"}, {"fix": "corroded-plug", "result": "helped"}],
        "outcome": {
            "state": "solved",
            "cause": "corroded-plug",
            "after": "900 km",
            "verified": True,
            "paid": {"parts": 12.5},
            "note": ANSWERS["note"],
        },
        "source": {"kind": "first-hand", "title": "Member report"},
    }


@pytest.mark.parametrize(
    ("answers", "told"),
    [
        ({"odometer": "far"}, "Odometer:"),
        ({"seen": "2/4/2026"}, "Seen:"),
        ({"fault": "lamp-flicker"}, 'Fault: There is no fault "lamp-flicker". Did you mean "lamp-flickers"'),
        ({"state": "_No response_"}, "state"),
        ({"note": "Ring me on 0171 5550123."}, "Note: A telephone number stands here"),
        ({"note": "See\n\n### Fault\n\nlever-soft"}, 'The question "Fault" stands there twice.'),
        ({"symptoms": "<img src=x onerror=alert(1)>"}, "Symptoms:"),
        ({"cause": "corroded-plug }\nsource: {kind: recall, title: x"}, "Cause:"),
    ],
)
def test_what_cannot_be_a_case_is_told_at_its_question(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, answers: dict[str, str], told: str
) -> None:
    in_folder(tmp_path, monkeypatch)
    code, said = add(body({**ANSWERS, **answers}))
    assert code == 1
    assert told in said
    assert [path.name for path in Path("kb/cases").rglob("*.yml")] == ["wren-400-0001.yml"]
