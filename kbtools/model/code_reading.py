"""Reads fault codes as owners type them."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Sequence
from typing import Final

from kbtools.model.code_pattern import fits, pattern_problem
from kbtools.model.code_structure import code_from_bytes, is_canonical
from kbtools.model.code_tables import (
    FOLD,
    JOINTS,
    LONGEST_CLUB_CODE,
    LONGEST_INPUT,
    LOOK_ALIKES,
    RAW_SHAPE,
    SEPARATORS,
    TYPED_SHAPE,
)
from kbtools.model.code_values import CodeFormat, CodeReading, FaultCode

_FOLD: Final = str.maketrans(dict(FOLD))
_DIGITS: Final = str.maketrans(dict(LOOK_ALIKES))
_TYPED: Final = re.compile(TYPED_SHAPE)
_RAW: Final = re.compile(RAW_SHAPE)
_SEPARATORS: Final = re.compile(f"[{re.escape(SEPARATORS)}]+")
_DIGIT: Final = re.compile("[0-9]")


def read_code(text: str, formats: Sequence[CodeFormat]) -> CodeReading:
    """The codes that the text may be, in whichever of the formats. Never raises; takes no long time on any text.

    Four attempts, each looser than the last; the first one that yields a code in any format is the answer, so that a
    canonical text is always read as itself:

    1. as written, but for case, kinds of hyphen and space, full-width and invisible characters;
    2. without what stands before and behind it;
    3. with other separators or none. In a standard code letter O is then 0, and I and l are 1, after the first
       character, where none of them can stand; `0x` and two or three bytes is a standard code too. A word without
       any digit ("bleed", "place") is not taken for a code unless it is made of such letters alone;
    4. in a club's format, with a missing hyphen, if there is only one place for it.
    """
    if len(text) > LONGEST_INPUT:
        return CodeReading(text=text, matches=())
    folded = text.translate(_FOLD).strip(" ")
    core = _without_outer_signs(folded)
    attempts: tuple[tuple[Callable[[CodeFormat, str], str | None], str], ...] = (
        (_as_written, folded),
        (_as_written, core),
        (_loosened, core),
        (_with_hyphen, core),
    )
    for attempt, typed in attempts:
        found = ((each.id, attempt(each, typed)) for each in formats)
        matches = [FaultCode(format=format_id, text=canonical) for format_id, canonical in found if canonical]
        if matches:
            return CodeReading(text=text, matches=tuple(dict.fromkeys(matches)))
    return CodeReading(text=text, matches=())


def formats_record(formats: Sequence[CodeFormat]) -> list[dict[str, object]]:
    """The formats as `readCode` in `core/codes.js` takes them, JSON-ready; a pattern with a problem is null there."""
    return [
        {
            "id": each.id,
            "name": each.name,
            "standard": each.standard,
            "pattern": each.pattern if each.pattern is not None and pattern_problem(each.pattern) is None else None,
            "example": each.example,
            "per_unit": each.per_unit,
        }
        for each in formats
    ]


def _without_outer_signs(text: str) -> str:
    """Without anything but letters and digits at both ends."""
    kept = [at for at, char in enumerate(text) if unicodedata.category(char)[0] in "LN"]
    return text[kept[0] : kept[-1] + 1] if kept else ""


def _as_written(each: CodeFormat, typed: str) -> str | None:
    if each.is_standard:
        return typed if is_canonical(typed) else None
    return typed if each.pattern is not None and fits(each.pattern, typed) else None


def _loosened(each: CodeFormat, typed: str) -> str | None:
    if each.is_standard:
        return _standard_as_typed(_SEPARATORS.sub("", typed), each.id)
    candidates = (joint.join(_SEPARATORS.split(typed)) for joint in JOINTS)
    return next((candidate for candidate in candidates if _as_written(each, candidate)), None)


def _standard_as_typed(bare: str, format_id: str) -> str | None:
    if not _DIGIT.search(bare) and bare[1:].translate(_DIGITS).strip("01"):
        return None
    typed = _TYPED.fullmatch(bare)
    if typed:
        failure_type = "-" + typed[3] if typed[3] else ""
        return typed[1] + (typed[2] + failure_type).translate(_DIGITS)
    raw = _RAW.fullmatch(bare)
    if raw:
        digits = "".join(byte for byte in raw.groups() if byte).translate(_DIGITS)
        return code_from_bytes(bytes.fromhex(digits), format_id).text
    return None


def _with_hyphen(each: CodeFormat, typed: str) -> str | None:
    bare = _SEPARATORS.sub("", typed)
    if each.is_standard or len(bare) >= LONGEST_CLUB_CODE:
        return None
    candidates = (f"{bare[:at]}-{bare[at:]}" for at in range(1, len(bare)))
    fitting = [candidate for candidate in candidates if _as_written(each, candidate)]
    return fitting[0] if len(fitting) == 1 else None
