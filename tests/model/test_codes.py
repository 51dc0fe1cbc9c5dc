"""Fault codes: what owners type is read, what is no code is not, and nothing hostile gets through."""

from __future__ import annotations

import itertools
import json
import re
from dataclasses import FrozenInstanceError
from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from kbtools.index.codes import faults_of
from kbtools.model.code_tables import LONGEST_CLUB_CODE
from kbtools.model.codes import (
    CodeFormat,
    CodeReading,
    FaultCode,
    StatusBits,
    code_from_bytes,
    code_to_bytes,
    read_code,
    read_codes,
    slug_of,
    structure,
    tables,
)
from kbtools.report.codes import code_record, explain
from tests.support.places import VECTORS

CASES: dict[str, Any] = json.loads((VECTORS / "codes.json").read_text(encoding="utf-8"))
TOLD: list[dict[str, Any]] = json.loads((VECTORS / "codes_told.json").read_text(encoding="utf-8"))["told"]
FORMATS = {
    name: CodeFormat(id=name, name=f"Format {name}", example=None, per_unit=False, **row)
    for name, row in CASES["formats"].items()
}
OBD = FORMATS["obd"]
FLASH = CodeFormat(
    id="flash", name="Lamp flash code", standard=None, pattern="[1-9]-[1-9]", example="4-2", per_unit=True
)


def club_format(pattern: str, format_id: str = "club") -> CodeFormat:
    return CodeFormat(id=format_id, name="Club code", standard=None, pattern=pattern, example=None, per_unit=False)


def obd(text: str) -> FaultCode:
    return FaultCode(format="obd", text=text)


HEX = "0123456789ABCDEF"
standard_texts = st.builds(
    "{}{}{}{}".format,
    st.sampled_from("PCBU"),
    st.sampled_from("0123"),
    st.text(HEX, min_size=3, max_size=3),
    st.just("") | st.text(HEX, min_size=2, max_size=2).map("-{}".format),
)


# Vectors, the same as in the browser


@pytest.mark.parametrize("row", TOLD, ids=lambda row: repr(row["text"]))
def test_codes_told_in_other_notations(row: dict[str, Any]) -> None:
    readings = read_codes(row["text"], [OBD, FLASH])
    assert [[code.text for code in each.matches] for each in readings] == row["codes"]
    assert {each.text for each in readings} == {row["text"]}


@pytest.mark.parametrize("row", CASES["readings"], ids=lambda row: f"{row['why']}: {row['text']!a}")
def test_reading(row: dict[str, Any]) -> None:
    reading = read_code(row["text"], [FORMATS[name] for name in row["formats"]])
    assert reading.text == row["text"]
    assert [[code.format, code.text] for code in reading.matches] == row["matches"]
    assert reading.ambiguous == (len(row["matches"]) > 1)
    assert (reading.code is not None) == (len(row["matches"]) == 1)


@pytest.mark.parametrize("row", CASES["structures"]["codes"], ids=lambda row: ":".join(row["code"]))
def test_structure(row: dict[str, Any]) -> None:
    format_id, text = row["code"]
    parts = structure(FaultCode(format=format_id, text=text), list(FORMATS.values()))
    assert (parts.system, parts.system_letter) == (row["system"], row["system_letter"])
    assert (parts.failure_type.code if parts.failure_type else None) == row["failure_type"]
    assert parts.base == FaultCode(format=format_id, text=row["base"])


@pytest.mark.parametrize(("raw", "text"), CASES["bytes"]["codes"].items())
def test_bytes(raw: str, text: str) -> None:
    assert code_from_bytes(bytes.fromhex(raw), "obd") == obd(text)
    assert code_to_bytes(obd(text)) == bytes.fromhex(raw)
    assert read_code(f"0x{raw}", [OBD]).code == obd(text)


@pytest.mark.parametrize(("text", "slug"), CASES["slugs"])
def test_slug(text: str, slug: str) -> None:
    assert FaultCode(format="any", text=text).slug == slug


