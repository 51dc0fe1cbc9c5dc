"""What a fault code's structure tells, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from kbtools.model.codes import CodeStructure, ControlledBy
from kbtools.model.standard_meanings import FROM, STANDARD_MEANINGS

CONTROL_WORDS: Final[Mapping[ControlledBy, str]] = {
    "standard": "the standard and not by the maker",
    "maker": "the maker, so each maker gives it a meaning of its own",
    "reserved": "nobody yet, as the standard keeps this range back",
}
"""Who gives a code its meaning, in words."""


def meaning_words(parts: CodeStructure, controlled_by: ControlledBy) -> str:
    """Who gives the code its meaning, and which one as far as that is known: a sentence or two, plain text."""
    if controlled_by != "standard":
        return f"Its meaning is given by {CONTROL_WORDS[controlled_by]}."
    meaning = STANDARD_MEANINGS.get(parts.base.text)
    if meaning is None:
        return "It lies in a range of the standard. What the standard calls it is not known here."
    return f"Its meaning is given by {CONTROL_WORDS['standard']}: {meaning} ({FROM})."


def structure_words(parts: CodeStructure) -> tuple[str, ...]:
    """Sentences, plain text; none for a code of the club's own notation, whose structure tells nothing."""
    found: list[str] = []
    if parts.system is not None:
        found.append(f"{parts.system_letter} stands for {parts.system}.")
    if parts.controlled_by is not None:
        found.append(meaning_words(parts, parts.controlled_by))
    if parts.failure_type is not None:
        meaning = parts.failure_type.meaning or "no meaning is listed here; look in the maker's manual"
        found.append(f"Failure type {parts.failure_type.code}: {meaning}.")
    return tuple(found)
