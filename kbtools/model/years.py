"""Model years: closed ranges of whole years, either end of which may be open."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

_TEXT = re.compile(r"(?P<first>[0-9]{4})?(?P<dash>-)?(?P<last>[0-9]{4})?", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class Years:
    """A range of model years, both ends included."""

    first: int | None
    """First model year; None: from the first one there is."""
    last: int | None
    """Last model year; None: still built, or to the last one there is."""

    @property
    def text(self) -> str:
        """As it is written in an entry: `2007`, `2003-2008`, `2010-`, `-2008` or `all`."""
        if self.first is None and self.last is None:
            return "all"
        first = "" if self.first is None else f"{self.first:04d}"
        last = "" if self.last is None else f"{self.last:04d}"
        return first if first == last else f"{first}-{last}"

    def holds(self, year: int) -> bool:
        """Whether `year` lies in the range."""
        return (self.first is None or self.first <= year) and (self.last is None or year <= self.last)

    def cut_to(self, other: Years) -> Years | None:
        """The years that both ranges hold; None where there are none."""
        first = _latest(self.first, other.first)
        last = _earliest(self.last, other.last)
        if first is not None and last is not None and first > last:
            return None
        return Years(first=first, last=last)

    def each(self, *, until: int) -> Iterator[int]:
        """The years one by one, an open end taken as `until`.

        Raises:
            ValueError: the range has no first year.
        """
        if self.first is None:
            raise ValueError(f"{self.text} has no first year to count from")
        return iter(range(self.first, (until if self.last is None else self.last) + 1))


ALL_YEARS = Years(first=None, last=None)
"""The range of an entry that says `all`."""


def parse_years(text: str) -> Years | None:
    """Read `2007`, `2003-2008`, `2010-`, `-2008` or `all`.

    Returns:
        The range, its ends as written (`2008-2003` is kept, so that a rule can speak of it), or None where the text is
        none of these forms.
    """
    if text == "all":
        return ALL_YEARS
    match = _TEXT.fullmatch(text)
    if match is None or not (match["first"] or match["last"]):
        return None
    first = int(match["first"]) if match["first"] else None
    last = int(match["last"]) if match["last"] else None
    if not match["dash"]:
        # Eight digits run together are no range.
        return None if last is not None else Years(first=first, last=first)
    return Years(first=first, last=last)


def last_built(today_year: int) -> int:
    """The last model year of a model that is still built: makers sell next year's model before the year turns."""
    return today_year + 1


def backwards(years: Years) -> bool:
    """Whether the first year comes after the last; KB402 says so, and nothing else is asked of such years."""
    return years.first is not None and years.last is not None and years.first > years.last


def built_text(years: Years) -> str:
    """The years of a model in a sentence: `2003-2012`, `2010- (still built)`."""
    still = years.first is not None and years.last is None
    return f"{years.text}{' (still built)' if still else ''}"


def unbroken(years: Iterable[int]) -> Iterator[tuple[int, int]]:
    """First and last of each unbroken run of rising years."""
    first = last = None
    for year in years:
        if first is None or last is None:
            first = year
        elif year != last + 1:
            yield first, last
            first = year
        last = year
    if first is not None and last is not None:
        yield first, last


def union(ranges: Iterable[Years]) -> tuple[Years, ...]:
    """The same years as the fewest ranges, in order; ranges that touch (2003, 2004) become one."""
    merged: list[Years] = []
    for years in sorted(ranges, key=lambda each: (each.first is not None, each.first or 0)):
        if merged and _touches(merged[-1], years):
            last = None if merged[-1].last is None or years.last is None else max(merged[-1].last, years.last)
            merged[-1] = Years(first=merged[-1].first, last=last)
        else:
            merged.append(years)
    return tuple(merged)


def _touches(left: Years, right: Years) -> bool:
    return left.last is None or right.first is None or right.first <= left.last + 1


def _latest(left: int | None, right: int | None) -> int | None:
    return left if right is None else right if left is None else max(left, right)


def _earliest(left: int | None, right: int | None) -> int | None:
    return left if right is None else right if left is None else min(left, right)