@pytest.mark.parametrize(("byte", "names"), CASES["status"]["bytes"].items())
def test_status(byte: str, names: list[str]) -> None:
    assert list(StatusBits.from_byte(int(byte)).names) == names


# Reading


@given(standard_texts)
def test_a_canonical_text_is_read_as_itself(text: str) -> None:
    assert read_code(text, [OBD, FLASH]).code == obd(text)


@given(
    text=standard_texts,
    separators=st.lists(st.sampled_from(["", "", "", " ", "-", ".", " - ", "\u2013", "\u00a0", "\u2011", "_"])),
    look_alikes=st.booleans(),
    lower=st.booleans(),
    around=st.sampled_from(["{}", " {} ", "({})", "{}.", "\u201e{}\u201c", "* {}\n", "#{}!"]),
)
def test_however_it_is_typed_it_is_the_same_code(
    text: str, separators: list[str], look_alikes: bool, lower: bool, around: str
) -> None:
    rest = list(text[1:].replace("-", ""))
    typed = text[0] + "".join(
        separator + char for separator, char in itertools.zip_longest(separators[: len(rest)], rest, fillvalue="")
    )
    if look_alikes and re.search("[2-9]", text):
        typed = typed.replace("0", "O").replace("1", "l")
    assert read_code(around.format(typed.lower() if lower else typed), [OBD, FLASH]).code == obd(text)


@given(text=st.text(st.characters(codec=None)), patterns=st.lists(st.text(max_size=20), max_size=3))
@example(text="\ud800", patterns=["("])
@example(text="P0133\u0000", patterns=["[", "\\", "(?P<x>a)"])
@example(text="0x" + "1" * 10_000, patterns=["(1+)+"])
def test_no_text_and_no_pattern_raises(text: str, patterns: list[str]) -> None:
    formats = [OBD, *(club_format(pattern, f"club-{at}") for at, pattern in enumerate(patterns))]
    reading = read_code(text, formats)
    assert reading.text == text
    for code in reading.matches:
        assert code in read_code(code.text, formats).matches
        assert re.fullmatch(r"[a-z0-9.~-]+", code.slug)
    json.dumps(code_record(reading, formats, {}))
    assert explain(reading, formats, [])


@given(st.text("PCBUO0123Il x-.", max_size=12))
def test_whatever_is_read_is_canonical(text: str) -> None:
    for code in read_code(text, [OBD, FLASH]).matches:
        assert read_code(code.text, [OBD, FLASH]).code == code


@pytest.mark.parametrize("size", [255, 256, 257, 1_000_000])
def test_a_code_in_a_huge_text_is_not_looked_for(size: int) -> None:
    assert bool(read_code("P0133".ljust(size), [OBD]).matches) == (size <= 256)


@given(
    pattern=st.sampled_from(
        ["[1-9]-[1-9]", r"\d{2}", "E[ -]?[0-9]{1,3}", r"(?:A|B\.)\d+", "[a-f]{2}_x", r"\(\d\)", "[0-9a-z.]{1,12}"]
    ),
    data=st.data(),
)
def test_a_clubs_canonical_text_is_read_as_itself(pattern: str, data: st.DataObject) -> None:
    text = data.draw(st.from_regex(re.compile(pattern, re.ASCII), fullmatch=True)).upper()
    assume(len(text) <= LONGEST_CLUB_CODE)
    assert read_code(text, [club_format(pattern)]).code == FaultCode(format="club", text=text)


def test_values_are_frozen() -> None:
    with pytest.raises(FrozenInstanceError):
        obd("P0133").text = "P0134"  # type: ignore[misc]


# Slugs and canonical forms


def decoded(slug: str) -> str:
    """The inverse of a slug, written apart from it: every other piece between `~` is a code point in hex."""
    if slug == "~~":
        return ""
    plain_and_hex = slug.split("~")
    return "".join(chr(int(piece, 16)) if at % 2 else piece.upper() for at, piece in enumerate(plain_and_hex))


