"""Texts cut into terms, the same in Python and in `core/words.js`: both are held to `tests/vectors/finder_words.json`.

A term is a word without accents, in lower case and without its English ending, so that `stalls`, `stalled` and
`stalling` are one (`kbtools.vocabulary.stems.stem`). A term is never shown, it need not be a word.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from kbtools.vocabulary.stems import stem

_WORD: Final = re.compile(r"[^\W_]+")
# Looked for at the start of a word only: in the middle of a long one it would be looked for at each letter.
_HYPHENED: Final = re.compile(r"(?<![^\W_])[^\W_]+(?:[-‐‑][^\W_]+)+")

_STOP_WORDS: Final = (
    "a after an and any are as at be been but by can do does did for from had has have he her his i if is "
    "it its just me my of or she so some than that the their then there they this to very was we were "
    "what when which while will with you your "
)
STOP_WORDS: Final = frozenset(_STOP_WORDS.split())
"""English words that say nothing about a fault. Words such as on, off, no, not, in and out are not among them."""


def words_of(text: str) -> list[str]:
    """The words of a text: lower case, without accents, letters and digits only."""
    return _WORD.findall(_folded(text))


def terms_of(text: str) -> list[str]:
    """The terms that a text of an entry is found by, in its order, stop words left out.

    Words with a hyphen between them stand for themselves and for the whole without it: `side-stand` is also found as
    `sidestand`.
    """
    folded = _folded(text)
    joined = [stem(_WORD_GAP.sub("", match[0])) for match in _HYPHENED.finditer(folded)]
    return [stem(word) for word in _WORD.findall(folded) if word not in STOP_WORDS] + joined


def group_terms(text: str, groups: Sequence[Sequence[Sequence[str]]]) -> list[str]:
    """A term for each time that a member of a group of equal words stands in the text, see `group_term`."""
    stems = [stem(word) for word in words_of(text)]
    return [
        group_term(number)
        for number, members in enumerate(groups)
        for member in members
        for _ in _places(member, stems)
    ]


def group_term(number: int) -> str:
    """The term for "any word of that group": no word contains the sign."""
    return f"={number}"


def members(groups: Iterable[Iterable[str]]) -> list[list[list[str]]]:
    """The groups of `words.yml`, each member as its stems: `side-stand` is two, and no member without any is left."""
    cut = [[[stem(word) for word in words_of(text)] for text in group] for group in groups]
    return [[list(each) for each in dict.fromkeys(tuple(each) for each in group if each)] for group in cut]


def sort_key(term: str) -> bytes:
    """The order in which JavaScript compares texts: by UTF-16 units."""
    return term.encode("utf-16-be", "surrogatepass")


_WORD_GAP: Final = re.compile(r"[\W_]+")


def _folded(text: str) -> str:
    if text.isascii():
        return text.lower()
    parts = unicodedata.normalize("NFD", text)
    return "".join(char for char in parts if not unicodedata.category(char).startswith("M")).lower()


def _places(member: Sequence[str], stems: Sequence[str]) -> Iterator[int]:
    length = len(member)
    return (at for at in range(len(stems) - length + 1) if list(stems[at : at + length]) == list(member))
