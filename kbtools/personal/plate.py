"""What looks like a number plate. Plates look like part numbers, so this is a guess, and only ever warned of.

A shape alone counts where hardly anything else has it; the plates of the other countries count behind a word such as
`plate` or `registration`. The shapes are those that the countries' vehicle registration laws publish; from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, apart, even, has_any, without_urls

_NO_DISTRICT = (
    "ABS|ECU|CAN|SAE|ISO|DIN|API|OEM|LED|USB|TPS|MAP|DOT|EN|IEC|VDE|RS|PT|KTY|SMD|TO|IP|AWG|SW|PH|PZ|TX|OBD|MIL|JIS|"
    "PIN|REV|VER|ID|NO|NR|ART|REF|LH|RH|HT|LT"
)
_NO_LETTERS = (
    "RPM|KPH|MPH|LBS|PSI|TDC|BTDC|CCM|KMH|SWG|DTC|HEX|BSP|PIN|VDC|VAC|JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC"
)
_UNITS = "V|A|W|VA|MA|AH|CC|MM|CM|KM|NM|KG|HZ|KW|PS|HP|BAR|LED|EN|XR|RS|RR|GS|GT|LE|SE"
_COLOUR = "(?:B|BK|BL|BR|BU|G|GN|GR|GY|L|LB|LG|O|OR|P|PK|R|RD|V|VI|W|WH|Y|YE)"
_SHAPES = (
    # Germany, and Austria with hyphens; colours of wires have three digits at least.
    rf"(?!(?:{_NO_DISTRICT})-)(?!{_COLOUR}-{_COLOUR}[ -]?[0-9]{{1,2}}(?![0-9]))[A-ZÄÖÜ]{{1,3}}-[A-ZÄÖÜ]{{1,2}}[ -]?"
    rf"[1-9][0-9]{{1,3}}[EH]?",
    rf"[A-Z]{{1,2}}-[1-9](?:[0-9]{{1,2}} ?(?!(?:{_UNITS})(?![A-Z]))|[0-9]{{3,5}} ?)[A-Z]{{1,3}}",
    # United Kingdom since 2001, and since 1983.
    rf"[A-HJ-PR-Y]{{2}}[0-9]{{2}}[ -]?(?!{_NO_LETTERS})[A-HJ-PR-Z]{{3}}",
    rf"[A-HJ-NPR-TV-Y][1-9][0-9]{{2}} (?!{_NO_LETTERS})[A-HJ-PR-Y]{{3}}",
    # France since 2009 and before, Italy, others that share the shape.
    rf"(?!AC|DC|EN|MY)[A-HJ-NP-TV-Z]{{2}}(?P<between>[ -]?)[0-9]{{3}}(?P=between)(?!{_UNITS})[A-HJ-NP-TV-Z]{{2}}",
    rf"[0-9]{{2,4}}-(?!{_NO_LETTERS})[A-HJ-NP-TV-Z]{{2,3}}-[0-9]{{2}}",
    # The Netherlands, Portugal, Belgium: letters and digits in three groups with hyphens.
    r"[A-Z]{2}-[0-9]{2}-[A-Z]{2}|[A-Z]{2}-[A-Z]{2}-[0-9]{2}|[0-9]{2}-[A-Z]{2}-[0-9]{2}|[0-9]{2}-[0-9]{2}-[A-Z]{2}",
    rf"[0-9]{{2}}-[A-Z]{{2}}-[A-Z]{{2}}|[A-Z]-[0-9]{{3}}-[A-Z]{{2}}|[0-9]-(?!{_NO_LETTERS})[A-Z]{{3}}-[0-9]{{2,3}}",
    rf"[A-Z]{{2}}-[0-9]{{3}}-[A-Z]|[0-9]{{2}}-(?!{_NO_LETTERS})[A-Z]{{3}}-[0-9]|[0-9]-[A-Z]{{2}}-[0-9]{{3}}",
    # Spain, before 2000 and since, which has no vowels; years and capacities stand before names of models.
    r"[A-Z]{1,2}-[0-9]{4}-[A-Z]{1,2}",
    rf"(?!19|20|[0-9]{{2}}[05]0)[0-9]{{4}}[ -](?!{_NO_LETTERS})[BCDFGHJKLMNPRSTVWXYZ]{{3}}",
    # Ireland: year, county, number.
    r"(?:[0-9]{2}|[12][0-9][12])-(?:C|CE|CN|CW|D|DL|G|KE|KK|KY|L|LD|LH|LK|LM|LS|MH|MN|MO|OY|RN|SO|T|TN|TS|W|WD|WH|WW|"
    r"WX)-[0-9]{3,6}",
    # Switzerland with the dot that its plates have.
    r"(?:AG|AI|AR|BE|BL|BS|FR|GE|GL|GR|JU|LU|NE|NW|OW|SG|SH|SO|SZ|TG|TI|UR|VD|VS|ZG|ZH) ?[·•] ?[0-9]{1,6}",
)
_SHAPE = re.compile(rf"(?<![\w-])(?:{'|'.join(_SHAPES)})(?![\w-]|[.,][0-9])")
_WORDS = (
    r"[Nn]umber ?-?plates?|[Ll]icen[cs]e ?-?plates?|[Pp]late (?:no|number)|[Pp]lates?|[Rr]egistration|"
    r"[Rr]egistered|[Rr]eg|[Rr]ego|[Kk]ennzeichen|KFZ|Kfz|[Nn]ummernschild|[Kk]ontrollschild|[Ii]mmatriculation|"
    r"[Ii]mmatriculée?|[Pp]laque|[Pp]laca|[Tt]arga|[Mm]atr[ií]cula|[Kk]enteken|[Nn]ummerplaat|[Nn]ummerplade|"
    r"[Nn]ummerskilt|[Rr]egistreringsnummer|[Rr]egnr|[Rr]egskylt|[Rr]ejestracja|[Rr]ejestracyjn[aey]|[Tt]ablic[aey]|"
    r"SPZ|[Rr]endszám|[Rr]ekisterinumero|[Rr]ekisterikilpi|[Rr]egistarska|[Nn]úmeraplata"
)
_PLATES = (
    r"(?:(?:no|nr|number|is|was|ist|reads|reading|on it|says|mark|est|es|de|di|Nr|No)\.?[ :]{1,2}){0,2}"
    r"[\"'“„‘»«(]?(?P<plate>[A-ZÄÖÜ0-9]{1,7}(?:[ ·-][A-ZÄÖÜ0-9]{1,6}){0,3})(?!\w)"
)
_BY_WORD = re.compile(rf"(?<!\w)(?:{_WORDS})[ .:=#]{{1,3}}{_PLATES}")
_SMALL_BY_WORD = re.compile(
    r"(?<!\w)(?i:number ?plate|licen[cs]e plate|plate|registration|reg|rego|kennzeichen|kenteken|matr[ií]cula|targa)"
    r"(?:(?: (?:no|nr|number|is|was))?[ .:=#]{1,3})(?P<plate>"
    r"[a-z]{2}[0-9]{2} ?[a-z]{3}|[a-z]{1,3}-[a-z]{1,2}[ -]?[0-9]{1,4}|[a-z]{2}[ -]?[0-9]{3}[ -]?[a-z]{2}|"
    r"[0-9]{4}[ -]?[a-z]{3}|[a-z]{3}[ -]?[0-9]{3,4})(?!\w)"
)
_OTHER_PLATE = re.compile(
    r"(?:clutch|friction|steel|pressure|skid|bash|base|back|backing|stator|lock|cover|valve|type|data|bridge|top|swash|"
    r"reed|wear|mounting|adapter|bottom|number of|lead) $",
    re.IGNORECASE,
)
_NO_PLATE = re.compile(
    r"M[0-9]{1,2}(?:X[0-9]+)*|[PCBU][0-9]{4}|[0-9]+(?:V|A|W|MM|CM|KM|NM|KG|RPM|BAR|PSI|KPA|OHM|HZ|AH|CC|MI|EUR|W5W|H[147])?"
)
# From each capital and from each digit, since one that begins in two ways is looked for slowly.
_HYPHEN = re.compile("[A-ZÄÖÜ0-9]-(?:[A-ZÄÖÜ]|(?<=[A-ZÄÖÜ]-)[0-9])")
_LETTER_FIRST = re.compile("[A-Z](?:[0-9]{1,3}[ -]?[A-Z]{3}|[A-Z] ?[0-9]{3} ?[A-Z]{2}| ?[·•] ?[0-9])")
_DIGIT_FIRST = re.compile("[0-9]{4} [B-Z]{3}")
_HINTS = (
    *(
        "plate",
        "Plate",
        "PLATE",
        "egistr",
        "EGISTR",
        "reg ",
        "Reg ",
        "reg.",
        "Reg.",
        "reg:",
        "Reg:",
        "REG",
        "rego",
        "Rego",
    ),
    *("ennzeichen", "FZ", "fz", "ummernschild", "ummerplaat", "ummerplade", "ummerskilt", "ontrollschild", "regnr"),
    *("mmatriculat", "laque", "laca", "arga", "atric", "atríc", "enteken", "ejestracj", "ablic", "SPZ", "endszám"),
    *("ekisteri", "meraplata", "egskylt", "egnr"),
)
"""What stands in every text in which a word may name a plate."""


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    if any(look.search(flat) is not None for look in (_HYPHEN, _LETTER_FIRST, _DIGIT_FIRST)):
        return True
    if not has_any(flat, _HINTS):
        return False
    return _BY_WORD.search(flat) is not None or _SMALL_BY_WORD.search(flat) is not None


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like a plate; web addresses are left out."""
    return apart(_seen(without_urls(even(text))))


def _seen(flat: str) -> Iterator[Span]:
    yield from (Span(*match.span()) for match in _SHAPE.finditer(flat))
    for match in _BY_WORD.finditer(flat):
        plate = match["plate"]
        if _OTHER_PLATE.search(flat[max(0, match.start() - 12) : match.start()]) is None and _is_plate(plate):
            yield Span(*match.span("plate"))
    yield from (Span(*match.span("plate")) for match in _SMALL_BY_WORD.finditer(flat))


def _is_plate(text: str) -> bool:
    signs = re.sub("[ ·-]", "", text)
    if _NO_PLATE.fullmatch(signs) is not None:
        return False
    return 5 <= len(signs) <= 9 and not signs.isdigit() and not signs.isalpha()
