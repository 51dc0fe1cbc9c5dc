r"""Patterns of a club's code formats: which are taken, and what fits them.

A pattern comes from a file that anybody may have written. Only a small part of regular expressions is taken, so that
it means the same to Python's `re` and to JavaScript's `RegExp` and no text takes long: literals, `\d`, classes,
groups, alternatives, repeats. How long a match may take is bounded by counting the ways in which the pattern can be
walked through, which is also a bound on how often an engine can turn back.
"""

from __future__ import annotations

import re
import string
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from kbtools.model.code_tables import LONGEST_CLUB_CODE

LONGEST_PATTERN: Final = 200
"""Characters."""
MOST_WAYS: Final = 5_000
"""Ways through a pattern: alternatives add up, what follows multiplies, a repeat adds its powers."""
DEEPEST: Final = 8
"""Groups within groups."""

_PRINTABLE: Final = frozenset(map(chr, range(0x20, 0x7F)))
_WORD: Final = frozenset(string.ascii_letters + string.digits)
_SPECIAL: Final = frozenset("\\^$.|?*+()[]{}")
_SPECIAL_IN_CLASS: Final = frozenset("[]^&|~")  # Python warns of &&, || and ~~ in a class
_BOUNDS: Final = re.compile(r"\{([0-9]{1,2})(,?)([0-9]{0,2})\}")


