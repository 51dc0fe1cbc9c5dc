"""Access to a mapping of plain data that already has its form: typed, and knowing where it stands."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Any

from kbtools.model.money import Distance, Range, Speed, parse_distance, parse_speed


class Row:
    """One mapping of a file and its JSON pointer.

    The data has passed its schema, and what did not pass was taken out; so a value is of its type or not there.
    """

    __slots__ = ("_data", "at")

    def __init__(self, data: dict[str, Any], at: str) -> None:
        self._data = data
        self.at = at

    def has(self, key: str) -> bool:
        """Whether the author wrote the key, and its value could be used."""
        return key in self._data

    def text(self, key: str) -> str | None:
        """A text, None where there is none."""
        value = self._data.get(key)
        return None if value is None else str(value)

    def choice(self, key: str, default: Any = None) -> Any:
        """A word that the schema has chosen from a list: the caller names the type."""
        return self._data.get(key, default)

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
        return tuple(str(each) for each in self._data.get(key) or () if each is not None)

    def range(self, key: str) -> Range | None:
        """`[low, high]` or a single number, None where there is none."""
        value = self._data.get(key)
        if value is None:
            return None
        low, high = value if isinstance(value, list) else (value, value)
        return Range(low=float(low), high=float(high))

    def distance(self, key: str) -> Distance | None:
        """A distance with its unit, None where there is none."""
        value = self._data.get(key)
        return None if value is None else parse_distance(value)

    def speed(self, key: str) -> Speed | None:
        """A speed with its unit, None where there is none."""
        value = self._data.get(key)
        return None if value is None else parse_speed(value)

    def date(self, key: str) -> dt.date | None:
        """A day, None where there is none or the calendar has no such day (a rule says so)."""
        value = self._data.get(key)
        try:
            return None if value is None else dt.date.fromisoformat(value)
        except ValueError:
            return None

    def row(self, key: str) -> Row | None:
        """A mapping in this one, None where there is none."""
        value = self._data.get(key)
        return Row(value, f"{self.at}/{key}") if isinstance(value, dict) else None

    def rows(self, key: str) -> Iterator[Row]:
        """The mappings of a list, those left out that could not be used."""
        return rows(self._data.get(key), f"{self.at}/{key}")

    def pairs(self, key: str) -> tuple[tuple[str, str], ...]:
        """A mapping of names to values as they were written."""
        return tuple((str(name), str(value)) for name, value in (self._data.get(key) or {}).items())


def rows(data: Any, at: str) -> Iterator[Row]:
    """The mappings of a list that stands at the pointer `at`."""
    for index, each in enumerate(data or ()):
        if isinstance(each, dict):
            yield Row(each, f"{at}/{index}")
