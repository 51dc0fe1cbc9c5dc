"""The formats of findings, each held to a snapshot that was written by hand."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kbtools.diagnostics import Finding, Mark, has_errors, in_order
from kbtools.report import text
from kbtools.report.formats import FORMATS

SNAPSHOTS = Path(__file__).parent / "snapshots"
PATH = "kb/faults/charging/lamp.yml"
WARNING = Finding(
    rule="KB702",
    severity="warning",
    path=PATH,
    mark=Mark(line=9, column=1),
    message="The title holds \x1b[31m and \u202e.",
    hint="Take the sign out.",
)
ERROR = Finding(
    rule="KB302",
    severity="error",
    path=PATH,
    mark=Mark(line=3, column=8),
    message='There is no system "chargin".',
    hint='Did you mean "charging"?',
)


@pytest.mark.parametrize("name", sorted(FORMATS))
def test_every_format_has_its_snapshot(name: str) -> None:
    made = FORMATS[name](in_order([WARNING, ERROR, ERROR]))
    expected = (SNAPSHOTS / f"findings.{name}").read_text("utf-8")
    # JSON may write a character either way; what it says counts.
    assert json.loads(made) == json.loads(expected) if name == "json" else made == expected


def test_no_findings_are_said_in_words() -> None:
    assert text.render([]) == "Nothing to mend.\n"
    assert json.loads(FORMATS["json"]([])) == []


def test_a_warning_alone_stops_nothing() -> None:
    assert not has_errors([WARNING])
    assert has_errors([WARNING, ERROR])
