"""Fault codes held to independent libraries: scapy and udsoncan, which know nothing of this project."""

from __future__ import annotations

import re
from typing import Any

from scapy.contrib.automotive.obd.services import OBD_DTC
from scapy.contrib.automotive.uds import UDS_RDTCI
from udsoncan import Dtc

from kbtools.model.codes import CodeFormat, FaultCode, StatusBits, code_from_bytes, code_to_bytes, read_code, structure

OBD = CodeFormat(id="obd", name="Five-character code", standard="sae-j2012", pattern=None, example=None, per_unit=False)
STRIDE = 251
"""Prime, so that a stride through the three-byte codes meets every failure type and every letter."""


def scapy_text(raw: bytes) -> str:
    dtc = OBD_DTC(raw)
    return f"{'PCBU'[dtc.location]}{dtc.code1:d}{dtc.code2:X}{dtc.code3:X}{dtc.code4:X}"


def scapy_bytes(text: str) -> bytes:
    code1, code2, code3, code4 = (int(text[at], 16) for at in range(1, 5))
    dtc = OBD_DTC(location="PCBU".index(text[0]), code1=code1, code2=code2, code3=code3, code4=code4)
    return bytes(dtc)


def test_all_two_byte_codes_against_scapy_in_both_directions() -> None:
    for number in range(0x10000):
        raw = number.to_bytes(2, "big")
        text = scapy_text(raw)
        code = FaultCode(format="obd", text=text)
        assert code_from_bytes(raw, "obd") == code
        assert read_code(text, [OBD]).code == code
        assert code_to_bytes(code) == raw


def test_a_sample_of_texts_against_the_bytes_that_scapy_builds() -> None:
    for number in range(0, 0x10000, 7):
        text = code_from_bytes(number.to_bytes(2, "big"), "obd").text
        assert scapy_bytes(text) == code_to_bytes(FaultCode(format="obd", text=text))


def test_a_strided_sample_of_two_byte_codes_against_udsoncan_in_both_directions() -> None:
    # udsoncan always writes a failure type; with 00 the rest is the two-byte code.
    for number in range(0, 0x10000, 5):
        text = Dtc(number << 8).id_iso()
        code = read_code(text, [OBD]).code
        assert code is not None
        assert code.text == text
        assert code_to_bytes(code) == number.to_bytes(2, "big") + b"\0"
        assert structure(code).base == code_from_bytes(number.to_bytes(2, "big"), "obd")


def test_a_strided_sample_of_three_byte_codes_against_udsoncan_in_both_directions() -> None:
    failure_types = set()
    for number in range(0, 0x1000000, STRIDE):
        raw = number.to_bytes(3, "big")
        text = Dtc(number).id_iso()
        code = FaultCode(format="obd", text=text)
        assert code_from_bytes(raw, "obd") == code
        assert code_to_bytes(code) == raw
        assert read_code(text.lower().replace("-", ""), [OBD]).code == code
        failure_types.add(number & 0xFF)
    assert len(failure_types) == 0x100


def test_codes_as_an_owner_types_them() -> None:
    # The texts are scapy's; lower case, a space behind the letter and the raw bytes must all be the same code.
    for number in range(0, 0x10000, 11):
        raw = number.to_bytes(2, "big")
        text = scapy_text(raw)
        code = FaultCode(format="obd", text=text)
        assert read_code(f"{text[0]} {text[1:]}".lower(), [OBD]).code == code
        assert read_code(f"0x{raw.hex()}", [OBD]).code == code


def test_the_systems_of_the_letters_against_scapy() -> None:
    fields: list[Any] = OBD_DTC.fields_desc
    (names,) = (field.i2s for field in fields if field.name == "location")
    assert len(names) == 4
    for location, name in names.items():
        code = code_from_bytes(bytes((location << 6, 0)), "obd")
        assert structure(code).system == name.lower()


def test_all_status_bytes_against_udsoncan() -> None:
    for byte in range(0x100):
        ours = StatusBits.from_byte(byte)
        theirs = Dtc.Status.from_byte(byte)
        assert ours.test_failed == theirs.test_failed
        assert ours.test_failed_this_operation_cycle == theirs.test_failed_this_operation_cycle
        assert ours.pending_dtc == theirs.pending
        assert ours.confirmed_dtc == theirs.confirmed
        assert ours.test_not_completed_since_last_clear == theirs.test_not_completed_since_last_clear
        assert ours.test_failed_since_last_clear == theirs.test_failed_since_last_clear
        assert ours.test_not_completed_this_operation_cycle == theirs.test_not_completed_this_operation_cycle
        assert ours.warning_indicator_requested == theirs.warning_indicator_requested
        assert ours.to_byte() == theirs.get_byte_as_int() == byte


def test_all_status_bytes_against_the_names_in_scapy() -> None:
    for byte in range(0x100):
        theirs = [name for mask, name in UDS_RDTCI.dtcStatus.items() if byte & mask]
        assert [name.lower() for name in StatusBits.from_byte(byte).names] == [name.lower() for name in theirs]


def test_the_two_libraries_agree_so_one_of_them_is_no_chance() -> None:
    for number in range(0, 0x10000, 97):
        assert re.sub("-00$", "", Dtc(number << 8).id_iso()) == scapy_text(number.to_bytes(2, "big"))
