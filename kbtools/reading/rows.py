"""Access to a mapping of plain data that already has its form: typed, and knowing where it stands."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

from kbtools.model.money import Distance, Range, Speed, parse_distance, parse_speed
from kbtools.model.years import Years, parse_years
from kbtools.reading.once import Once


class Row:
    """One mapping of a file and its JSON pointer.

    The data has passed its schema, and what did not pass was taken out; so a value is of its type or not there.
    """

    __slots__ = ("_data", "_once", "at")

    def __init__(self, data: dict[str, Any], at: str, once: Once | None = None) -> None:
        """Hold a mapping.

        Args:
            data: the mapping.
            at: its pointer.
            once: gives equal values as one; None: nobody else reads here.
        """
        self._data = data
        self._once = once or Once()
        self.at = at

    def has(self, key: str) -> bool:
        """Whether the author wrote the key, and its value could be used."""
        return key in self._data

    def text(self, key: str) -> str | None:
        """A text, None where there is none."""
        value = self._data.get(key)
        return None if value is None else self._once.text(value)

    def choice(self, key: str, default: Any = None) -> Any:
        """A word that the schema has chosen from a list: the caller names the type."""
        value = self._data.get(key, default)
        return self._once.word(value, value) if type(value) is str else value

    def whole(self, key: str) -> int | None:
        """A whole number, None where there is none."""
        value = self._data.get(key)
        return None if value is None else int(value)

    def number(self, key: str) -> float | None:
        """A number, None where there is none."""
        value = self._data.get(key)
        return None if value is None else float(value)

    def flag(self, key: str) -> bool:
        """True where the author wrote so."""
        return bool(self._data.get(key, False))

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts or ids; empty where there is none."""
        values = self._data.get(key)
        return self._once.texts(values) if values else ()

    def range(self, key: str) -> Range | None:
        """`[low, high]` or a single number, None where there is none."""
        value = self._data.get(key)
        if value is None:
            return None
        low, high = value if isinstance(value, list) else (value, value)
        return self._once.range(float(low), float(high))

    def distance(self, key: str) -> Distance | None:
        """A distance with its unit, None where there is none."""
        value = self._data.get(key)
        return None if value is None else self._once.parsed(parse_distance, value)

    def speed(self, key: str) -> Speed | None:
        """A speed with its unit, None where there is none."""
        value = self._data.get(key)
        return None if value is None else self._once.parsed(parse_speed, value)

    def date(self, key: str) -> dt.date | None:
        """A day, None where there is none or the calendar has no such day (a rule says so)."""
        value = self._data.get(key)
        return None if value is None else self._once.parsed(_day, value)

    def row(self, key: str) -> Row | None:
        """A mapping in this one, None where there is none."""
        value = self._data.get(key)
        if not isinstance(value, dict):
            return None
        return Row(value, self._once.below(self.at)[key], self._once)

    def rows(self, key: str) -> Sequence[Row]:
        """The mappings of a list, those left out that could not be used."""
        values = self._data.get(key)
        return rows(values, self._once.below(self.at)[key], self._once) if values else ()

    def pairs(self, key: str) -> tuple[tuple[str, str], ...]:
        """A mapping of names to values as they were written."""
        text, values = self._once.text, self._data.get(key)
        return tuple([(text(name), text(value)) for name, value in values.items()]) if values else ()

    def years(self, key: str) -> Years | None:
        """Model years, None where there are none."""
        value = self._data.get(key)
        return None if value is None else self._once.parsed(parse_years, str(value))


def rows(data: Any, at: str, once: Once | None = None) -> Sequence[Row]:
    """The mappings of a list that stands at the pointer `at`."""
    known = once or Once()
    below = known.below(at)
    return [Row(each, below[index], known) for index, each in enumerate(data or ()) if isinstance(each, dict)]


def _day(text: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return None
