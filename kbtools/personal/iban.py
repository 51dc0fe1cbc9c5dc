"""International bank account numbers, proven by their check digits.

Source: ISO 13616 (two letters, two check digits, the country's own number; the whole modulo 97 is 1). `python-stdnum`
knows the lengths and forms of the countries.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even

_START = re.compile(r"(?<![0-9A-Za-z])[A-Za-z]{2}[0-9]{2}(?=[ .-]?[0-9A-Za-z]{2,4}[ .-]?[0-9A-Za-z])")
_SIGN = re.compile(r"[ .-]?([0-9A-Za-z])")
_SHORTEST, _LONGEST = 15, 34


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    return _QUICK.search(even(text)) is not None


_QUICK = re.compile(r"[A-Za-z][0-9]{2}[ .-]?[0-9A-Za-z]{2,4}[ .-]?[0-9A-Za-z]{1,4}[ .-]?[0-9]")


def find(text: str) -> Iterator[Span]:
    """Every account number of a text, in one piece or in groups."""
    flat = even(text)
    done = 0
    for match in _START.finditer(flat):
        end = _end(flat, match) if match.start() >= done else None
        if end is not None:
            yield Span(match.start(), end)
            done = end


def _end(flat: str, start: re.Match[str]) -> int | None:
    """Where the number ends that starts here: only the country tells how long it is, so each end of a word is tried."""
    number, at = start[0].upper(), start.end()
    while len(number) < _LONGEST:
        sign = _SIGN.match(flat, at)
        if sign is None:
            return None
        number, at = number + sign[1].upper(), sign.end()
        if len(number) >= _SHORTEST and not flat[at : at + 1].isalnum() and _holds(number):
            return at
    return None


def _holds(number: str) -> bool:
    # Loaded only where something has the look of one: it brings tables.
    from stdnum import iban  # noqa: PLC0415

    return _remainder(number) == 1 and bool(iban.is_valid(number, check_country=False))


def _remainder(number: str) -> int:
    """Modulo 97, the first four characters put last and the letters as 10 to 35."""
    return int("".join(str(int(each, 36)) for each in number[4:] + number[:4])) % 97
