"""Codes in other notations than their own: told in words, as a reader's raw answer, announced, or short of a zero.

`read_code` reads a code as it is written. Owners also count blinks ("4 long 2 short", "long long long short"), copy
what a reader received ("43 05 62 C1 21 00 00"), say that bytes are meant ("hex 4035"), or leave the zero out that they
do not hear ("u 121"). `core/told.js` reads the same, held to `tests/vectors/codes_told.json`.

Sources: SAE J1979 / ISO 15031-5 for the answers to modes 03, 07 and 0A, with a count of codes before them on CAN
(ISO 15765-4) and without it elsewhere; ISO 14229-1 for service 19, subfunction 02.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from kbtools.model.code_reading import read_code
from kbtools.model.code_structure import code_from_bytes
from kbtools.model.code_values import CodeFormat, CodeReading, FaultCode

LONGEST: Final = 256
"""Characters; no longer text is looked at."""

_HEX: Final = re.compile(r"(?:0x)?([0-9a-f]{2})", re.IGNORECASE)
_REPLY: Final = re.compile(r"(?:(?:0x)?[0-9a-f]{2}[ ,]*){3,}", re.IGNORECASE)
_BYTES: Final = re.compile(
    r"(?:(?:fault|error|trouble) ?)?(?:codes?|dtcs?|errors?|hex|bytes?|raw)[ :=]+(?:0x)?"
    r"([0-9a-f]{2}) ?(?:0x)?([0-9a-f]{2})(?: ?(?:0x)?([0-9a-f]{2}))?",
    re.IGNORECASE,
)
# Not what begins a reply: `43 00` says that there are no codes.
_PAIR: Final = re.compile(r"(?!43|47|4a|59)([0-9a-f]{2}) ([0-9a-f]{2})", re.IGNORECASE)
# Where the second character cannot be what was typed there, a zero before it was left out.
_SHORT: Final = re.compile(r"([pcbu])(?:([4-9a-f][0-9a-f]{2})|[ .-]+([1-9a-f][0-9a-f]{2}))", re.IGNORECASE)

_NUMBERS: Final = {
    **{
        word: str(at)
        for at, word in enumerate(["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"], 1)
    },
    "once": "1",
    "twice": "2",
    "thrice": "3",
}
_PIECE: Final = re.compile(r"[^\W_]+|[,;+]")
_COUNT: Final = re.compile(r"([1-9])x?|x([1-9])")
_LONG: Final = re.compile(r"(?:long|slow|big)(?:s|er|ones?)?")
_SHORTER: Final = re.compile(r"(?:short|quick|fast|brief)(?:s|er|ones?)?")
_BLINK: Final = re.compile(r"(?:flash|blink|pulse|wink)(?:s|es|ed|ing)?")
_BETWEEN: Final = re.compile(
    r"(?:then|and|plus|pause|gap|followed|by|after|a|an|of|times?|x|ones?|again|lamp|light|codes?|it|the|[,;+])"
)


def read_codes(text: str, formats: Sequence[CodeFormat]) -> tuple[CodeReading, ...]:
    """The codes that a text tells, one reading each; of what is no code, one reading without any.

    Never raises, and takes no long time on any text.
    """
    told = text.strip()
    if len(told) > LONGEST:
        return (read_code(text, formats),)
    standard = next((each.id for each in formats if each.is_standard), None)
    codes = list(_reply(told, standard)) if standard is not None else []
    if codes:
        return tuple(CodeReading(text=text, matches=(code,)) for code in dict.fromkeys(codes))
    read = read_code(text, formats)
    if read.matches:
        return (read,)
    found = _announced(told, standard) if standard is not None else None
    if found is not None:
        return (CodeReading(text=text, matches=(found,)),)
    lamp = _lamp(told)
    own = [each for each in formats if not each.is_standard]
    return (CodeReading(text=text, matches=read_code(lamp, own).matches if lamp else ()),)


def _reply(told: str, standard: str) -> Iterator[FaultCode]:
    """The codes in a control unit's raw answer; what pads it is none."""
    if not _REPLY.fullmatch(told):
        return
    found = bytes.fromhex("".join(_HEX.findall(told)))
    if found[0] in {0x43, 0x47, 0x4A}:
        # On CAN the number of codes comes first, so that the whole has an even number of bytes.
        rest, width, step = found[2 - len(found) % 2 :], 2, 2
    elif found[:2] == b"\x59\x02":
        rest, width, step = found[3:], 3, 4
    else:
        return
    for at in range(0, len(rest) - width + 1, step):
        code = rest[at : at + width]
        if any(code):
            yield code_from_bytes(code, standard)


def _announced(told: str, standard: str) -> FaultCode | None:
    bare = told.strip(" ?!.")
    match = _BYTES.fullmatch(bare) or _PAIR.fullmatch(bare)
    if match:
        return code_from_bytes(bytes.fromhex("".join(each for each in match.groups() if each)), standard)
    match = _SHORT.fullmatch(bare)
    return FaultCode(format=standard, text=f"{match[1]}0{match[2] or match[3]}".upper()) if match else None


def _lamp(told: str) -> str | None:
    """Counted blinks as numbers with hyphens, where the whole text counts blinks."""
    pieces: list[str] = _PIECE.findall(told.lower())
    counts = [_NUMBERS.get(piece) or _digit(piece) for piece in pieces]
    kinds = ["l" if _LONG.fullmatch(each) else "s" if _SHORTER.fullmatch(each) else "" for each in pieces]
    if all(
        count or kind or _BLINK.fullmatch(each) or _BETWEEN.fullmatch(each)
        for each, count, kind in zip(pieces, counts, kinds, strict=True)
    ):
        numbers = [count for count in counts if count]
        hinted = any(kinds) or any(_BLINK.fullmatch(each) for each in pieces)
        if len(numbers) > 1 and hinted:
            return "-".join(numbers)
        row = "".join(kinds)
        runs = re.fullmatch(r"(l+)(s+)", row)
        if not numbers and runs:
            return f"{len(runs[1])}-{len(runs[2])}"
    return None


def _digit(piece: str) -> str | None:
    match = _COUNT.fullmatch(piece)
    return (match[1] or match[2]) if match else None
