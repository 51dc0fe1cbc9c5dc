"""Which faults a code leads to, and whether it is a consequence there."""

from __future__ import annotations

from kbtools.index.codes import (
    families,
    family_only_follows,
    faults_by_code,
    faults_by_sure_code,
    formats_known,
    meet,
    near_codes,
    only_follows,
    uses_by_code,
)
from kbtools.model.codes import CodeFormat, FaultCode, read_code
from tests.support import factories as make

OWN = CodeFormat(id="own", name="Own", standard=None, pattern="P05[0-9]{2}", example=None, per_unit=False)


def obd(text: str) -> FaultCode:
    return FaultCode(format="obd", text=text)


def test_a_text_that_fits_two_formats_counts_under_both_or_under_none() -> None:
    formats = (*make.FORMATS, OWN)
    row = make.code("P0562", read=read_code("P0562", formats))
    base = make.base(make.fault("f", codes=(row, make.code("P0100"))), club=make.club(code_formats=formats))
    both = {obd("P0562"), FaultCode(format="own", text="P0562")}
    assert faults_by_code(base) == dict.fromkeys([*both, obd("P0100")], ("f",))
    assert faults_by_sure_code(base) == {obd("P0100"): ("f",)}


def test_a_fault_with_two_rows_about_a_code_has_it_once() -> None:
    rows = (make.code("P0562", unit="a"), make.code("P0562", unit="b"))
    base = make.base(make.fault("f", codes=rows), make.fault("draft", draft=True, codes=rows))
    assert faults_by_code(base) == {obd("P0562"): ("f",)}
    assert [use.row.unit for use in uses_by_code(base)[obd("P0562")]] == ["a", "b"]


def test_a_code_is_near_to_itself_read_more_or_less_closely() -> None:
    known = [obd(text) for text in ("P0562-12", "P0562", "P0562-11", "P0563")]
    assert near_codes(obd("P0562"), known, make.FORMATS) == (obd("P0562-11"), obd("P0562-12"))
    assert near_codes(obd("P0562-13"), known, make.FORMATS) == (obd("P0562"),)
    assert near_codes(obd("P0563-13"), known[:3], make.FORMATS) == ()
    assert list(families(known, make.FORMATS)[obd("P0562")]) == known[:3]
    assert near_codes(FaultCode(format="flash", text="4-2"), known, make.FORMATS) == ()


def test_two_failure_types_never_meet() -> None:
    listed = [obd("P0562-11"), obd("P0100")]
    assert meet([obd("P0562")], listed, make.FORMATS)
    assert meet([obd("P0100-11")], listed, make.FORMATS)
    assert not meet([obd("P0562-12"), obd("P0101")], listed, make.FORMATS)


def test_a_consequence_of_the_very_code_and_of_its_family() -> None:
    fault = make.fault("f", codes=(make.code("P0562", follow_on=True), make.code("P0562-11")))
    assert only_follows(fault, obd("P0562"))
    assert not only_follows(fault, obd("P0562-11"))
    assert not family_only_follows(fault, obd("P0562"), make.FORMATS)
    assert not only_follows(fault, obd("P0999"))
    assert not family_only_follows(fault, obd("P0999"), make.FORMATS)


def test_one_row_that_is_no_consequence_makes_it_a_root() -> None:
    fault = make.fault("f", codes=(make.code("P0562", unit="a", follow_on=True), make.code("P0562", unit="b")))
    assert not only_follows(fault, obd("P0562"))


def test_a_lost_format_may_be_the_one_that_a_code_fits() -> None:
    assert formats_known(make.base())
    broken = CodeFormat(id="own", name="Own", standard=None, pattern="(", example=None, per_unit=False)
    for club in (None, make.club(code_formats=(broken,)), make.club(damaged=frozenset({"/code_formats/0"}))):
        assert not formats_known(make.base(club=club))
