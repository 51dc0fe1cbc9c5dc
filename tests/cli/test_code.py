"""`kbtools code`, under its contract and in words."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from kbtools.cli import main

KEYS = {"text", "format", "canonical", "system", "controlled_by", "failure_type", "faults"}


def run(*texts: str) -> list[dict[str, object]]:
    result = CliRunner().invoke(main, ["code", *texts, "--kb", "kb", "--format", "json"])
    assert result.exit_code == 0, result.output
    records: list[dict[str, object]] = json.loads(result.output)
    return records


def test_each_text_gets_one_record_with_the_keys_of_the_contract() -> None:
    records = run("p0 562", "0x0562", "nonsense", "P0335-1F")
    assert [record["text"] for record in records] == ["p0 562", "0x0562", "nonsense", "P0335-1F"]
    assert all(set(record) == KEYS for record in records)
    assert [record["canonical"] for record in records] == ["P0562", "P0562", None, "P0335-1F"]


def test_a_code_names_the_entries_that_have_it() -> None:
    faults = run("p0562")[0]["faults"]
    assert isinstance(faults, list)
    assert {"voltage-sags-when-wet", "battery-flat-overnight"} <= set(faults)


def test_a_flash_code_is_read_in_the_clubs_own_format() -> None:
    record = run("4 - 2")[0]
    assert (record["format"], record["canonical"], record["controlled_by"]) == ("flash", "4-2", None)


@pytest.mark.parametrize("text", ["P0562", "nonsense", "4-2", "P1999"])
def test_without_a_format_it_is_told_in_words(text: str) -> None:
    result = CliRunner().invoke(main, ["code", text, "--kb", "kb"])
    assert result.exit_code == 0
    assert text in result.output
    assert len(result.output.split()) > 5
