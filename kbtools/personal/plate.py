"""What looks like a number plate. Plates look like part numbers, so this is a guess, and only ever warned of.

A shape alone counts where hardly anything else has it; the plates of the other countries count behind a word such as
`plate` or `registration`, or where the words around tell of a machine that somebody saw (`plate_shapes`).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.plate_shapes import AROUND, HINTS, LIKELY, NAMES, SMALL, SURE
from kbtools.personal.span import Span, apart, even, has_any, without_underscores, without_urls

_START = (
    r"(?=[A-ZÄÖÜČŠŽĐ0-9Ѐ-ӿ一-鿿])(?<![\w-])(?<!\w/)(?=[^\W\d_a-z]{1,4}[ ·•-]{0,3}[^\W_a-z]|[0-9]{1,4}[ -]?[^\W_a-z])"
)
"""Only where a group of capitals or digits begins, with another behind it: the shapes are many, and such places few."""
_SHAPE = re.compile(rf"{_START}(?:{'|'.join(SURE)})(?![\w-]|[.,][0-9]|/\w)")
_SMALL = re.compile(rf"(?<![\w-])(?:{'|'.join(SMALL)})")
_SMALL_BY_DIGIT = re.compile(
    "[0-9](?:(?<=[a-z]{2}.)[0-9] [a-z]{3}|(?<=-[a-z]-.)[0-9]|(?<=-[a-z]{2}-.)[0-9]|(?<=[a-z]-.)[0-9]{3,4}[a-z])"
)
"""From each digit, since those are rare."""
_LIKELY = re.compile(rf"{_START}(?:{'|'.join(LIKELY)})(?![\w-]|[.,][0-9]|/\w)")
_NEAR = 30
"""Characters before and behind a likely shape in which a word counts."""
_BETWEEN = (
    r"(?:(?:no|nr|number|is|was|ist|lautet|reads|reading|on it|says|said|mark|est|es|de|di|är|er|to|jest|the|as|of|"
    r"on|do|da|del|della|"
    r"der|des|van|my|his|her|its|carro|moto|mota|bike|motor|maschine|machine|motorrad|motorcycle|car|trailer|back|"
    r"photo|has|like)\.?[ "
    r":]{1,2}){0,4}"
)

_BY_WORD = re.compile(
    rf"(?<!\w)(?P<word>{NAMES})(?:[ .:=#-]{{1,3}}| \()(?P<between>{_BETWEEN})[\"'“„‘»«(]?"
    r"(?P<plate>[A-ZÄÖÜÅØČŠŽ0-9]{1,8}(?:[ ·•.-][A-ZÄÖÜÅØČŠŽ0-9]{1,6}){0,3})(?!\w)",
    re.IGNORECASE,
)
_OTHER_PLATE = re.compile(
    r"(?:clutch|friction|steel|pressure|skid|bash|base|back|backing|stator|lock|cover|valve|type|data|bridge|top|swash|"
    r"reed|wear|rating|name|mounting|adapter|bottom|number of|lead|vin|part|serien|teile|artikel|bestell|frame|"
    r"chassis) ?$",
    re.IGNORECASE,
)
_NO_PLATE = re.compile(
    r"M[0-9]{1,2}(?:X[0-9]+)*|[PCBU][0-9]{4}|[0-9]+(?:V|A|W|MM|CM|KM|NM|KG|RPM|BAR|PSI|KPA|OHM|HZ|AH|CC|MI|EUR|W5W|"
    r"H[147])?|"
    r"[0-9A-Z]+(?:MM|KM|NM|RPM|BAR|PSI|OHM)"
)
_READING = re.compile(r"[0-9]+ ?(?:V|A|W|VA|AH|MM|CM|KM|NM|KG|HZ|KW|PS|HP|BAR|OHM|RPM|CC)(?![A-Z0-9])")
_SMALL_WORDS = frozenset(
    [
        *(
            "at",
            "to",
            "is",
            "of",
            "on",
            "in",
            "no",
            "and",
            "for",
            "the",
            "was",
            "had",
            "has",
            "with",
            "by",
            "my",
            "its",
        ),
        *("it", "or", "off", "ok", "new", "old", "out", "up", "not", "but", "one", "two", "six", "ten", "all", "are"),
        *("had", "get", "got", "put", "see", "dry", "wet", "hot", "bad", "set", "ran", "run", "so", "as", "an", "if"),
        *("be", "we", "he", "she", "they", "rpm", "mm", "cm", "km", "nm", "kg", "bar", "psi", "ohm", "ma", "mv", "kw"),
        *("hz", "ah", "eur", "cc", "mi", "min", "sec", "und", "bei", "mit", "von", "am", "im", "zum", "der", "die"),
        *("das", "ab", "auf", "aus", "et", "en", "au", "du", "le", "la", "les", "un", "con", "el", "de", "per", "il"),
        *("page", "year", "pin", "pins", "than", "then", "from", "after", "about", "ca", "v", "a", "w", "s", "h", "m"),
        *("fig", "item", "part", "case", "code", "lamp", "bulb", "led", "bolt", "size", "step", "type", "over", "only"),
        *("may", "jan", "feb", "mar", "apr", "jun", "jul", "aug", "sep", "oct", "nov", "dec", "kmh", "mph", "each"),
    ]
)
"""What small letters in a plate are not: `reg at 4000`."""
_WEAK_WORDS = frozenset(["reg", "tag", "tags", "schild", "nummer", "kz", "rz", "chapa", "kilpi", "номер", "numărul"])
"""Behind which another number often stands, so two letters and a digit are asked for, and capitals."""
# From each capital and from each digit, since one that begins in two ways is looked for slowly.
_HYPHEN = re.compile("[A-ZÄÖÜ0-9]-(?:[A-ZÄÖÜ]|(?<=[A-ZÄÖÜ]-)[0-9])")
_BESIDE = re.compile("[0-9](?:[ ·•-]?[A-ZÄÖÜČŠŽ]|(?<=[A-ZÄÖÜČŠŽ].)|(?<=[A-ZÄÖÜČŠŽ][ ·•-].)|(?<=[A-ZČŠŽ] [·•-] .))")
"""A digit beside a capital, as every plate has that is not behind a word."""
_OTHER_SCRIPT = re.compile("[ぁ-ん一-鿿가-힣А-Я]")


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = _made_even(text)
    if not flat.isascii() and _OTHER_SCRIPT.search(flat) is not None:
        return True
    small = flat.lower()
    if _SMALL_BY_DIGIT.search(flat) is not None and _SMALL.search(flat) is not None:
        return True
    if _BESIDE.search(flat) is not None and (_SHAPE.search(flat) is not None or has_any(small, AROUND)):
        return True
    return has_any(small, HINTS) and _BY_WORD.search(flat) is not None


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like a plate; web addresses are left out."""
    if may_hold(text):
        yield from apart(_seen(without_urls(_made_even(text))))


