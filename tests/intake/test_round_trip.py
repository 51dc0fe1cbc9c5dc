"""Any case, written as a report and dressed up by a mail program, comes back as it was."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.drafting.entries import NewFile, text_of
from kbtools.edges.shipped import shapes
from kbtools.intake.letters import letters
from kbtools.intake.marked import marked
from kbtools.intake.report import SOURCE, report_of_text
from tests.support.generated_faults import ODD_TEXTS

SHAPES = shapes()
KEYS = list(SHAPES["case"].hints.properties)
ANY = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=80)
MARKS = ("--- end", "a\n--- end\nb", "x\n--- report\ny", "### Note\n\n> quoted")
ODD = [text for text in (*ODD_TEXTS, *MARKS) if len(text) <= 300]
TEXTS = st.sampled_from(ODD) | ANY.filter(lambda text: re.search(r"\S", text) is not None)
CASES = st.fixed_dictionaries(
    {
        "vehicle": st.fixed_dictionaries(
            {"model": st.just("wren-400"), "year": st.integers(1950, 2030), "odometer": st.just("41200 km")},
            optional={"bike": st.sampled_from(["b001", "1e5", "no"]), "modified": st.lists(TEXTS, max_size=2)},
        ),
        "seen": st.dates(dt.date(1900, 1, 1), dt.date(2090, 1, 1)).map(str),
        "outcome": st.fixed_dictionaries(
            {"state": st.just("open"), "note": TEXTS},
            optional={"paid": st.just({"parts": 12.5, "where": "home"}), "verified": st.booleans()},
        ),
    },
    optional={
        "conditions": st.lists(TEXTS, max_size=2),
        "symptoms": st.lists(TEXTS, max_size=3),
        "codes": st.lists(st.fixed_dictionaries({"code": st.sampled_from(["P0562", "4-2"])}), max_size=2),
        "tried": st.just([{"check": "look-at-plug", "result": "low", "reading": "12.9 V"}]),
    },
)
WAYS: dict[str, Callable[[str], str]] = {
    "as it is": str,
    "CRLF": lambda text: text.replace("\n", "\r\n"),
    "quoted": lambda text: "".join(f"> {line}\n" for line in text.split("\n")),
    "further in": lambda text: "".join(f"    {line}\n" for line in text.split("\n")),
}


@pytest.mark.parametrize("way", WAYS)
@given(case=CASES)
def test_a_case_comes_back(way: str, case: dict[str, Any]) -> None:
    file = NewFile(path="", kind="case", data=case, notes=())
    sent = WAYS[way](f"Hello\n\n--- report\n{text_of(file, SHAPES['case'].hints, None)}--- end\nBye")
    (letter,) = letters(sent.encode())
    (part,) = marked(letter.text, KEYS)
    report = report_of_text("mail", part, SHAPES)
    assert [finding.message for finding in report.findings] == []
    assert report.data == {**case, "source": dict(SOURCE)}
