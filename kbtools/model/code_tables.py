"""What Python and the browser must agree on about fault codes, typed once: `tables` hands it to `core/codes.js`.

Sources: SAE J2012 / ISO 15031-6 for the letters, the control of ranges and the failure types; ISO 14229-1 for the
status bits. The letters, the layout of the bytes and the status bits are held to independent libraries in the tests.
The control of ranges and the meanings of the failure types were written from memory of the standard: the tests hold
them together, but cannot prove them.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, Literal

ControlledBy = Literal["standard", "maker", "reserved"]

LETTERS: Final = "PCBU"
"""The first characters in the order of bits 15-14 of the two bytes."""

SYSTEMS: Final[Mapping[str, str]] = MappingProxyType(
    {"P": "powertrain", "C": "chassis", "B": "body", "U": "network"},
)
"""First character to the system that it stands for."""

_BY_RANGE: Final[tuple[tuple[ControlledBy, str], ...]] = (
    ("standard", "P0 P2 P34 P35 P36 P37 P38 P39 C0 B0 U0"),
    ("maker", "P1 P30 P31 P32 P33 C1 C2 B1 B2 U1 U2"),
    ("reserved", "C3 B3 U3"),
)

CONTROLLED_BY: Final[Mapping[str, ControlledBy]] = MappingProxyType(
    {prefix: by for by, prefixes in _BY_RANGE for prefix in prefixes.split()},
)
"""First two or three characters to who gives the codes of the range their meaning. P3A to P3F are left out: unknown."""

FAILURE_TYPES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "00": "none given",
        "11": "short to ground",
        "12": "short to battery",
        "13": "open circuit",
        "14": "short to ground or open circuit",
        "15": "short to battery or open circuit",
        "16": "voltage below threshold",
        "17": "voltage above threshold",
        "1C": "voltage out of range",
        "1F": "intermittent",
        "87": "message missing",
    },
)
"""Failure type, two hex digits, to its meaning. Far from all: one that is not here is shown without a meaning."""

STATUS_BITS: Final[tuple[tuple[str, str], ...]] = (
    ("testFailed", "the test fails now"),
    ("testFailedThisOperationCycle", "the test failed in this operation cycle"),
    ("pendingDTC", "pending: failed in this operation cycle or the last"),
    ("confirmedDTC", "confirmed: failed often enough to be stored"),
    ("testNotCompletedSinceLastClear", "the test was not completed since the codes were cleared"),
    ("testFailedSinceLastClear", "the test failed since the codes were cleared"),
    ("testNotCompletedThisOperationCycle", "the test was not completed in this operation cycle"),
    ("warningIndicatorRequested", "the warning lamp is asked for"),
)
"""Name in ISO 14229-1 and plain words, bit 0 first."""

LOOK_ALIKES: Final[Mapping[str, str]] = MappingProxyType({"O": "0", "I": "1", "L": "1"})
"""Letters that are typed for a digit. None of them is a hex digit, so after the first character none can stand."""

SEPARATORS: Final = " .-_:"
"""What may stand between the characters of a code, any number of times."""

JOINTS: Final = ("-", "", ".", " ")
"""What a club's pattern may want where an owner typed any separators, in the order of trying."""

LONGEST_INPUT: Final = 256
"""Code points; no code is read from a longer text."""

LONGEST_CLUB_CODE: Final = 32
"""Characters; no longer text fits a club's pattern."""

_HEX: Final = "[0-9A-F]"
_TYPED_HEX: Final = "[0-9A-FOIL]"
_TYPED_BYTE: Final = f"({_TYPED_HEX}{{2}})"
_TYPED_0X: Final = "[0O]X"

CANONICAL_SHAPE: Final = f"[PCBU][0-3]{_HEX}{{3}}(?:-{_HEX}{{2}})?"
"""A standard code as it is written. Like the next two it means the same to Python and to JavaScript."""

TYPED_SHAPE: Final = f"([PCBU])([0-3OIL]{_TYPED_HEX}{{3}})({_TYPED_HEX}{{2}})?"
"""A standard code as it is typed, separators taken out: letter, four characters, failure type."""

RAW_SHAPE: Final = f"{_TYPED_0X}{_TYPED_BYTE}(?:{_TYPED_0X})?{_TYPED_BYTE}(?:(?:{_TYPED_0X})?{_TYPED_BYTE})?"
"""Two or three raw bytes, separators taken out: `0x0133`, or with a `0x` before each byte."""

_DASHES: Final = "\u2010\u2011\u2012\u2013\u2014\u2015\u2043\u2212\u30fc\ufe58\ufe63\uff70"
_BLANKS: Final = "\t\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"
_INVISIBLE: Final = (
    "\u00ad\u034f\u061c\u180e\u200b\u200c\u200d\u200e\u200f\u202a\u202b\u202c\u202d\u202e"
    "\u2060\u2061\u2062\u2063\u2064\u2066\u2067\u2068\u2069\ufe0e\ufe0f\ufeff"
)


def _fold() -> dict[str, str]:
    printable = {chr(code): chr(code).upper() for code in range(ord("!"), 0x7F)}
    full_width = {chr(ord(char) + 0xFEE0): upper for char, upper in printable.items()}
    upper_case = {char: upper for char, upper in printable.items() if char != upper}
    others = [dict.fromkeys(_DASHES, "-"), dict.fromkeys(_BLANKS, " "), dict.fromkeys(_INVISIBLE, "")]
    return upper_case | full_width | others[0] | others[1] | others[2]


FOLD: Final[Mapping[str, str]] = MappingProxyType(_fold())
"""One character to what it is read as: ASCII upper case, plain hyphens and spaces, nothing for what cannot be seen.

A table and not the languages' own upper-casing, which turns dotless i, long s and the kelvin sign into ASCII letters.
"""


def tables() -> dict[str, object]:
    """Everything above as one JSON-ready mapping: the `tables` argument of the functions in `core/codes.js`."""
    return {
        "letters": LETTERS,
        "systems": dict(SYSTEMS),
        "controlled_by": dict(CONTROLLED_BY),
        "failure_types": dict(FAILURE_TYPES),
        "status_bits": [{"name": name, "words": words} for name, words in STATUS_BITS],
        "look_alikes": dict(LOOK_ALIKES),
        "separators": SEPARATORS,
        "joints": list(JOINTS),
        "longest_input": LONGEST_INPUT,
        "longest_club_code": LONGEST_CLUB_CODE,
        "shapes": {"canonical": CANONICAL_SHAPE, "typed": TYPED_SHAPE, "raw": RAW_SHAPE},
        "fold": dict(FOLD),
    }
