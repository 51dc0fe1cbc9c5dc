"""Texts cut into terms, the same in Python and in `core/words.js`: both are held to `tests/vectors/finder_words.json`.

A term is a word without accents, in lower case and without its English ending, so that `stalls`, `stalled` and
`stalling` are one (`kbtools.vocabulary.stems.stem`). A term is never shown, it need not be a word.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from typing import Final

from kbtools.vocabulary.stems import stem as without_ending

_WORD: Final = re.compile(r"[^\W_]+")
# Looked for at the start of a word only: in the middle of a long one it would be looked for at each letter.
_HYPHENED: Final = re.compile(r"(?<![^\W_])[^\W_]+(?:[-‐‑][^\W_]+)+")
_HYPHENS: Final = frozenset("-‐‑")

_STOP_WORDS: Final = (
    "a after all am an and any anybody anyone anything are as at be because been being bit but by can "
    "could did do does doing done else ever every for from get gets getting got gotta had has have having he help her "
    "hi hello hey his how i id if ill im is it its itself ive just know lot may me might much must my myself of or "
    "our please really say says seem seems shall she should so some somebody someone something than thanks that "
    "thats the theirs them then theres their there these they theyre they thing this those though to us very want "
    "wants was we were what whats when whenever where wheres whether which while who whos whose whys why will with "
    "would yes yet you your yours "
    "bike bikes motorbike motorcycle problem issue trouble"
)
STOP_WORDS: Final = frozenset(_STOP_WORDS.split())
"""English words that say nothing about a fault, those that only ask, and those that every entry is about. Words such
as on, off, not, in and out are not among them."""

_LIGHT_WORDS: Final = (
    "about absolutely actually again ago alone already also always another around away back basically before behind "
    "bit both come comes coming completely constantly down each either even ever few first give gives go goes going "
    "gone here in inside into keep keeps kind like little lots made make makes many maybe more most my near new next "
    "now off often old on once one only onto other out outside over own pretty properly put quite randomly rather "
    "same sort since slightly sometimes somehow soon still such suddenly take takes than then though through time "
    "times together too totally two under until unless up use used usually way well without"
)
LIGHT_WORDS: Final = frozenset(_LIGHT_WORDS.split())
"""Words that say little by themselves and much in a phrase: `goes out`, `back to front`."""

NOT: Final = "not"
_NOT_WORDS: Final = (
    "no not never none nothing without cannot cant wont dont doesnt didnt isnt wasnt arent werent hasnt havent hadnt "
    "wouldnt couldnt shouldnt aint neither nor dosnt dosent doesent"
)
NOT_WORDS: Final = frozenset(_NOT_WORDS.split())
"""Every negation is one term: `won't start`, `will not start` and `no start` are one."""


def words_of(text: str) -> list[str]:
    """The words of a text: lower case, without accents, letters and digits only; `won't` is one word."""
    return _WORD.findall(_folded(text))


def stem(word: str) -> str:
    """The term of a word: without its English ending, all negations one."""
    return NOT if word in NOT_WORDS else without_ending(word)


def terms_of(text: str) -> list[str]:
    """The terms that a text of an entry is found by, in its order, stop words left out.

    Words with a hyphen between them stand for themselves and for the whole without it: `side-stand` is also found as
    `sidestand`.
    """
    words, joined = cut(text)
    return [stem(word) for word in words if word not in STOP_WORDS] + [stem(word) for word in joined]


def cut(text: str) -> tuple[list[str], list[str]]:
    """The words of a text, and those of them that have hyphens between them, written together."""
    folded = _folded(text)
    words = _WORD.findall(folded)
    if _HYPHENS.isdisjoint(folded):
        return words, []
    return words, [_WORD_GAP.sub("", match[0]) for match in _HYPHENED.finditer(folded)]


def members(groups: Iterable[Iterable[str]]) -> list[list[list[str]]]:
    """The groups of `words.yml`, each member as its stems: `side-stand` is two, and no member without any is left."""
    cut = [[[stem(word) for word in words_of(text)] for text in group] for group in groups]
    return [[list(each) for each in dict.fromkeys(tuple(each) for each in group if each)] for group in cut]


def sort_key(term: str) -> bytes:
    """The order in which JavaScript compares texts: by UTF-16 units."""
    return term.encode("utf-16-be", "surrogatepass")


_WORD_GAP: Final = re.compile(r"[\W_]+")


_APOSTROPHE: Final = re.compile(r"(?<=[^\W_])['’ʼ`´](?=[^\W_])")


def _folded(text: str) -> str:
    closed = _APOSTROPHE.sub("", text)
    if closed.isascii():
        return closed.lower()
    parts = unicodedata.normalize("NFD", closed)
    return "".join(char for char in parts if not unicodedata.category(char).startswith("M")).lower()
