"""What looks like a street and a house number, or like a post code and a town, in several languages.

A guess, and only ever warned of. The words and what they make stand in `address_words`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.address_words import PATTERNS, WORDS
from kbtools.personal.span import Span, apart, even, has_any, without_urls

_ADDRESS = re.compile("|".join(PATTERNS))
_BEHIND = (
    *("aße", "sse", "tr.", "lee", "weg", "Weg", "atz", "amm", "fer", "aat", "aan", "cht", "ein", "ade", "gel", "eeg"),
    *("ijk", "eef", "tan", "ata", "ate", "gen", "ien", "vej", "vei", "æde", "änd", "get", "ken", "atu", "uja", "lku"),
    *("ari", "tie"),
)
"""How the words for streets end that are the end of their name."""
_BY_DIGIT = re.compile(
    # Digits are rare, so a look from each of them, forwards and backwards, costs little. Town or post code behind; a
    # letter of the house behind a capital; two numbers behind Czech names; streets that are counted.
    r"[0-9](?:(?<=[Nn]o: .)|(?<=str\..)|[0-9A-Z]? [0-9][A-Z]{2}(?!\w)|[0-9]{3,4} ?(?:[A-Z]{2},? "
    r")?[A-ZÀ-ÖØ-ÞŁŚŻŽŠČŘ][^\W\d_A-Z]{3}|"
    r"[0-9]{2} [A-ZÀ-ÖØ-ÞŁŚŻŽŠČŘ][^\W\d_A-Z]{3}|[0-9] [A-ZÀ-ÖØ-ÞŁŚŻŽŠČŘ][^\W\d_A-Z]{3}|"
    r"(?: ?(?:bis|ter))?,? place |[A-Z] [0-9][A-Z][0-9]|[0-9] [A-Z0-9]{4}(?![\w.-])|(?<=[a-z] [0-9])(?:[0-9]{0,2} "
    r"?[a-h](?!\w)|[0-9]{0,2},? (?:[0-9]{4,5} )?(?:in )?[A-ZÄÖÜ][a-zäöüß]{2})|"
    r"(?<=[áíchaí] [0-9])[0-9]{0,3}/[0-9]|(?<=[A-Z]{2} [0-9])[0-9]{3}(?:[0-9](?!\w|[.,:]?[0-9])|(?!\w))|(?<=[a-z], "
    r"[0-9])[0-9]{4}(?!\w|[.,]?[0-9])|"
    r"-[0-9]{1,3}(?:-[0-9]{1,3})? [A-Z]|(?<=[一-鿿가-힣][0-9])|(?<=[一-鿿가-힣] [0-9])|(?<=[a-z]-[a-z]{2} [0-9])|"
    r"(?<=cho [0-9])|" + "|".join(f"(?<={re.escape(each)} [0-9])" for each in _BEHIND) + ")"
)
_HINTS = (
    *(
        " The ",
        "gasse-",
        "strasse-",
        "straße-",
        "allee-",
        "straat-",
        "laan-",
        "gatan-",
        " Dijk ",
        " Plein ",
        " Gracht ",
    ),
    *(" Kade ", " Singel ", " Steeg ", " Hof ", " Dreef "),
    *(
        "C/",
        "C. ",
        "Pº",
        "R. ",
        "V.le",
        "P.zza",
        "C.so",
        "u. ",
        "PO Box",
        "PO box",
        "po box",
        "P.O",
        "p.o",
        "Unit ",
        "Plot ",
        "Shop ",
        "ost code",
        "pin code",
    ),
    *("ohn", "dresse", "nschrift", "bhol", "bzuhol", "Hause", "aheim", "arage", "alle ", "steht", "Post an", "esuch"),
)
_WORD = re.compile(r"[^\W\d_]+º?")


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    if _BY_DIGIT.search(flat) is not None or not WORDS.isdisjoint(_WORD.findall(flat)):
        return True
    return has_any(flat, _HINTS)


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like an address; web addresses are left out."""
    if may_hold(text):
        flat = without_urls(even(text))
        yield from apart(Span(*match.span()) for match in _ADDRESS.finditer(flat))
