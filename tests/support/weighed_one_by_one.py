"""The finder's weights reckoned one by one, for what is reckoned with arrays to be held against."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np

from kbtools.browser_data.finder import bm25, near
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.lent import LENDS, MOST_TEXTS, MOST_WORDS
from kbtools.browser_data.finder.phrases import whole_clauses
from kbtools.browser_data.finder.postings import KIND_WEIGHTS
from kbtools.browser_data.finder.terms import LIGHT_WORDS, STOP_WORDS, stem, terms_of, words_of

Weights = dict[str, dict[int, float]]
"""Term → place of an entry → weight."""
Near = dict[str, tuple[float, float]]
"""Term → as how often it counts, and what it then weighs."""


def bm25_weights(documents: Sequence[Mapping[str, Iterable[str]]], by_field: Mapping[str, int]) -> Weights:
    """The weights of terms that stand in documents, by the formulas of `bm25`."""
    counted = [_counted(each, by_field) for each in documents]
    dampings = bm25.dampings(np.array([sum(each.values()) for each in counted], np.float64)).tolist()
    having = Counter(term for each in counted for term in each)
    rare = dict(zip(having, bm25.rarities(np.array([*having.values()]), len(documents)).tolist(), strict=True))
    found: Weights = {}
    for place, counts in enumerate(counted):
        for term, count in counts.items():
            found.setdefault(term, {})[place] = count / (count + dampings[place]) * rare[term]
    return found


def weighed(found: Sequence[Entry], kin: KinOf) -> Weights:
    """The weights of all terms of entries."""
    fields = [{"title": (entry.title,), **entry.fields} for entry in found]
    cut = [{name: [term for text in texts for term in terms_of(text)] for name, texts in row.items()} for row in fields]
    counted = [_counted(each, bm25.WEIGHTS) for each in cut]
    lengths = [sum(counts.values()) for counts in counted]
    usual = sum(lengths) / len(lengths) if any(lengths) else 1.0
    dampings = [bm25.K1 * (1 - bm25.B + bm25.B * length / usual) for length in lengths]
    weights: Weights = {}
    for place, counts in enumerate(counted):
        for term, count in counts.items():
            weights.setdefault(term, {})[place] = count / (count + dampings[place])
    having = {term: float(len(places)) for term, places in weights.items()}
    own = frozenset(having)
    lends = _lent(found)
    for place, entry in enumerate(found):
        for term, (often, factor) in _heavier(_kin(entry, kin), lends[place]).items():
            places = weights.setdefault(term, {})
            weight = factor * often / (often + dampings[place])
            if weight > places.get(place, 0.0):
                if place not in places and (factor >= bm25.LEAST_HAVING or term not in own):
                    having[term] = having.get(term, 0.0) + factor
                places[place] = weight
    for term, places in weights.items():
        rare = math.log(1 + (len(found) - having[term] + 0.5) / (having[term] + 0.5))
        for place in places:
            places[place] = places[place] * rare * KIND_WEIGHTS.get(found[place].kind, 1)
    return weights


def _counted(entry: Mapping[str, Iterable[str]], by_field: Mapping[str, int]) -> Counter[str]:
    counts: Counter[str] = Counter()
    for field, terms in entry.items():
        for term in terms:
            counts[term] += by_field.get(field, 1)
    return counts


def _kin(entry: Entry, kin: KinOf) -> Near:
    found: Near = {}
    for name, text in _texts(entry):
        for term, weight in kin.of(text).items():
            often, before = found.get(term, (0.0, 0.0))
            more = often + bm25.WEIGHTS[name] * weight**near.ROOT
            found[term] = (min(near.MOST_OFTEN, more), max(before, weight))
    if entry.kind == "fault":
        for name, text in _texts(entry):
            if name in near.CLAUSE_FIELDS:
                found |= dict.fromkeys(whole_clauses(text), (near.OF_CLAUSE, 1.0))
    return found


def _texts(entry: Entry) -> Iterator[tuple[str, str]]:
    if entry.kind not in {"model", "code"}:
        yield "title", entry.title
        yield from ((name, text) for name, texts in entry.fields.items() if name in near.FIELDS for text in texts)


def _heavier(one: Near, other: Near) -> Near:
    mine = {term: row for term, row in one.items() if term not in other or math.prod(row) >= math.prod(other[term])}
    return {**other, **mine}


def _lent(found: Sequence[Entry]) -> list[Near]:
    every: list[Near] = []
    for entry in found:
        words: Near = {}
        for kind, texts in entry.lenders.items():
            for term, count in Counter(term for text in texts for term in _lending(text)).items():
                often, factor = words.get(term, (0.0, 0.0))
                words[term] = (max(often, float(min(count, MOST_TEXTS))), max(factor, LENDS[kind]))
        every.append(words)
    having = Counter(term for words in every for term in words)

    def telling(row: tuple[str, tuple[float, float]]) -> tuple[float, str]:
        term, (count, weight) = row
        rare = math.log(1 + (len(found) - having[term] + 0.5) / (having[term] + 0.5))
        return (-count * weight * rare, term)

    return [dict(sorted(words.items(), key=telling)[:MOST_WORDS]) for words in every]


def _lending(text: str) -> set[str]:
    return {stem(word) for word in words_of(text) if word not in STOP_WORDS and word not in LIGHT_WORDS}
