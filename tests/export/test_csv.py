"""Tables read back by others: Python's own CSV reader (RFC 4180 as its dialect `excel` has it) and SQLite."""

from __future__ import annotations

import csv
import io
import sqlite3

import pytest

from kbtools.edges.shipped import schema_files
from kbtools.export.csv_text import csv_text
from kbtools.export.files import export_files
from kbtools.index.answers import Index
from tests.support import factories as make
from tests.support.demo_plans import demo_index

TABLES = ("faults", "causes", "cases")


@pytest.fixture(scope="module")
def index() -> Index:
    return demo_index()


@pytest.fixture(scope="module")
def tables(index: Index) -> dict[str, str]:
    """Their texts by name."""
    return tables_of(index)


def tables_of(index: Index) -> dict[str, str]:
    files = export_files(index, make.TODAY, schema_files())
    return {name: files[f"api/v1/{name}.csv"].decode() for name in TABLES}


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


@pytest.mark.parametrize("name", TABLES)
def test_each_line_ends_as_the_standard_has_it_and_all_rows_are_of_one_length(
    name: str, tables: dict[str, str]
) -> None:
    text = tables[name]
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    lengths = {len(row) for row in csv.reader(io.StringIO(text, newline=""), strict=True)}
    assert len(lengths) == 1


def test_every_published_fault_has_its_row_and_no_draft(index: Index, tables: dict[str, str]) -> None:
    assert {row["id"] for row in rows(tables["faults"])} == set(index.published)


def test_shares_of_a_fault_add_up_to_one(index: Index, tables: dict[str, str]) -> None:
    """SQLite reads what we wrote, and does the sum."""
    base = sqlite3.connect(":memory:")
    base.execute("create table causes (fault text, cause text, share real, cases integer)")
    told = [(row["fault"], row["cause"], row["share"], row["cases"]) for row in rows(tables["causes"])]
    base.executemany("insert into causes values (?, ?, ?, ?)", told)
    sums = base.execute("select fault, sum(share) from causes group by fault").fetchall()
    base.close()
    assert len(sums) == len(index.published)
    assert all(total == pytest.approx(1) for _, total in sums)


def test_cases_say_what_the_files_say(index: Index, tables: dict[str, str]) -> None:
    case = next(case for case in index.base.cases.values() if case.outcome.after is not None and case.fault)
    row = next(row for row in rows(tables["cases"]) if row["id"] == case.id)
    assert case.vehicle.odometer is not None
    assert row["odometer"] == f"{case.vehicle.odometer.value} {case.vehicle.odometer.unit}"
    assert (row["model"], row["year"], row["fault"]) == (case.vehicle.model, str(case.vehicle.year), case.fault)


def test_a_case_of_an_unpublished_fault_does_not_tell_its_name() -> None:
    base = make.base(make.fault("secret", draft=True), cases=[make.case("c1", "secret")])
    (row,) = rows(tables_of(make.index(base))["cases"])
    assert row["fault"] == ""


@pytest.mark.parametrize("attack", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "=cmd|' /C calc'!A0"])
def test_no_text_is_a_formula(attack: str) -> None:
    (row,) = rows(csv_text(["text"], [[attack]]))
    assert row["text"][0] not in "=+-@\t\r "


@pytest.mark.parametrize("text", ['a "quoted" word', "comma, comma", "two\nlines", "ünï", "\u202eevil", "'"])
def test_texts_come_back_in_one_line_and_whole(text: str) -> None:
    ((back, beside),) = list(csv.reader(io.StringIO(csv_text(["a", "b"], [[text, 7]]), newline="")))[1:]
    assert beside == "7"
    assert "\u202e" not in back
    assert "".join(back.split()).replace("⟦U+202E⟧", "") == "".join(text.split()).replace("\u202e", "")


def test_numbers_stay_numbers() -> None:
    assert csv_text(["a", "b", "c", "d"], [[-1.5, True, None, 0.1]]) == "a,b,c,d\r\n-1.5,yes,,0.1\r\n"
