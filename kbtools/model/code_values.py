"""The values of fault codes: a club's formats, a code, and what was read from a text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

STANDARD: Final = "sae-j2012"
"""`standard` of the format of SAE J2012 / ISO 15031-6."""

_OUTSIDE_SLUG: Final = re.compile(r"[^A-Z0-9.\-]|(?<![0-9])\.|\.(?![0-9])")


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeFormat:
    """A notation of fault codes that the club's machines use, a row of `code_formats` in `club.yml`."""

    id: str
    """Id of the format, unique in the club."""
    name: str
    """What an owner calls it, plain text, hostile."""
    standard: str | None
    """`sae-j2012`, or None for a notation of the club."""
    pattern: str | None
    """Regular expression that fits the whole code in any case; None for the standard's. Hostile: `pattern_problem`."""
    example: str | None
    """A code as the club writes it, plain text, hostile."""
    per_unit: bool
    """The code means nothing without the control unit that shows it."""

    @property
    def is_standard(self) -> bool:
        """Whether its codes are those of SAE J2012, whatever pattern stands beside it."""
        return self.standard == STANDARD


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class FaultCode:
    """One fault code in its canonical form."""

    format: str
    """Id of the format that it is written in."""
    text: str
    """Canonical text: ASCII, upper case, `P0133-11`; a club's code as its pattern wants it."""

    @property
    def slug(self) -> str:
        """The code's segment in `/codes/<slug>/`; see `slug_of`."""
        return slug_of(self.text)


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeReading:
    """What was read from a text that may be a fault code."""

    text: str
    """The text as given, hostile."""
    matches: tuple[FaultCode, ...]
    """The codes that it may be, at most one a format, in the order of the formats."""

    @property
    def code(self) -> FaultCode | None:
        """The code, if there is exactly one that it may be."""
        return self.matches[0] if len(self.matches) == 1 else None

    @property
    def ambiguous(self) -> bool:
        """Whether it fits more than one format."""
        return len(self.matches) > 1


def slug_of(text: str) -> str:
    """The path segment for a canonical text: never empty, only `[a-z0-9.~-]`, another one for every other text.

    Letters become lower case; digits, hyphens and a dot between two digits stay; any other character, a lower-case
    letter among them, becomes its code point in hex between two `~`. So no segment is `.`, `..`, hidden, or the name
    of a file that a web server looks for.
    """
    return _OUTSIDE_SLUG.sub(lambda match: f"~{ord(match[0]):x}~", text).lower() or "~~"
