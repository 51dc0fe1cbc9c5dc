"""Words of a text as they are compared: folded, without endings, a club's equal words as one.

What matters is that two forms of a word become the same, not that the rest is a word.
"""

from __future__ import annotations

import functools
import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

import Stemmer

NOT: Final = "not"
"""Stands for every negation."""

_WORD = re.compile(r"[^\W_]+(?:[.,][0-9]+)*")
_APOSTROPHE = re.compile(r"['’`]")
_NEGATIONS = frozenset(
    re.findall(
        r"\w+",
        """
        not no never without cannot cant wont dont doesnt didnt isnt wasnt arent hasnt havent nothing nowt
        neither nor hardly barely scarcely
        """,
    )
)
_EMPTY = frozenset(
    re.findall(
        r"\w+",
        """
        a an the of and or to in on at by for from with it its is are was were be been being has have had do
        does did will would can could may might this that these those there then than as so if but when
        while once after before until where which who what how i you we they he she me my your our their one
        also only very too just still again into onto over under up down out off all any some each every
        more most much many same other such about because though although however
        """,
    )
)
"""Words that say nothing about a fault by themselves. Opposites are told from the whole text, these words included."""


_LONGEST = 40
"""Letters of the longest word that is looked at whole: whoever writes a longer one means to cost us time."""


def folded(text: str) -> str:
    """The text in lower case, without accents, ligatures taken apart, apostrophes closed up."""
    closed = _APOSTROPHE.sub("", text.casefold())
    if closed.isascii():
        return closed
    plain = unicodedata.normalize("NFKD", closed)
    return "".join(each for each in plain if not unicodedata.combining(each))


def words_of(text: str) -> list[str]:
    """The words of a text in order, folded, whole."""
    return _WORD.findall(folded(text))


def sequence(text: str) -> list[str]:
    """Every word in order, folded and without ending; a negation as `NOT`. Of one that is too long, the start."""
    return stemmed(words_of(text))


def stemmed(words: Iterable[str]) -> list[str]:
    """`sequence` of words that `words_of` gave."""
    return [NOT if word in _NEGATIONS else stem(word[:_LONGEST]) for word in words]


def written(texts: Iterable[str]) -> dict[str, str]:
    """Every word of the texts without its ending → a way in which it is written there."""
    return {stem(word): word for text in texts for word in _WORD.findall(folded(text))}


_OURS: Final = {"overheated": "overheat", "overheating": "overheat"}
"""What the algorithm gets wrong: it takes the `at` of such a word for a part of the ending."""
_ENDS = re.compile(r"[a-z]{4,}")
_STEMMER = Stemmer.Stemmer("english")


@functools.lru_cache(maxsize=65536)
def stem(word: str) -> str:
    """The word without its English ending; words of three letters, of other letters and with digits as they are.

    The endings are those of the Snowball stemmer for English, which `core/stem.js` takes off in the browser:
    `tests/browser/test_stem_js.py` holds the two together.
    """
    return _OURS.get(word) or (str(_STEMMER.stemWord(word)) if _ENDS.fullmatch(word) else word)


_EMPTY_STEMS = frozenset(stem(word) for word in _EMPTY)


def _first(way: tuple[str, ...], towards: dict[tuple[str, ...], tuple[str, ...]]) -> tuple[str, ...]:
    """Where a way leads in the end; what lies between leads there at once from then on."""
    passed = []
    while (following := towards.get(way, way)) != way:
        passed.append(way)
        way = following
    towards |= dict.fromkeys(passed, way)
    return way


class Equals:
    """Groups of words that mean the same: one of each group stands for all. Groups that share a word are one."""

    __slots__ = ("_firsts", "_instead")

    def __init__(self, groups: Iterable[Sequence[str]]) -> None:
        # Each way leads towards the simplest one of its group, so that long groups are no dearer than short ones.
        towards: dict[tuple[str, ...], tuple[str, ...]] = {}
        for group in groups:
            firsts = {_first(way, towards) for word in group if (way := tuple(sequence(word)))}
            if firsts:
                simplest = min(firsts, key=lambda way: (len(way), way))
                towards |= dict.fromkeys(firsts, simplest)
        self._instead = {way: "-".join(_first(way, towards)) for way in towards}
        self._firsts = {way[0] for way in self._instead}

    def applied(self, words: Sequence[str]) -> list[str]:
        """The words with each group's one in place of the others; of two-word names too (`side stand`)."""
        found: list[str] = []
        place = 0
        while place < len(words):
            # Most words begin nothing.
            for length in (3, 2, 1) if words[place] in self._firsts else ():
                way = tuple(words[place : place + length])
                if way in self._instead:
                    found.append(self._instead[way])
                    place += len(way)
                    break
            else:
                found.append(words[place])
                place += 1
        return found


def telling(words: Iterable[str]) -> list[str]:
    """The words without those that say nothing."""
    return [word for word in words if word not in _EMPTY_STEMS and (len(word) > 1 or word.isdigit())]


class Kin:
    """Groups of words of like meaning: each word may belong to several groups, and kin of kin are no kin.

    A name of a group may have several words.
    """

    __slots__ = ("_firsts", "_longer", "_single")

    def __init__(self, groups: Iterable[Sequence[str]], equals: Equals) -> None:
        found: dict[tuple[str, ...], list[int]] = {}
        for number, group in enumerate(groups):
            for way in {way for name in group if (way := tuple(equals.applied(sequence(name))))}:
                found.setdefault(way, []).append(number)
        longer: dict[tuple[str, ...], list[tuple[tuple[str, ...], list[int]]]] = {}
        for way in sorted(found, key=lambda way: (-len(way), way)):
            if len(way) > 1:
                longer.setdefault(way[:2], []).append((way, found[way]))
        self._longer = longer
        self._single = {way[0]: groups for way, groups in found.items() if len(way) == 1}
        self._firsts = {way[0] for way in found}

    def knows(self, word: str) -> bool:
        """Whether the word is a name of some group, or begins one."""
        return word in self._firsts

    def spans(self, words: Sequence[str]) -> Iterator[tuple[int, int, int]]:
        """Each group that words in a row name: its number, where they begin, and where they have ended.

        A name that holds a negation hides the names within: "not open" is not about "open".
        """
        hidden = 0
        for start, first in enumerate(words):
            if first not in self._firsts:
                continue
            # The longest ones first: what hides others has more than one word.
            for way, groups in self._longer.get((first, *words[start + 1 : start + 2]), ()):
                end = start + len(way)
                if end <= hidden or (len(way) > 2 and tuple(words[start:end]) != way):
                    continue
                yield from ((group, start, end) for group in groups)
                if NOT in way:
                    hidden = end
            if first in self._single and start >= hidden:
                yield from ((group, start, start + 1) for group in self._single[first])
                if first == NOT:
                    hidden = start + 1
