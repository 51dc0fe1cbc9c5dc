"""Telephone numbers, in the habits of several countries.

A number counts by its shape (international with + or 00, a national one with its trunk 0, the North American three
groups), or by a word in front of it (`Tel.`, `call me on`). A word that names another kind of number (`part no.`,
`frame numbers`) and a unit behind it speak against it.

Sources: ITU-T E.164 (at most fifteen digits, country codes never start with 0); the groups of the North American
Numbering Plan; the writing habits of countries are common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from kbtools.personal.span import Span, even, without_urls

_SEVERAL_DIGITS = re.compile(r"[0-9](?:[ ().\-/]{0,3}[0-9]){5}")
_CANDIDATE = re.compile(r"(?<![\w.,-])(?:\(?\+|\()?[0-9](?:[ ().\-/]{0,3}[0-9]){5,17}(?![\w])")
_NORTH_AMERICAN = re.compile(r"(?:\+?1[ .-]?)?(?:\([2-9][0-9]{2}\) ?|[2-9][0-9]{2}[.-])[2-9][0-9]{2}[ .-][0-9]{4}")

_PHONE_WORDS = (
    "tel|tél|telefon|telefono|teléfono|telefone|telephone|téléphone|phone|mobile|móvil|movil|handy|cell|cellulare|"
    "portable|gsm|fax|whatsapp|sms|rufnummer|ruf|ruft|anruf|call|ring|dial|text|line|tlf|puh|bel|appelle|joignable|"
    "llama|chiama|zadzwoń|móviles|mobil|numéro|numero"
)
_LINKS = "me|us|him|her|it|on|at|to|under|unter|über|or|no|nr|number|is|was|my|ist|au|sur|an|al|il|le|home|work"
_BY_WORD = re.compile(
    rf"(?<!\w)(?:{_PHONE_WORDS})[ .:=]{{0,3}}(?:(?:{_LINKS})[ .:=]{{1,3}}){{0,3}}[(]?$", re.IGNORECASE
)
_OTHER_NUMBER = re.compile(
    r"(?<!\w)(?:parts?|p/n|pn|art|artikel|teil\w{0,9}|order\w{0,3}|best|bestell\w{0,9}|ref|réf|frames?|engines?|vin|"
    r"bulletin|campaign|recall|isbn|ean|batch|serials?|thread|topic|post|pins?|version|software|program\w{0,3}|kit|"
    r"n°|référence|codice|código|catalogue|catalog)(?!\w)",
    re.IGNORECASE,
)
_ANY_PHONE_WORD = re.compile(rf"(?<!\w)(?:{_PHONE_WORDS})(?!\w)", re.IGNORECASE)
_UNIT = re.compile(
    r" ?(?:km|mi|miles|rpm|tr/min|nm|v|a|ma|ah|w|kw|ohm|ohms|kohm|mm2?|cm3?|m|kg|g|bar|hpa|psi|eur|€|\$|£|h|hours|s|ms|"
    r"min|°c?|%|cycles|teeth|l)(?!\w)",
    re.IGNORECASE,
)
_DATE = re.compile(
    r"[0-3]?[0-9][./-][0-3]?[0-9][./-](?:[0-9]{2}|[0-9]{4}(?![0-9]).*)|"
    r"(?:19|20)[0-9]{2}[./-][0-9]{1,2}[./-][0-9]{1,2}(?![0-9]).*|"
    r"(?:[0-9]{1,2}/)?(?:19|20)[0-9]{2} ?[-/] ?(?:[0-9]{1,2}/)?(?:19|20)[0-9]{2}"
)
_BEFORE = 40
"""Characters in front of a number in which a word counts."""


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    return _SEVERAL_DIGITS.search(even(text)) is not None


def find(text: str) -> Iterator[Span]:
    """Every telephone number of a text; web addresses are left out."""
    flat = without_urls(even(text))
    if _SEVERAL_DIGITS.search(flat) is None:
        return
    for match in _CANDIDATE.finditer(flat):
        before = flat[max(0, match.start() - _BEFORE) : match.start()]
        if _is_phone(match[0], before) and _UNIT.match(flat, match.end()) is None:
            yield Span(*match.span())


def _is_phone(raw: str, before: str) -> bool:
    digits = re.sub("[^0-9]", "", raw)
    groups = re.findall("[0-9]+", raw)
    if not 6 <= len(digits) <= 15 or _DATE.fullmatch(raw) is not None or _is_series(groups):
        return False
    if _BY_WORD.search(before) is not None:
        return True
    return not _names_another_number(before) and _has_shape(raw, digits, groups)


def _has_shape(raw: str, digits: str, groups: list[str]) -> bool:
    if raw.lstrip("(").startswith("+"):
        return len(digits) >= 8 and digits[0] != "0"
    if digits.startswith("00"):
        return digits[2] != "0" and len(digits) >= 11
    if digits.startswith("0"):
        # Part numbers are written in one piece, or with the 0 alone.
        written_so = len(groups) > 1 and (len(groups[0]) > 1 or "(0)" in raw)
        return written_so and 9 <= len(digits) <= 12
    return _NORTH_AMERICAN.fullmatch(raw) is not None


def _is_series(groups: list[str]) -> bool:
    """A range (two numbers of one length, rising) or a row that rises evenly: 01 02 03 04."""
    if len({len(each) for each in groups}) != 1 or len(groups) < 2:
        return False
    numbers = [int(each) for each in groups]
    if len(groups) == 2:
        return numbers[0] < numbers[1] and groups[0][0] == groups[1][0] and len(groups[0]) > 3
    return len({after - before for before, after in pairwise(numbers)}) == 1


def _names_another_number(before: str) -> bool:
    """Whether the last word that names a kind of number names another one than a telephone's."""
    others = [match.end() for match in _OTHER_NUMBER.finditer(before)]
    phones = [match.end() for match in _ANY_PHONE_WORD.finditer(before)]
    return bool(others) and max(others) > max(phones, default=0)
