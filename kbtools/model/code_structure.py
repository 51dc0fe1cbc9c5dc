"""What a standard code says by its structure alone, SAE J2012 / ISO 15031-6, and its bytes on the wire."""

from __future__ import annotations

import functools
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.model.code_tables import (
    CANONICAL_SHAPE,
    CONTROLLED_BY,
    FAILURE_TYPES,
    LETTERS,
    SYSTEMS,
    ControlledBy,
)
from kbtools.model.code_values import CodeFormat, FaultCode

_CANONICAL: Final = re.compile(CANONICAL_SHAPE)


@dataclass(frozen=True, slots=True, kw_only=True)
class FailureType:
    """In which way something failed, the third byte of a code."""

    code: str
    """Two hex digits, upper case."""
    meaning: str | None
    """In words; None where none is listed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeStructure:
    """What a code's structure tells. Of a club's own code it tells nothing: all None, and `base` is the code."""

    system: str | None
    """`powertrain`, `chassis`, `body` or `network`."""
    system_letter: str | None
    """`P`, `C`, `B` or `U`."""
    controlled_by: ControlledBy | None
    """Who gives the code its meaning; None where nothing is known of the range."""
    failure_type: FailureType | None
    """None where the code has none."""
    base: FaultCode
    """The code without its failure type."""


def is_canonical(text: str) -> bool:
    """Whether the text is a standard code in its canonical form."""
    return _CANONICAL.fullmatch(text) is not None


def structure(code: FaultCode, formats: Sequence[CodeFormat] | None = None) -> CodeStructure:
    """What the code's structure tells.

    With the club's formats a code is taken apart only if its format is the standard's; without them its shape
    decides, so that a club's code that looks like a standard one is taken for one.
    """
    standard = formats is None or any(each.is_standard and each.id == code.format for each in formats)
    if not standard or not is_canonical(code.text):
        return CodeStructure(system=None, system_letter=None, controlled_by=None, failure_type=None, base=code)
    return _taken_apart(code.text, code.format)


@functools.lru_cache(maxsize=10_000)
def _taken_apart(text: str, format_id: str) -> CodeStructure:
    """The structure of a standard code; kept, since whoever compares codes asks for each of a few hundred often."""
    base, _, failure_type = text.partition("-")
    return CodeStructure(
        system=SYSTEMS[base[0]],
        system_letter=base[0],
        controlled_by=CONTROLLED_BY.get(base[:3]) or CONTROLLED_BY.get(base[:2]),
        failure_type=FailureType(code=failure_type, meaning=FAILURE_TYPES.get(failure_type)) if failure_type else None,
        base=FaultCode(format=format_id, text=base),
    )


def code_from_bytes(raw: bytes, format_id: str) -> FaultCode:
    """The standard code that two bytes are, or three with the failure type; ValueError for any other number."""
    if len(raw) not in {2, 3}:
        raise ValueError(f"a fault code has two bytes, or three with its failure type, not {len(raw)}")
    number = int.from_bytes(raw[:2], "big")
    text = f"{LETTERS[number >> 14]}{number >> 12 & 3}{number & 0xFFF:03X}"
    return FaultCode(format=format_id, text=f"{text}-{raw[2]:02X}" if len(raw) == 3 else text)


def code_to_bytes(code: FaultCode) -> bytes:
    """The two or three bytes of a standard code; ValueError where the text is none in its canonical form."""
    if not is_canonical(code.text):
        raise ValueError(f"{code.text!r} is no standard fault code in its canonical form")
    base, _, failure_type = code.text.partition("-")
    number = LETTERS.index(base[0]) << 14 | int(base[1:], 16)
    return number.to_bytes(2, "big") + bytes.fromhex(failure_type)
