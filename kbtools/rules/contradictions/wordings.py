"""Whether two short texts say the same, in other words perhaps, or clearly something else."""

from __future__ import annotations

import functools
import re
import unicodedata
from collections.abc import Callable, Mapping

from rapidfuzz import fuzz

from kbtools.index.per_base import per_base
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase

_CLEARLY_OTHER = 55.0
"""Below this similarity of their words (0 to 100) two meanings are not the same one in other words.

Set on pairs of wordings of one meaning and of different ones, in `tests/rules/test_contradictions.py`.
"""

_ONE_WORD = 80.0
"""Similarity of letters (0 to 100) from which two words are one with another ending."""

_WORD = re.compile(r"[^\W_]+")
_EMPTY_TEXT = "a an and at by for from has in is it its of on or the to too with"
_EMPTY = frozenset(_EMPTY_TEXT.split())
_KIND_TEXT = (
    "circuit sensor switch signal unit control system position value range low high open short fault front rear left "
    "right no not out lost missing implausible intermittent detected limit input output performance"
)
_KINDS = frozenset(_KIND_TEXT.split())
"""Words that stand in the meanings of codes of every sort and say little about what each is of."""


@per_base
def same_words(base: KnowledgeBase) -> Mapping[str, str]:
    """Word → the first of its group, of the groups in `words.yml` whose members are single words."""
    known = {each: group[0] for group in vocabulary(base).codes for each in group}
    for group in base.words.groups:
        folded = [fold(each) for each in group.phrases] if group.kind != "kin" else []
        for each in folded:
            known.setdefault(each, known.get(folded[0], folded[0]))
    return known


def contrary_in(base: KnowledgeBase) -> Callable[[tuple[str, ...], tuple[str, ...]], bool]:
    """Whether two lists of words (see `words`) clearly say something else, as the base's vocabulary has it."""
    excluding = vocabulary(base).excluding

    @functools.lru_cache(maxsize=4096)
    def told(left: tuple[str, ...], right: tuple[str, ...]) -> bool:
        return _contrary(left, right, excluding)

    def contrary(left: tuple[str, ...], right: tuple[str, ...]) -> bool:
        # Without any word they say nothing.
        return bool(left) and bool(right) and left != right and told(*sorted((left, right)))

    return contrary


def fold(text: str) -> str:
    """Lower case, without accents, punctuation and doubled spaces: for comparing, never for showing."""
    plain = unicodedata.normalize("NFKD", text).casefold()
    return " ".join(_WORD.findall("".join(each for each in plain if not unicodedata.combining(each))))


def words(text: str, same: Mapping[str, str]) -> tuple[str, ...]:
    """The words that carry the meaning, sorted, each for its group."""
    found = {same.get(each, each) for each in fold(text).split() if each not in _EMPTY}
    return tuple(sorted(found))


def _contrary(left: tuple[str, ...], right: tuple[str, ...], excluding: Mapping[str, frozenset[str]]) -> bool:
    for one, other in ((left, right), (right, left)):
        for word in one:
            against = excluding.get(word, frozenset())
            # Texts that differ in such a word alone are alike to a count of letters, and say the contrary.
            if word not in other and not against.isdisjoint(other) and against.isdisjoint(one):
                return True
    numbers = [{each for each in words if each.isdecimal()} for words in (left, right)]
    if all(numbers) and not numbers[0] & numbers[1]:
        return True
    about = [[each for each in words if each not in _KINDS and not each.isdecimal()] for words in (left, right)]
    if all(about) and not any(fuzz.ratio(one, other) >= _ONE_WORD for one in about[0] for other in about[1]):
        return True
    return fuzz.token_set_ratio(" ".join(left), " ".join(right)) < _CLEARLY_OTHER
