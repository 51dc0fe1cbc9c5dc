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
_NO_STREET = (
    r"(?!(?:Feder|Kolben|Leer|Hub|Schalt|Verstell|Brems|Strom|Steck|Sitz|Stell|Lager|Rück|Mess|Pedal|Spann)"
    r"(?:weg|platz)(?!\w))"
)
"""German words of the trade that end as streets do."""
_STREET = re.compile(
    # German, Dutch, Scandinavian, Finnish: the number behind. The words in full first, then those of one letter less.
    rf"(?<!\w){_NO_STREET}[A-ZÄÖÜÅØ][\w.-]{{1,40}}(?:straße|strasse|str\.|gasse|allee|chaussee|weg|platz|damm|ufer|straat|"
    r"laan|gracht|plein|kade|singel|steeg|dijk|gatan|gade|gata|vägen|veien|vej|stræde|gränd|stigen|torget|katu|kuja)"
    rf" {_NUMBER}{_UNIT}"
    r"|(?<!\w)[A-ZÄÖÜ][\w.-]{1,40}[ -](?:Straße|Strasse|Str\.|Gasse|Allee|Weg|Platz|Chaussee|Damm|Ufer)"
    rf" {_NUMBER}{_UNIT}"
    rf"|(?<!\w)(?:ul\.|ulica|ulice|al\.|aleja|pl\.|plac|os\.) {_NAME}(?: {_NAME}){{0,2}} {_NUMBER}"
    rf"|(?<!\w)(?:Postfach|P\.? ?O\.? ?Box|Apartado|Boîte postale) [0-9]{{2,6}}(?!\w)"
    # English: the number in front.
    rf"|(?<![\w.,-])[1-9][0-9]{{0,4}}[a-zA-Z]?,? (?:{_NAME} ){{1,3}}"
    r"(?:Street|St\.|Road|Rd\.?|Avenue|Ave\.?|Lane|Crescent|Terrace|Boulevard|Blvd\.?|Gardens|Mews|Close|Court|Drive|Way|"
    r"Grove|Hill|Row|Square|Place|Walk|Rise|Park|Parade|Highway|Parkway|Green|Wharf|Quay|Yard|Cottages?|House)"
    r"(?![\w-])(?! (?:valve|plug|connector|chain|socket))"
    # French: the number in front, the word small.
    r"|(?<![\w.,-])[1-9][0-9]{0,3}(?: ?(?:bis|ter))?,? (?:rue|avenue|boulevard|bd|chemin|impasse|allée|quai|place|"
    rf"route|cours) (?:(?:de|du|des|la|le|les|l'|d') ?){{0,3}}{_NAME}"
    # Italian, Spanish, Portuguese: the number behind.
    r"|(?<!\w)(?:Via|Viale|Piazza|Corso|Vicolo|Strada|Largo|Borgo|Calle|Avenida|Avda\.|Paseo|Plaza|Camino|Ronda|Carrera|"
    r"Rua|R\.|Travessa|Praça|Alameda)"
    rf" (?!(?:Pin|Relay|Plug|Fuse|Bus|Line|Port|Connector|Terminal|Wire)(?!\w))"
    rf"(?:(?:de|del|della|dei|da|do|la|las|los|el) ){{0,2}}{_NAME}(?: {_NAME}){{0,3}},? (?:n[º°.] ?)?{_NUMBER}{_UNIT}"
    # A German post code and town behind a street that has no word for one, such as Am Markt 3.
    r"|(?<=[0-9a-z], )(?:D-|F-|I-|E-)?[0-9]{5} (?!(?:Kilo|Meil|Umdr|Euro|Stund|Kilom)[a-z]+)[A-ZÄÖÜ][a-zäöüß]{3,30}"
    # A British post code behind a town.
    r"|(?<=[a-z],|[a-z] ) ?[A-Z]{1,2}[1-9][0-9A-Z]? [0-9][ABD-HJLNP-UW-Z]{2}(?!\w)"
)
_BEHIND = (
    *("aße", "sse", "tr.", "lee", "weg", "Weg", "atz", "amm", "fer", "aat", "aan", "cht", "ein", "ade", "gel", "eeg"),
    *("ijk", "tan", "ata", "gen", "ien", "vej", "æde", "änd", "get", "atu", "uja"),
)
"""How the words for streets end."""
_BY_DIGIT = re.compile(
    # Digits are rare, so a look from each of them, forwards and backwards, costs little.
    r"[0-9](?:[a-zA-Z]?,? [A-ZÀ-ÖØ-Þ][\w'’.-]{2}|(?: ?(?:bis|ter))?,? (?:rue|ave|bou|bd|che|imp|all|quai|pla|rou|cou)|"
    r"[0-9A-Z]? [0-9][A-Z]{2}|[0-9]{4} [A-ZÄÖÜ][a-zäöüß]{3}|"
    + "|".join(f"(?<={re.escape(each)} [0-9])" for each in _BEHIND)
    + ")"
)
_BY_WORD = re.compile(
    "Via|Piazza|Corso|Vicolo|Strada|Largo|Borgo|Calle|Avenida|Avda|Paseo|Plaza|Camino|Ronda|Carrera|Rua|R[.] |Travessa|"
    "Praça|Alameda|Postfach|P[.]? ?O[.]? ?Box|Apartado|Boîte"
)


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    if _BY_DIGIT.search(flat) is not None or _BY_WORD.search(flat) is not None:
        return True
    return any(each in flat for each in ("ul. ", "ulic", "al. ", "aleja", "pl. ", "plac ", "os. "))


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like an address; web addresses are left out."""
    return (Span(*match.span()) for match in _STREET.finditer(without_urls(even(text))))
