"""Numbers of payment cards, by their length, their first digits and their check digit.

Source: ISO/IEC 7812-1 (the last digit makes the sum of Luhn a multiple of 10). Which first digits have which length is
what the networks publish for their issuers; from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even

_RUN = re.compile(r"(?<![0-9A-Za-z])(?<![0-9][.,])[0-9](?:[ .-]?[0-9]){12,}(?![0-9A-Za-z])")
_QUICK = re.compile(r"[0-9](?:[ .-]?[0-9]){12}")
_GROUP = re.compile(r"[0-9]+")
_NETWORKS = re.compile(
    r"4[0-9]{15}(?:[0-9]{3})?|(?:5[1-5][0-9]{2}|222[1-9]|22[3-9][0-9]|2[3-6][0-9]{2}|27[01][0-9]|2720)[0-9]{12}|"
    r"3[47][0-9]{13}|"
    r"3(?:0[0-5]|09|[689][0-9])[0-9]{11}|6(?:011|4[4-9][0-9]|5[0-9]{2})[0-9]{12}|35(?:2[89]|[3-8][0-9])[0-9]{12}|"
    r"62[0-9]{14}|220[0-4][0-9]{12}|(?:50[0-9]{2}|5[6-9][0-9]{2}|6[37][0-9]{2})[0-9]{12}(?:[0-9]{3})?"
)
_OLD = re.compile(r"4[0-9]{12}")
_CARD = re.compile(
    r"(?<!\w)(?:card|credit|debit|visa|karte|kreditkarte|carte|tarjeta|carta|kaart|kort|paid|cvv|cvc|exp)",
    re.IGNORECASE,
)
"""Near which thirteen digits are an old card's; elsewhere they are the code of an article."""
_LENGTHS = (14, 15, 16, 19)
_MOST = 19


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    return _QUICK.search(even(text)) is not None


def find(text: str) -> Iterator[Span]:
    """Every card number of a text, in one piece or in groups; other digits may stand before and behind the groups."""
    flat = even(text)
    for run in _RUN.finditer(flat):
        groups = [(run.start() + each.start(), run.start() + each.end()) for each in _GROUP.finditer(run[0])]
        done = 0
        for first, (start, _) in enumerate(groups):
            end = _end(flat, groups[first : first + _MOST]) if start >= done and flat[start] in "23456" else None
            if end is not None:
                yield Span(start, end)
                done = end


def _end(flat: str, groups: list[tuple[int, int]]) -> int | None:
    number = ""
    for start, end in groups:
        number += flat[start:end]
        if len(number) > _MOST:
            return None
        if len(number) == 13 and _OLD.fullmatch(number) is not None and _is_old(flat, groups[0][0], end, number):
            return end
        if len(number) in _LENGTHS and _NETWORKS.fullmatch(number) is not None and _holds(number):
            return end
    return None


def _is_old(flat: str, start: int, end: int, number: str) -> bool:
    return _CARD.search(flat, max(0, start - 40), end + 30) is not None and _holds(number)


def _holds(number: str) -> bool:
    # Loaded only where something has the look of one.
    from stdnum import luhn  # noqa: PLC0415

    return bool(luhn.is_valid(number))