class _RefusedError(Exception):
    """Why a pattern is not taken, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """What matters of a part of a pattern."""

    ways: int
    """Ways to walk through it, at most `MOST_WAYS` + 1."""
    shortest: int
    """Characters of the shortest text that fits."""


_ONE_CHARACTER: Final = _Part(ways=1, shortest=1)


def pattern_problem(pattern: str) -> str | None:
    """Why the pattern cannot be used, a sentence without its full stop; None if it can. Never raises."""
    try:
        _refuse_unreadable(pattern)
        _refuse_unusable(_Reader(pattern).whole())
    except _RefusedError as refused:
        return str(refused)
    return None


def _refuse_unreadable(pattern: str) -> None:
    if not pattern:
        raise _RefusedError("the pattern is empty")
    if len(pattern) > LONGEST_PATTERN:
        raise _RefusedError(f"the pattern is longer than {LONGEST_PATTERN} characters")
    if not _PRINTABLE.issuperset(pattern):
        raise _RefusedError("only printable ASCII characters may stand in a pattern")


def _refuse_unusable(whole: _Part) -> None:
    if whole.shortest == 0:
        raise _RefusedError("the pattern fits an empty text")
    if whole.shortest > LONGEST_CLUB_CODE:
        raise _RefusedError(f"the pattern fits only texts longer than {LONGEST_CLUB_CODE} characters")
    if whole.ways > MOST_WAYS:
        raise _RefusedError("the pattern can be walked through in too many ways; use fewer or shorter repeats")


def fits(pattern: str, text: str) -> bool:
    """Whether the whole text fits the pattern, in any case. A pattern with a problem fits nothing. Never raises."""
    if len(text) > LONGEST_CLUB_CODE or not _PRINTABLE.issuperset(text):
        return False
    compiled = _compiled(pattern)
    return compiled is not None and compiled.fullmatch(text) is not None


@lru_cache(maxsize=256)
def _compiled(pattern: str) -> re.Pattern[str] | None:
    if pattern_problem(pattern) is not None:
        return None
    return re.compile(pattern, re.ASCII | re.IGNORECASE)


def _times(one: int, other: int) -> int:
    return min(one * other, MOST_WAYS + 1)


class _Reader:
    """Reads a pattern from left to right and refuses what is not in the part that is taken."""

    def __init__(self, pattern: str) -> None:
        self.pattern = pattern
        self.at = 0
        self.depth = 0

    def whole(self) -> _Part:
        # A pattern always fits the whole text, so the anchors that people write by habit change nothing.
        self.took("^")
        part = self.alternatives()
        if not self.ended():
            raise self.refused('a ")" closes no group; write \\) for the sign')
        return part

    def ended(self) -> bool:
        return self.pattern[self.at :] in {"", "$"} and not self.depth

    def refused(self, why: str) -> _RefusedError:
        return _RefusedError(f"character {self.at + 1} of the pattern: {why}")

    def sees(self, chars: str) -> bool:
        return self.at < len(self.pattern) and self.pattern[self.at] in chars

    def took(self, char: str) -> bool:
        seen = self.sees(char)
        self.at += seen
        return seen

    def alternatives(self) -> _Part:
        part = self.sequence()
        while self.took("|"):
            other = self.sequence()
            part = _Part(ways=part.ways + other.ways, shortest=min(part.shortest, other.shortest))
        return part

    def sequence(self) -> _Part:
        if self.ended() or self.sees("|)"):
            raise self.refused("an alternative is empty; write ? behind what may be missing")
        part = _Part(ways=1, shortest=0)
        while self.at < len(self.pattern) and not self.ended() and not self.sees("|)"):
            item = self.repeated(self.one())
            part = _Part(ways=_times(part.ways, item.ways), shortest=part.shortest + item.shortest)
        return part

    def one(self) -> _Part:
        if self.took("("):
            return self.group()
        if self.took("["):
            return self.class_of_characters()
        if self.sees("\\"):
            self.escaped()
        elif self.sees("."):
            raise self.refused('"." would fit any character; write \\. for a dot, or a class such as [A-Z0-9]')
        elif self.pattern[self.at] in _SPECIAL:
            raise self.refused(
                f'"{self.pattern[self.at]}" cannot stand here; write \\{self.pattern[self.at]} for the sign'
            )
        else:
            self.at += 1
        return _ONE_CHARACTER

    def escaped(self) -> str:
        r"""The character behind a backslash, `d` for `\d`."""
        char = self.pattern[self.at + 1 : self.at + 2]
        if not char or (char in _WORD and char != "d"):
            raise self.refused(f'"\\{char}" is not taken; a backslash stands before d or a sign only')
        self.at += 2
        return char

    def group(self) -> _Part:
        if self.took("?") and not self.took(":"):
            raise self.refused('of groups that begin with "(?" only "(?:" is taken')
        self.depth += 1
        if self.depth > DEEPEST:
            raise self.refused(f"groups stand more than {DEEPEST} deep")
        part = self.alternatives()
        if not self.took(")"):
            raise self.refused('a ")" is missing')
        self.depth -= 1
        return part

    def class_of_characters(self) -> _Part:
        if self.sees("^]"):
            raise self.refused("a class must say which characters may stand, not which may not")
        first = True
        while not self.took("]"):
            self.class_item(first=first)
            first = False
        return _ONE_CHARACTER

    def class_item(self, *, first: bool) -> None:
        low = self.class_character(dash_allowed=first)
        if not self.sees("-") or self.pattern[self.at + 1 : self.at + 2] == "]":
            return
        self.at += 1
        high = None if self.sees("-") else self.class_character(dash_allowed=False)  # Python warns of two hyphens
        if low is None or high is None or low > high:
            raise self.refused("a range in a class must go from a lower to a higher character, such as A-Z")

    def class_character(self, *, dash_allowed: bool) -> str | None:
        r"""The next character of a class; None for `\d`."""
        if self.at == len(self.pattern):
            raise self.refused('a "]" is missing')
        if self.sees("\\"):
            is_digit = self.pattern[self.at + 1 : self.at + 2] == "d"
            char = self.escaped()
            return None if is_digit else char
        char = self.pattern[self.at]
        last = self.pattern[self.at + 1 : self.at + 2] == "]"
        if char in _SPECIAL_IN_CLASS or (char == "-" and not (dash_allowed or last)):
            raise self.refused(f'"{char}" cannot stand here in a class; write \\{char} for the sign')
        self.at += 1
        return char

    def repeated(self, part: _Part) -> _Part:
        bounds = self.bounds()
        if bounds is None:
            return part
        if self.sees("?*+{"):
            raise self.refused("a repeat of a repeat is not taken")
        low, high = bounds
        ways, power = 0, 1
        for count in range(high + 1):
            ways += power if count >= low else 0
            power = _times(power, part.ways)
        return _Part(ways=min(ways, MOST_WAYS + 1), shortest=low * part.shortest)

    def bounds(self) -> tuple[int, int] | None:
        """The bounds of the repeat that stands here; an open end is the longest code, as no longer text is tried."""
        for sign, bounds in (("?", (0, 1)), ("*", (0, LONGEST_CLUB_CODE)), ("+", (1, LONGEST_CLUB_CODE))):
            if self.took(sign):
                return bounds
        if not self.sees("{"):
            return None
        match = _BOUNDS.match(self.pattern, self.at)
        if match is None:
            raise self.refused('"{" begins a repeat such as {2} or {1,3}; write \\{ for the sign')
        low = int(match[1])
        high = int(match[3]) if match[3] else LONGEST_CLUB_CODE if match[2] else low
        if match[3] and not match[2]:
            raise self.refused('"{" begins a repeat such as {2} or {1,3}')
        if high < 1 or low > high or high > LONGEST_CLUB_CODE:
            raise self.refused(f"a repeat must go from a lower to a higher number, 1 to {LONGEST_CLUB_CODE} at most")
        self.at = match.end()
        return low, high
