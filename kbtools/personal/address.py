"""What looks like a street and a house number, in several languages. A guess, and only ever warned of.

The words for streets are common knowledge of the languages, no source. Words that also mean a part or a length
(German Weg, Ring; English Drive, Way) count only where nothing technical stands beside them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even, without_urls

_NAME = r"[A-ZÀ-ÖØ-Þ][\w'’.-]{1,30}"
_NUMBER = r"[1-9][0-9]{0,3} ?[a-zA-Z]?(?![\w.,-]?[0-9])(?!\w)"
_UNIT = r"(?! ?(?:mm|cm|m|km|nm|v|a|w|ohm|bar|rpm|min|kg|h)(?!\w))"
_STREET = re.compile(
    # German, Dutch, Scandinavian, Polish: the number behind. The words in full first, then those of one letter less.
    rf"(?<!\w)[A-ZÄÖÜ][\w.-]{{1,30}}(?:straße|strasse|str\.|gasse|allee|chaussee|straat|laan|gracht|gatan|gade|vägen|veien)"
    rf" {_NUMBER}{_UNIT}"
    rf"|(?<!\w)(?:ul\.|ulica|ulice) {_NAME}(?: {_NAME}){{0,2}} {_NUMBER}"
    rf"|(?<!\w)(?:Postfach|P\.? ?O\.? ?Box|Apartado|Boîte postale) [0-9]{{2,6}}(?!\w)"
    # English: the number in front.
    rf"|(?<![\w.,-])[1-9][0-9]{{0,4}}[a-zA-Z]? (?:{_NAME} ){{1,3}}"
    r"(?:Street|St\.|Road|Rd\.?|Avenue|Ave\.?|Lane|Crescent|Terrace|Boulevard|Blvd\.?|Gardens|Mews|Close|Court|Drive|Way)"
    r"(?![\w-])(?! (?:valve|plug|connector|chain|socket))"
    # French: the number in front, the word small.
    r"|(?<![\w.,-])[1-9][0-9]{0,3}(?: ?(?:bis|ter))?,? (?:rue|avenue|boulevard|bd|chemin|impasse|allée|quai)"
    rf" (?:(?:de|du|des|la|le|les|l'|d') ?){{0,3}}{_NAME}"
    # Italian, Spanish, Portuguese: the number behind.
    r"|(?<!\w)(?:Via|Viale|Piazza|Corso|Vicolo|Calle|Avenida|Avda\.|Paseo|Plaza|Rua|Travessa)"
    rf" (?!(?:Pin|Relay|Plug|Fuse|Bus|Line|Port|Connector|Terminal|Wire)(?!\w))"
    rf"(?:(?:de|del|della|dei|da|do|la|las|los|el) ){{0,2}}{_NAME}(?: {_NAME}){{0,3}},? (?:n[º°.] ?)?{_NUMBER}{_UNIT}"
)
_BEHIND = ("aße", "sse", "tr.", "lee", "aat", "aan", "cht", "tan", "ade", "gen", "ien")
_BY_DIGIT = re.compile(
    # Digits are rare, so a look from each of them, forwards and backwards, costs little.
    r"[0-9](?:[a-zA-Z]? [A-ZÀ-ÖØ-Þ][\w'’.-]{2}|(?: ?(?:bis|ter))?,? (?:rue|ave|bou|bd|che|imp|all|quai)|"
    + "|".join(f"(?<={re.escape(each)} [0-9])" for each in _BEHIND)
    + ")"
)
_BY_WORD = re.compile(
    "Via|Piazza|Corso|Vicolo|Calle|Avenida|Avda|Paseo|Plaza|Rua|Travessa|Postfach|P[.]? ?O[.]? ?Box|Apartado|Boîte"
)


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    if _BY_DIGIT.search(flat) is not None or _BY_WORD.search(flat) is not None:
        return True
    return "ul. " in flat or "ulic" in flat


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like an address; web addresses are left out."""
    return (Span(*match.span()) for match in _STREET.finditer(without_urls(even(text))))