def _made_even(text: str) -> str:
    return without_underscores(even(text))


def _seen(flat: str) -> Iterator[Span]:
    for pattern in (_SHAPE, _SMALL):
        yield from (Span(*match.span()) for match in pattern.finditer(flat))
    for match in _BY_WORD.finditer(flat):
        before = flat[max(0, match.start() - 12) : match.start()]
        end = _plate_end(match) if _OTHER_PLATE.search(before) is None else None
        if end is not None:
            yield Span(match.start("plate"), end)
    if has_any(flat.lower(), AROUND):
        for match in _LIKELY.finditer(flat):
            near = flat[max(0, match.start() - _NEAR) : match.end() + _NEAR].lower()
            if has_any(near, AROUND) and _is_plate(match[0].upper()):
                yield Span(*match.span())


def _plate_end(match: re.Match[str]) -> int | None:
    """Where the plate ends that stands behind a word for one: the most groups that make one."""
    weak = match["word"].lower() in _WEAK_WORDS
    ends = [
        match.end("plate"),
        *(match.start("plate") + each.start() for each in reversed([*_GAP.finditer(match["plate"])])),
    ]
    for end in ends:
        raw = match.string[match.start("plate") : end]
        groups = _GAP.split(raw)
        if any(each in _SMALL_WORDS or (each.isalpha() and len(each) > 4) for each in groups):
            continue
        if raw.upper() != raw and (
            (weak and "-" not in raw) or any(each != each.lower() and each != each.upper() for each in groups)
        ):
            continue
        if _is_plate(raw.upper(), least=5 if weak or raw != raw.upper() or len(groups) == 1 else 4):
            return end
    return None


_GAP = re.compile("[ ·•.-]")


def _is_plate(text: str, least: int = 5) -> bool:
    signs = _GAP.sub("", text)
    if _NO_PLATE.fullmatch(signs) is not None or _READING.match(text) is not None:
        return False
    return least <= len(signs) <= 10 and not signs.isdigit() and not signs.isalpha()
