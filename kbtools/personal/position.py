"""Positions on the earth: pairs of degrees, links to maps, codes of places.

A single number of degrees is none: `5 degrees` of ignition, `90 °C`. Nor is a pair that is not exact: two places behind
the point are a kilometre, so they count behind a word for a position only.

Sources: ISO 6709 (order, signs, up to 90 and 180 degrees), RFC 5870 (`geo:`), the alphabet of open location codes, the
bands and squares of UTM and MGRS.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, apart, even, has_any

_LAT, _LON = r"[+-]?[0-9]{1,2}[.,][0-9]", r"[+-]?[0-9]{1,3}[.,][0-9]"
_UNIT = (
    r"(?!\w|[.,][0-9]| ?(?:mm|cm|m|in|inch|inches|mil|V|mV|A|mA|W|Ω|ohms?|kΩ|bar|psi|kPa|hPa|Nm|kg|g|s|ms|Hz|%|EUR|€|"
    r"\$|£|L|l|ml|cc|°C|°F)(?!\w))"
)
_NO_ROW_BEFORE = r"(?:(?<![\w.,+-])|(?<=_))(?<![0-9][,;/] )(?<![0-9][;/])"
_NO_ROW_BEHIND = r"(?!,? ?(?:[,;/]|and|und|to) ?[0-9]+[.,][0-9])"
"""Three numbers and more are readings."""
_DEGREES = re.compile(
    r"(?<![\w.-])[0-9]{1,2}[-:][0-9]{1,2}[-:][0-9]{1,2}(?:[.,][0-9]{1,3})? ?[NS][ "
    r",;/]{1,3}[0-9]{1,3}[-:][0-9]{1,2}[-:][0-9]{1,2}"
    r"(?:[.,][0-9]{1,3})? ?[EWO](?!\w)"
)
"""Minutes and seconds behind hyphens, as in logs."""
_NAMED = re.compile(
    rf"(?<!\w)(?:lat(?:itude?)?|breite(?:ngrad)?|latitud|latitudine|breedte(?:graad)?|szerokość|szer|bredd|bredde|"
    rf"northing|n|y|x)\.?[ :=]{{0,3}}"
    rf"(?P<lat>{_LAT}{{2,12}})°? ?[NS]?[ ,;/|&]{{1,3}}(?:(?:and|und|et|y|e|en|i|og|och) )?"
    rf"(?:lo?ng?(?:itude?|itud|itudine)?|länge(?:ngrad)?|lengte(?:graad)?|długość|dług|längd|lengde|længde|easting|"
    rf"e|o|w|x|y)\.?[ :=]{{0,3}}"
    rf"(?P<lon>{_LON}{{2,12}})°?{_UNIT}",
    re.IGNORECASE,
)
_PAIR = re.compile(
    rf"{_NO_ROW_BEFORE}(?P<lat>{_LAT}{{4,12}})°?(?: ?[,;|_] ?| / | {{1,2}})"
    rf"(?P<lon>{_LON}{{4,12}})(?!\w|[.,][0-9])°?{_UNIT}{_NO_ROW_BEHIND}"
)
_CUE = (
    r"(?:gps|geo|pos|position|posición|posizione|standort|koordinat\w{1,3}|coord\w{0,9}|location|lat(?:itude)?|lage|"
    r"fix|"
    r"waypoint|wegpunkt|punto|parked|garage|meet)"
)
_NEAR_A_WORD = re.compile(
    rf"(?<!\w){_CUE}[ .:=(\[\"']{{1,4}}(?:(?:is|at|of|by|lon|in|the|my|our|bei|point|ist)[ :=]{{1,2}}){{0,3}}"
    rf"(?P<lat>{_LAT}{{2,12}})°?[\"']?[ ,;/|]{{1,3}}(?:and )?[\"']?(?:lo?ng?(?:itude)?[\"']?[ :=]{{0,3}}[\"']?)?"
    rf"(?P<lon>{_LON}{{2,12}})°?{_UNIT}",
    re.IGNORECASE,
)
_IN_ADDRESS = re.compile(
    r"(?:[@=/#:,]|!3d|%20|%40)(?P<lat>-?[0-9]{1,2}\.[0-9]{3,12})(?:,|%2C|%20|/|\+|,\+|!4d|&\w{1,9}=|~|_)"
    r"(?P<lon>[+-]?[0-9]{1,3}\.[0-9]{3,12})(?![0-9])",
    re.IGNORECASE,
)
"""In links: `#map=15/52.5200/13.4050`, `?q=52.5200,13.4050`, `@52.5200,13.4050,15z`."""
_WEB = re.compile(r"(?:https?://|www\.|maps?\.)[^\s<>\"]{1,400}", re.IGNORECASE)
_ONE = (
    r"(?P<degrees{0}>[0-9]{{1,3}}(?:[.,][0-9]{{1,8}})?) ?(?:°|º|˚|deg\.?|degrees)? ?"
    r"(?:(?P<minutes{0}>[0-9]{{1,2}}(?:[.,][0-9]{{1,6}})?) ?(?:'|′|’|´|min\.?)? ?)?"
    r"(?:(?P<seconds{0}>[0-9]{{1,2}}(?:[.,][0-9]{{1,4}})?) ?(?:\"|″|”|''|′′|sec\.?)? ?)?"
)
_NS = "(?:[NS]|nördlicher Breite|südlicher Breite|North|South|north|south|Nord|Süd|Sud)"
_EW = "(?:[EWO]|östlicher Länge|westlicher Länge|East|West|east|west|Ost|Est|Ouest)"

_THEN = (
    r"[ ,;/]{0,3}(?:(?:and|und|et|y|e|by|GPSLongitude|[Ll]ongitude|Länge|[Ll]on(?:gitude)?|[Ll]ng|[Ll]ong)[ :=]{1,2})?"
)
_BEHIND = re.compile(rf"(?<![\w.,]){_ONE.format(1)}{_NS}(?!\w){_THEN}{_ONE.format(2)}{_EW}(?!\w)")
_BEFORE = re.compile(rf"(?<!\w){_NS} ?{_ONE.format(1)}{_THEN}{_EW} ?{_ONE.format(2)}(?!\w)")
_MARKED = re.compile(
    r"(?<![\w.])[0-9]{1,2}°[ ]?[0-9]{1,2}['′’] ?[0-9]{1,2}(?:[.,][0-9]{1,4})?(?:\"|″|”|'')[ ,;/]{1,3}"
    r"[0-9]{1,3}°[ ]?[0-9]{1,2}['′’] ?[0-9]{1,2}(?:[.,][0-9]{1,4})?(?:\"|″|”|'')"
)
_CODES = re.compile(
    r"(?<!\w)geo:-?[0-9]{1,2}(?:\.[0-9]+)?,-?[0-9]{1,3}(?:\.[0-9]+)?"
    # ISO 6709 in one piece.
    r"|(?<![\w.])[+-][0-9]{2}(?:[0-9]{2}){0,2}\.[0-9]{2,8}[+-][0-9]{3}(?:[0-9]{2}){0,2}\.[0-9]{2,8}(?![0-9.])"
    r"|(?<![\w.])[+-][0-9]{2}(?:[0-9]{2}){1,2}[+-][0-9]{3}(?:[0-9]{2}){1,2}/"
    # Open location code.
    r"|(?<!\w)[23456789CFGHJMPQRV][23456789CFGHJMPQRVWX]{7}\+[23456789CFGHJMPQRVWX]{2,3}(?!\w)"
    # Three words for a square.
    r"|(?<![\w:/])///[^\W\d_]{3,20}\.[^\W\d_]{3,20}\.[^\W\d_]{3,20}"
    r"|(?<!\w)(?:what3words|w3w)(?:[ :]{1,2}(?:is |are )?)[^\W\d_]{3,20}\.[^\W\d_]{3,20}\.[^\W\d_]{3,20}"
    # The national grid of Britain and others, and the locator of radio amateurs, behind a word.
    r"|(?<!\w)(?i:grid ref(?:erence)?|os ?gb|ngr|os grid|map ref(?:erence)?)[ .:]{1,3}[A-Z]{2} ?[0-9]{3,5} "
    r"?[0-9]{3,5}(?!\w)"
    r"|(?<!\w)[HNOST][A-HJ-Z] ?[0-9]{5} [0-9]{5}(?!\w)"
    r"|(?<!\w)(?i:locator|qth|maidenhead)[ :]{1,2}[A-R]{2}[0-9]{2}[A-Xa-x]{2}(?:[0-9]{2})?(?!\w)"
    # A short code of a place needs its town.
    r"|(?<![\w+])[23456789CFGHJMPQRVWX]{4}\+[23456789CFGHJMPQRVWX]{2,3},? [A-Z][a-z]{2}"
    # UTM and MGRS.
    r"|(?<!\w)[0-6]?[0-9][C-HJ-NP-X] ?[1-8][0-9]{5}(?:\.[0-9]+)?m?E? [0-9]{7}(?:\.[0-9]+)?m?N?(?!\w)"
    r"|(?<!\w)[0-6]?[0-9][C-HJ-NP-X] ?[A-HJ-NP-Z][A-HJ-NP-V] ?[0-9]{4,5} ?[0-9]{4,5}(?!\w)"
    # Links to a place that name no degrees.
    r"|(?<!\w)(?:maps\.app\.goo\.gl|goo\.gl/maps|osm\.org/go|w3w\.co)/[\w.+-]+"
)
# From each digit, and from each capital: others are too many.
_QUICK_DIGIT = re.compile(
    r"[0-9](?:[.,][0-9]{4}|\.[0-9]{3}[^ ]|(?:°|º|˚|'|′|’|´|\"|″|”| ?deg\w*| ?min| ?sec)?[ .]{0,2}"
    r"(?:[NSEWO](?![A-Za-z0-9])|nördl|südl|North|South|north|south|Nord|Süd|Sud)|[\"″”'] |[0-9]{3}[+-][0-9]|"
    r"[0-9]{5}(?:\.[0-9]+)?m?E? [0-9]{7}|[C-X] ?[1-8][0-9]{5}|[C-X] ?[A-Z]{2} ?[0-9]{4}|"
    r"[.,][0-9]{2,12}°?[\"']?[ ,;/|]{1,3}(?:and )?[\"']?(?:[Ll]o?ng?\w*[\"']?[ :=]{0,3}[\"']?)?"
    r"[+-]?[0-9]{1,3}[.,][0-9]{2})"
)
_QUICK_LETTER = re.compile(r"[NS](?<![A-Za-z].) ?[0-9]{1,3}[.,° ]|[2-9CFGHJMPQRVWX]{4}\+[2-9CFGHJMPQRVWX]{2}")
_HINTS = (
    *(
        "what3words",
        "w3w",
        "grid",
        "Grid",
        "GRID",
        "OSGB",
        "os gb",
        "NGR",
        "ngr",
        "map ref",
        "Map ref",
        "ocator",
        "QTH",
        "qth",
    ),
    *("LOCATOR", "MAP REF", "Map Ref", "aidenhead", "OS GB"),
    *("geo:", "///", "goo.gl", "osm.org/go", "w3w.co"),
    *("North ", "South ", "north ", "south ", "Nord ", "Süd ", "Sud "),
)


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    return _QUICK_DIGIT.search(flat) is not None or _QUICK_LETTER.search(flat) is not None or has_any(flat, _HINTS)


def find(text: str) -> Iterator[Span]:
    """Every position of a text, also in web addresses."""
    if may_hold(text):
        yield from apart(_seen(even(text)))


def _seen(flat: str) -> Iterator[Span]:
    for pattern in (_PAIR, _NEAR_A_WORD, _NAMED):
        yield from (Span(*each.span()) for each in pattern.finditer(flat) if _is_on_earth(each["lat"], each["lon"]))
    for address in _WEB.finditer(flat):
        for each in _IN_ADDRESS.finditer(flat, *address.span()):
            if _is_on_earth(each["lat"], each["lon"]):
                yield Span(each.start("lat"), each.end())
    for pattern in (_BEHIND, _BEFORE):
        yield from (Span(*each.span()) for each in pattern.finditer(flat) if _is_exact(each))
    for pattern in (_MARKED, _DEGREES, _CODES):
        yield from (Span(*each.span()) for each in pattern.finditer(flat))


def _is_on_earth(lat: str, lon: str) -> bool:
    north, east = (abs(float(each.replace(",", "."))) for each in (lat, lon))
    # Two lengths below a millimetre or an inch are no position: there is no land near 0 and 0.
    return north <= 90 and east <= 180 and north + east > 2


def _is_exact(match: re.Match[str]) -> bool:
    """Whether both angles are on the earth, and both have minutes or at least two decimals."""
    for number, most in (("1", 90), ("2", 180)):
        degrees, minutes = match[f"degrees{number}"].replace(",", "."), match[f"minutes{number}"]
        if float(degrees) > most or (minutes is None and len(degrees.partition(".")[2]) < 2):
            return False
    return True
