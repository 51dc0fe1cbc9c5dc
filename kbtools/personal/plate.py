"""What looks like a number plate. Plates look like part numbers, so this is a guess, and only ever warned of.

The shapes are those of German, British (since 2001), French, Italian and Dutch plates, as their vehicle registration
laws publish them (from memory, and shown by the labelled texts only as examples); any other one counts where a word in
front says so.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even, without_urls

_GERMAN = (
    r"(?!(?:ABS|ECU|CAN|SAE|ISO|DIN|API|OEM|LED|USB|TPS|MAP|DOT|EN)-)[A-ZÄÖÜ]{1,3}-[A-ZÄÖÜ]{1,2} ?[1-9][0-9]{0,3}[EH]?"
)
_BRITISH = r"[A-HJ-PR-Y]{2}[0-9]{2} (?!RPM|KPH|MPH)[A-HJ-PR-Z]{3}"
_FRENCH = r"[A-HJ-NP-TV-Z]{2}-[0-9]{3}-[A-HJ-NP-TV-Z]{2}"
_DUTCH = r"[A-Z]{2}-[0-9]{2}-[A-Z]{2}|[A-Z]-[0-9]{3}-[A-Z]{2}"
_SHAPE = re.compile(rf"(?<![\w-])(?:{_FRENCH}|{_DUTCH}|{_BRITISH}|{_GERMAN})(?![\w-])")
_BY_WORD = re.compile(
    r"(?<!\w)(?:[Nn]umber ?plate|[Ll]icen[cs]e plate|[Pp]late n(?:o|umber)|[Rr]egistration|[Kk]ennzeichen|"
    r"[Nn]ummernschild|[Ii]mmatriculation|[Pp]laque|[Tt]arga|[Mm]atr[ií]cula|[Kk]enteken|[Nn]ummerplade|"
    r"[Nn]ummerskilt|[Rr]ejestracja)(?: (?:[Nn]o|[Nn]r|[Nn]umber|is|was|ist))?[ .:=#]{1,3}"
    r"(?P<plate>[A-ZÄÖÜ0-9]{1,7}(?:[ -][A-ZÄÖÜ0-9]{1,6}){0,2})(?!\w)"
)
# Two, since one that begins in two ways is looked for slowly.
_HYPHEN = re.compile("[A-ZÄÖÜ]-[A-Z0-9ÄÖÜ]")
_TWO_DIGITS = re.compile("[A-Z][0-9][0-9] [A-Z]{3}")
_HINTS = (
    "late",
    "egistration",
    "ennzeichen",
    "ummernschild",
    "mmatriculation",
    "laque",
    "arga",
    "atric",
    "atríc",
    "enteken",
    "ummer",
    "ejestracja",
)
"""What stands in every text in which a word may name a plate."""


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    if _HYPHEN.search(flat) is not None or _TWO_DIGITS.search(flat) is not None:
        return True
    return any(hint in flat for hint in _HINTS) and _BY_WORD.search(flat) is not None


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like a plate; web addresses are left out."""
    flat = without_urls(even(text))
    shapes = [Span(*match.span()) for match in _SHAPE.finditer(flat)]
    yield from shapes
    for match in _BY_WORD.finditer(flat):
        start, end = match.span("plate")
        if _is_plate(match["plate"]) and not any(each.start < end and start < each.end for each in shapes):
            yield Span(start, end)


def _is_plate(text: str) -> bool:
    signs = re.sub("[ -]", "", text)
    return 5 <= len(signs) <= 8 and not signs.isdigit() and not signs.isalpha()
