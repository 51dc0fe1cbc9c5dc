"""Years against portion, an independent library of intervals, and the forms that an entry may write."""

from __future__ import annotations

import portion
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.model.years import ALL_YEARS, Years, last_built, parse_years, union

YEAR = st.integers(0, 9999)
OPEN = st.none()


@st.composite
def ranges(draw: st.DrawFn) -> Years:
    """A range whose ends are in order."""
    first, last = draw(YEAR | OPEN), draw(YEAR | OPEN)
    if first is not None and last is not None and first > last:
        first, last = last, first
    return Years(first=first, last=last)


def half_open(years: Years) -> portion.Interval:
    """The same years as portion has them: closed ranges of whole numbers do not merge there, half-open ones do."""
    first = -portion.inf if years.first is None else years.first
    last = portion.inf if years.last is None else years.last + 1
    return portion.closedopen(first, last)


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2007", 2007, 2007),
        ("2003-2008", 2003, 2008),
        ("2010-", 2010, None),
        ("-2008", None, 2008),
        ("all", None, None),
        ("2008-2003", 2008, 2003),
    ],
)
def test_forms_that_an_entry_may_write(text: str, first: int | None, last: int | None) -> None:
    assert parse_years(text) == Years(first=first, last=last)


@pytest.mark.parametrize(
    "text", ["", "-", "20032008", "2003 - 2008", "2003–2008", "207", "All", "2003-2008-2010", "２００３", "2003\n"]
)
def test_any_other_text_is_refused(text: str) -> None:
    assert parse_years(text) is None


@given(ranges())
def test_a_range_is_read_as_it_is_written(years: Years) -> None:
    assert parse_years(years.text) == years


@given(ranges(), st.integers(-1, 10_000))
def test_holds_as_portion_does(years: Years, year: int) -> None:
    assert years.holds(year) == (year in half_open(years))


@given(ranges(), ranges())
def test_cut_as_portion_does(left: Years, right: Years) -> None:
    cut = left.cut_to(right)
    both = half_open(left) & half_open(right)
    assert (cut is None) == both.empty
    assert cut is None or half_open(cut) == both


@given(st.lists(ranges(), max_size=8))
def test_union_as_portion_does(parts: list[Years]) -> None:
    expected = portion.empty()
    for part in parts:
        expected |= half_open(part)
    assert [half_open(part) for part in union(parts)] == list(expected)


@pytest.mark.parametrize(
    ("left", "right", "expected"),
    [
        # Worked with portion 2.6, half-open: [2001,2004) and [2004,2007) make [2001,2007).
        ("2001-2003", "2004-2006", ["2001-2006"]),
        ("2001-2003", "2005", ["2001-2003", "2005"]),
        ("2010-", "2001-2011", ["2001-"]),
    ],
)
def test_ranges_that_touch_become_one(left: str, right: str, expected: list[str]) -> None:
    parts = [parse_years(right), parse_years(left)]
    assert [each.text for each in union([part for part in parts if part is not None])] == expected


def test_a_model_that_is_still_built_has_next_years_model_year() -> None:
    assert list(Years(first=2024, last=None).each(until=last_built(2026))) == [2024, 2025, 2026, 2027]
    assert list(Years(first=2003, last=2005).each(until=last_built(2026))) == [2003, 2004, 2005]


def test_years_without_a_first_one_cannot_be_counted() -> None:
    with pytest.raises(ValueError, match="no first year"):
        ALL_YEARS.each(until=2027)
