"""What a fault code's structure tells, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from kbtools.model.codes import CodeStructure, ControlledBy

CONTROL_WORDS: Final[Mapping[ControlledBy, str]] = {
    "standard": "the standard, so it means the same whoever built the machine",
    "maker": "the maker, so each maker gives it a meaning of its own",
    "reserved": "nobody yet, as the standard keeps this range back",
}
"""Who gives a code its meaning, in words."""


def structure_words(parts: CodeStructure) -> tuple[str, ...]:
    """Sentences, plain text; none for a code of the club's own notation, whose structure tells nothing."""
    found: list[str] = []
    if parts.system is not None:
        found.append(f"{parts.system_letter} stands for {parts.system}.")
    if parts.controlled_by is not None:
        found.append(f"Its meaning is given by {CONTROL_WORDS[parts.controlled_by]}.")
    if parts.failure_type is not None:
        meaning = parts.failure_type.meaning or "no meaning is listed here; look in the maker's manual"
        found.append(f"Failure type {parts.failure_type.code}: {meaning}.")
    return tuple(found)