@given(st.text(st.characters(codec=None)) | st.text("aA.~-/0\u00e9"))
def test_a_slug_can_be_read_back_so_no_two_texts_share_one(text: str) -> None:
    slug = slug_of(text)
    assert decoded(slug) == text
    assert re.fullmatch(r"[a-z0-9.~-]+", slug)
    assert not slug.startswith(".")
    assert ".." not in slug
    assert not slug.endswith(".")


def test_no_two_codes_share_a_canonical_form_or_a_slug() -> None:
    codes = [code_from_bytes(number.to_bytes(2, "big"), "obd") for number in range(0x10000)]
    codes += [code_from_bytes(bytes((1, 0x33, failure_type)), "obd") for failure_type in range(0x100)]
    assert len(set(codes)) == len({code.slug for code in codes}) == 0x10000 + 0x100
    assert all(code.slug == code.text.lower() for code in codes)


# Bytes and status


@pytest.mark.parametrize("raw", [b"", b"\x01", b"\x01\x33\x11\x00"])
def test_only_two_or_three_bytes_are_a_code(raw: bytes) -> None:
    with pytest.raises(ValueError, match="two bytes"):
        code_from_bytes(raw, "obd")


@pytest.mark.parametrize("text", ["p0133", "P0133-", "P013", "4-2", "", "P0133\n", "P4133", "P0133-1", "\uff300133"])
def test_only_a_canonical_standard_code_has_bytes(text: str) -> None:
    with pytest.raises(ValueError, match="canonical"):
        code_to_bytes(obd(text))


@pytest.mark.parametrize("byte", [-1, 256])
def test_a_status_byte_is_a_byte(byte: int) -> None:
    with pytest.raises(ValueError, match="255"):
        StatusBits.from_byte(byte)


def test_every_status_bit_has_words() -> None:
    assert len(set(StatusBits.from_byte(0xFF).words)) == 8
    assert StatusBits.from_byte(0).words == ()


# What stands on memory of the standard only. Who controls a range and what a failure type means are not asserted
# here, as no copy of SAE J2012 is at hand: only that one table is used everywhere and that nothing is said beyond it.


def test_who_controls_a_code_depends_on_its_first_three_characters_only() -> None:
    by_range: dict[str, set[str | None]] = {}
    for number in range(0x10000):
        code = code_from_bytes(number.to_bytes(2, "big"), "obd")
        by_range.setdefault(code.text[:3], set()).add(structure(code).controlled_by)
    assert all(len(found) == 1 for found in by_range.values())
    assert set().union(*by_range.values()) <= {"standard", "maker", "reserved", None}
    unknown = {range_ for range_, found in by_range.items() if found == {None}}
    assert unknown == {"P3A", "P3B", "P3C", "P3D", "P3E", "P3F"}  # nothing is claimed of these


def test_a_failure_type_has_the_meaning_of_the_one_table_or_none() -> None:
    listed = tables()["failure_types"]
    assert isinstance(listed, dict)
    for byte in range(0x100):
        failure_type = structure(code_from_bytes(bytes((0x01, 0x33, byte)), "obd")).failure_type
        assert failure_type is not None
        assert failure_type.code == f"{byte:02X}"
        assert failure_type.meaning == listed.get(failure_type.code)
    assert set(listed) <= {f"{byte:02X}" for byte in range(0x100)}


def test_the_tables_go_through_json_unchanged() -> None:
    assert json.loads(json.dumps(tables())) == tables()


# Words and records


def test_the_record_has_the_keys_of_the_contract() -> None:
    reading = read_code("p0133 11", [OBD])
    record = code_record(reading, [OBD], {obd("P0133-11"): ["sensor-slow"]})
    assert list(record) == ["text", "format", "canonical", "system", "controlled_by", "failure_type", "faults"]
    assert record["text"] == "p0133 11"
    assert (record["format"], record["canonical"], record["system"]) == ("obd", "P0133-11", "powertrain")
    assert isinstance(record["failure_type"], dict)
    assert set(record["failure_type"]) == {"code", "meaning"}
    assert record["failure_type"]["code"] == "11"
    assert record["faults"] == ["sensor-slow"]


