"""Telephone numbers, in the habits of several countries, and by the numbering plans of those that are named.

A number counts by its shape (international with + or 00, a national one with its trunk 0, the North American three
groups), by a word beside it (`Tel.`, `call me on`), or because the plan of a named country has it. A word that names
another kind of number (`part no.`, `frame numbers`) and a unit behind it speak against it.

Sources: ITU-T E.164 (at most fifteen digits, country codes never start with 0); the groups of the North American
Numbering Plan; the writing habits of countries are common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from kbtools.personal.numbering import has_short_plan, is_national
from kbtools.personal.span import Span, apart, even, has_any, without_underscores, without_urls

_SEVERAL_DIGITS = re.compile(r"[0-9](?:[ ().\-/]{0,3}[0-9]){5}")
_CANDIDATE = re.compile(
    r"(?:(?<![\w-])|(?<=[a-z]-)(?=0[0-9]{9,10}\.[a-z]))(?<![0-9][.,])(?:\(?\+|\()?[0-9](?:[ "
    r"().\-/]{0,3}[0-9]){5,}(?:(?!\w)|(?=x[0-9]{1,5}(?!\w)))"
)
"""Also with an extension behind it: x12."""
_NINE_DIGITS = re.compile("[0-9](?:[ ().\\-/]{0,3}[0-9]){8}")
_GROUP = re.compile(r"(?:\(?\+|\()?[0-9]+")
_NORTH_AMERICAN = re.compile(r"(?:\+?1[ .-]?)?(?:\([2-9][0-9]{2}\) ?|[2-9][0-9]{2}[.-])[2-9][0-9]{2}[ .-][0-9]{4}")
_FEWEST, _MOST = 6, 15

_PHONE_WORDS = (
    "tel|tél|telefon|telefono|teléfono|telefone|telephone|téléphone|telefoon|phone|mobile|móvil|movil|handy|cell|"
    "cellulare|portable|gsm|fax|whatsapp|sms|rufnummer|ruf|ruft|anruf|call|ring|dial|text|line|tlf|puh|bel|appelle|"
    "appelez|joignable|llama|chiama|zadzwoń|móviles|mobil|mobiel|numéro|numero|telefonnummer|telefonnr|fon|mob|ph|"
    "reach|erreichbar|puhelin|signal|nummer|☎|📞|📱"
)
_LINKS = (
    "me|us|him|her|it|on|at|to|under|unter|über|or|no|nr|number|is|was|my|ist|au|sur|an|al|il|le|home|work|the owner|"
    "op|number is|his|today|tonight|after six|anytime|via|ab|mich"
)
_BY_WORD = re.compile(
    rf"(?:(?<!\w)(?:{_PHONE_WORDS}|contact (?:me|him|her|us)|(?:my|his|her|their) (?:number|no\.?))|[☎📞📱])"
    rf"[ ,.:=-]{{0,3}}(?:(?:{_LINKS})[ ,.:=]{{1,3}}){{0,4}}[(]?$|(?<!\w)[tmphw]: ?[(]?$",
    re.IGNORECASE,
)
_BY_WORD_BEHIND = re.compile(
    r"[ ,;:(–-]{1,3}(?:(?:is|was) )?(?:(?:my|his|her|the owner's) (?:\w+ )?(?:number|mobile|phone|cell)|mobile|cell|"
    r"texts? only|\(?(?:call|ring|text|phone) (?:me|him|her|us|after|any|before|in the)|whatsapp|evenings|"
    r"after (?:[5-9]|six|seven|eight))",
    re.IGNORECASE,
)
_OTHER_NUMBER = re.compile(
    r"(?<!\w)(?:parts?|p/n|pn|art|artikel|teil\w{0,9}|order\w{0,3}|best|bestell\w{0,9}|ref|réf|frames?|engines?|vin|"
    r"bulletin|campaign|recall|isbn|ean|batch|serials?|thread|topic|post|pins?|version|software|program\w{0,3}|kit|"
    r"n°|référence|codice|código|catalogue|catalog|upc|gtin|sku|item|article|stock|oem|superseded|replaces|"
    r"replaced by|iso|din|imei|firmware|build|calibration|s/n|sn|bearing|seal|invoice|docket)(?!\w)",
    re.IGNORECASE,
)
_BYTE = re.compile("(?<![0-9A-Za-z])(?:[0-9A-F][A-F]|[A-F][0-9A-F]|[0-7][0-9A-F]{2}) $")
"""A number in base sixteen in front of others: bytes on a bus."""
_THINGS = frozenset(["bearing", "seal", "kit", "thread", "post", "pin", "pins", "frame", "engine", "frames", "engines"])
_ANY_PHONE_WORD = re.compile(rf"(?<!\w)(?:{_PHONE_WORDS})(?!\w)", re.IGNORECASE)
_NEAR_A_SHORT_NUMBER = re.compile(
    rf"(?<!\w)(?:{_PHONE_WORDS}|contact|my|his|her|their|the owner's|texts?|evenings|after)(?!\w)", re.IGNORECASE
)
_UNIT = re.compile(
    r" ?(?:km|mi|miles|rpm|tr/min|nm|v|a|ma|ah|w|kw|ohm|ohms|kohm|mm2?|cm3?|m|kg|g|bar|hpa|psi|eur|€|\$|£|h|hours|s|ms|"
    r"min|°c?|%|cycles|teeth|l|pulses|starts|units|pieces|pcs)(?!\w)",
    re.IGNORECASE,
)
_DATE = re.compile(
    r"[0-3]?[0-9][./-][0-3]?[0-9][./-](?:[0-9]{2}|[0-9]{4}(?![0-9]).*)|"
    r"(?:19|20)[0-9]{2}[./-][0-9]{1,2}[./-][0-9]{1,2}(?![0-9]).*|"
    r"(?:[0-9]{1,2}/)?(?:19|20)[0-9]{2} ?[-/] ?(?:[0-9]{1,2}/)?(?:19|20)[0-9]{2}|"
    r"(?:19|20)[0-9]{2}(?:0[1-9]|1[0-2])(?:[0-2][0-9]|3[01])(?:[ -].*|[0-9]{4}|[0-9]{6})?"
)
_O = re.compile("(?<![A-Za-z])[Oo](?=[0-9Oo]{2})(?=[Oo0-9 ]{0,3}[0-9])|(?<=[0-9Oo])[Oo](?=[0-9Oo ])(?=[Oo ]{0,3}[0-9])")
"""A letter in the place of a nought, which some write so that programs do not see the number."""
_BEFORE = 40
"""Characters in front of a number in which a word counts."""
_SPOKEN_DIGIT = (
    "zero|oh|nought|naught|null|nil|one|two|three|four|five|six|seven|eight|nine|double|triple|eins|zwei|zwo|drei|vier|"
    "fünf|sechs|sieben|acht|neun|plus|zéro|un|deux|trois|quatre|cinq|sept|huit|neuf|cero|uno|dos|tres|cuatro|cinco|"
    "seis|"
    "siete|ocho|nueve"
)
_SPOKEN_START = ("zero", "oh", "nought", "naught", "null", "plus", "zéro", "cero", "double")
_SPOKEN = re.compile(
    rf"(?<!\w)(?:{'|'.join(_SPOKEN_START)})(?:[ ,-]{{1,2}}(?:{_SPOKEN_DIGIT}|[0-9]{{1,6}})){{6,20}}(?!\w)",
    re.IGNORECASE,
)


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = without_underscores(even(text))
    if _SEVERAL_DIGITS.search(_O.sub("0", flat) if "o" in flat or "O" in flat else flat) is not None:
        return True
    return has_any(flat.lower(), _SPOKEN_START) and _SPOKEN.search(flat) is not None


def may_hold_in_id(text: str, countries: Sequence[str] = ()) -> bool:
    """Whether it is worth looking in an id that is read as words and numbers, or in several with line ends between.

    Most end in a model and the number of a case, `bittern-900-0042`, which are seven digits. So few are a number behind
    a word, spelt out, or of a country with so short a plan.
    """
    if not may_hold(text):
        return False
    if _NINE_DIGITS.search(text) is not None or has_short_plan(countries):
        return True
    return _NEAR_A_SHORT_NUMBER.search(text) is not None or _SPOKEN.search(text) is not None


def find(text: str, countries: Sequence[str] = ()) -> Iterator[Span]:
    """Every telephone number of a text; web addresses are left out.

    Args:
        text: any.
        countries: whose national numbers count without a word and without a known shape, ISO 3166-1 alpha-2.
    """
    flat = _O.sub("0", without_urls(without_underscores(even(text))))
    return apart(_seen(flat, tuple(countries)))


def _seen(flat: str, countries: tuple[str, ...]) -> Iterator[Span]:
    for match in _CANDIDATE.finditer(flat):
        if _UNIT.match(flat, match.end()) is not None:
            continue
        before = flat[max(0, match.start() - _BEFORE) : match.start()]
        behind = flat[match.end() : match.end() + _BEFORE]
        if _is_phone(match[0], before, behind, countries):
            yield Span(*match.span())
        elif sum(each.isdigit() for each in match[0]) > _MOST:
            yield from _in_row(flat, match, before, countries)
    yield from (Span(*match.span()) for match in _SPOKEN.finditer(flat))


def _in_row(flat: str, row: re.Match[str], before: str, countries: tuple[str, ...]) -> Iterator[Span]:
    """Numbers among more digits than one may have: two in a row, a number behind a date."""
    if _names_another_number(before):
        return
    groups = [each.span() for each in _GROUP.finditer(flat, *row.span())]
    first = 0
    while first < len(groups):
        start, last = groups[first][0], first
        for index in range(first, min(first + 6, len(groups))):
            raw = flat[start : groups[index][1]]
            if index > first and raw[0] in "(+0" and _is_phone(raw, "", "", countries):
                last = index
        if last > first:
            yield Span(start, groups[last][1])
        first = last + 1


def _is_phone(raw: str, before: str, behind: str, countries: tuple[str, ...]) -> bool:
    digits = re.sub("[^0-9]", "", raw)
    groups = re.findall("[0-9]+", raw)
    if groups[-3:] == ["00", "00", "00"] or (set(map(len, groups)) == {2} and _BYTE.search(before) is not None):
        return False
    if not _FEWEST <= len(digits) <= _MOST or _DATE.fullmatch(raw) is not None or _is_series(groups):
        return False
    if _BY_WORD.search(before) is not None or (len(digits) > 6 and _BY_WORD_BEHIND.match(behind) is not None):
        return True
    if _names_another_number(before):
        return False
    return _has_shape(raw, digits, groups) or is_national(raw, countries)


def _has_shape(raw: str, digits: str, groups: list[str]) -> bool:
    if raw.lstrip("(").startswith("+"):
        return len(digits) >= 8 and digits[0] != "0"
    if digits.startswith("00"):
        return digits[2] != "0" and len(digits) >= 11
    if digits.startswith("0"):
        # Part numbers are written in one piece, or with the 0 alone; some people space every digit.
        one_by_one = len(groups) == len(digits)
        written_so = len(groups) > 1 and (len(groups[0]) > 1 or "(0)" in raw or one_by_one)
        return written_so and 9 <= len(digits) <= 12
    return _NORTH_AMERICAN.fullmatch(raw) is not None


def _is_series(groups: list[str]) -> bool:
    """A range (two numbers of one length, rising) or a row that rises evenly: 01 02 03 04, 0 180 360 540."""
    numbers = [int(each) for each in groups]
    if len({len(each) for each in groups}) != 1 or len(groups) < 2:
        return len(groups) > 3 and len({after - before for before, after in pairwise(numbers)}) == 1
    if len(groups) == 2:
        return numbers[0] < numbers[1] and groups[0][0] == groups[1][0] and len(groups[0]) > 3
    return len({after - before for before, after in pairwise(numbers)}) == 1


def _names_another_number(before: str) -> bool:
    """Whether the last word that names a kind of number names another one than a telephone's.

    A thing that was spoken of three words before is none: `the bearing can be lent: 0171/…`.
    """
    found = _OTHER_NUMBER.finditer(before)
    others = [each.end() for each in found if each[0].lower() not in _THINGS or len(before[each.end() :].split()) < 3]
    phones = [match.end() for match in _ANY_PHONE_WORD.finditer(before)]
    return bool(others) and max(others) > max(phones, default=0)