@pytest.mark.parametrize(("text", "formats"), [("no code", [OBD]), ("P0133", [OBD, FORMATS["looks-standard"]])])
def test_the_record_of_what_is_not_one_code_is_null_but_for_the_text(text: str, formats: list[CodeFormat]) -> None:
    faults = {FaultCode(format=each.id, text="P0133"): ["some-fault"] for each in formats}
    record = code_record(read_code(text, formats), formats, faults)
    assert record.pop("text") == text
    assert record.pop("faults") == []
    assert set(record.values()) == {None}


def test_the_record_of_a_clubs_code_claims_no_structure() -> None:
    looks_standard = FORMATS["looks-standard"]
    record = code_record(read_code("P0133", [looks_standard]), [looks_standard], {})
    assert record["canonical"] == "P0133"
    assert (record["system"], record["controlled_by"], record["failure_type"]) == (None, None, None)


def test_faults_under_the_very_code_come_first_then_those_without_failure_type() -> None:
    by_code = {obd("P0133"): ["base", "both"], obd("P0133-11"): ["exact", "both"], obd("P0133-12"): ["other"]}
    assert faults_of(obd("P0133-11"), by_code, [OBD]) == ("exact", "both", "base")
    assert faults_of(obd("P0133-13"), by_code, [OBD]) == ("base", "both")
    assert faults_of(obd("P0133"), by_code, [OBD]) == ("base", "both", "exact", "other")
    assert faults_of(obd("P0134"), by_code, [OBD]) == ()


def test_faults_of_a_clubs_code_are_those_under_it_alone() -> None:
    by_code = {FaultCode(format="flash", text="4-2"): ["a"], FaultCode(format="two-digit", text="42"): ["b"]}
    assert faults_of(FaultCode(format="flash", text="4-2"), by_code, [FLASH]) == ("a",)


def test_a_standard_code_is_explained() -> None:
    told = explain(read_code("c0035 ab", [OBD]), [OBD], [("wheel-sensor", "Wheel sensor wire broken")])
    assert told.splitlines()[0] == 'C0035-AB: Format obd, read from "c0035 ab"'
    assert "System: chassis (C)." in told
    assert "Failure type AB: no meaning is listed here" in told
    assert "wheel-sensor: Wheel sensor wire broken" in told


def test_a_code_without_an_entry_says_so() -> None:
    assert "No entry has this code." in explain(read_code("P0133", [OBD]), [OBD], [])


def test_a_code_per_unit_says_that_it_needs_its_unit() -> None:
    told = explain(read_code("4-2", [FLASH]), [FLASH], [])
    assert "control unit" in told
    assert "System" not in told


def test_an_ambiguous_text_says_what_it_may_be() -> None:
    formats = [FLASH, FORMATS["two-digit"]]
    told = explain(read_code("4 2", formats), formats, [])
    assert "more than one" in told
    assert "4-2 (Lamp flash code)" in told
    assert "42 (Format two-digit)" in told


def test_what_is_no_code_says_what_would_be() -> None:
    told = explain(read_code("hello", [OBD, FLASH]), [OBD, FLASH], [])
    assert '"hello" is no fault code' in told
    assert "Lamp flash code, such as 4-2" in told


hostile = st.text(st.characters(codec=None) | st.sampled_from("\x1b\x07\u202e\x9b\ud800\n"), max_size=8)


@given(text=hostile, name=hostile, title=hostile)
def test_nothing_in_a_text_can_control_the_terminal(text: str, name: str, title: str) -> None:
    formats = [CodeFormat(id="f", name=name, standard=None, pattern="[1-9]", example=title, per_unit=False)]
    readings = [read_code(text, formats), CodeReading(text=text, matches=(FaultCode(format="f", text=title),))]
    for reading in readings:
        told = explain(reading, formats, [(name, title)])
        assert all(line.isprintable() for line in told.split("\n"))
        told.encode("utf-8")
