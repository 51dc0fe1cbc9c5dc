"""Is there something like this already? A text that somebody is about to write, against every entry."""

from __future__ import annotations

import functools
import heapq
from collections.abc import Mapping
from dataclasses import replace

from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case, Outcome, Vehicle
from kbtools.model.codes import read_code
from kbtools.model.fault import CodeRow, Fault
from kbtools.similarity.cases import ReadyCase, ready_cases
from kbtools.similarity.comparison import comparable
from kbtools.similarity.engine import Field, Match, Matcher
from kbtools.similarity.faults import code_alike
from kbtools.similarity.features import Readier
from kbtools.similarity.lexicon import Lexicon
from kbtools.similarity.likeness import sets
from kbtools.similarity.pairs import Kind, Pair, comparable_cases
from kbtools.similarity.ready import ReadyFault

LEAST = 0.4
"""The score from which an entry is shown for a text: so much of what the text says, the entry says too."""
_MOST = 10
"""So many entries are shown."""


def like_text(base: KnowledgeBase, kind: Kind, text: str, *, least: float | None = None) -> list[Pair]:
    """The entries that are most like a text, best first; the text stands for the first of each pair.

    Args:
        base: the knowledge base.
        kind: which entries.
        text: a title, a symptom, a sentence; fault codes in it are read.
        least: the least score; None: the usual one.
    """
    scored = _faults(base, text) if kind == "fault" else _cases(base, text)
    floor = LEAST if least is None else least
    best = heapq.nsmallest(_MOST, scored, key=lambda each: (-each[1].score, each[0]))
    return [
        Pair(kind=kind, a=text, b=entry, score=match.score, fields=match.fields)
        for entry, match in best
        if match.score >= floor
    ]


def _faults(base: KnowledgeBase, text: str) -> list[tuple[str, Match]]:
    faults = comparable(base)
    asked = as_fault(base, text)
    readier = Readier(base, [*faults, asked])
    asking = asking_for(readier.lexicon)
    wanted = replace(readier.ready(asked), components=_named(base, readier.lexicon, text))
    return [(fault.id, asking.compare(wanted, readier.ready(fault))) for fault in faults]


def asking_for(lexicon: Lexicon) -> Matcher[ReadyFault]:
    """How much of what a text says, as `as_fault` has it, an entry says too."""
    return Matcher(
        (
            Field(name="codes", read=lambda fault: fault.codes, like=sets(code_alike, part=1.0), weight=1.0),
            Field(name="components", read=lambda fault: fault.components, like=_names_one, weight=1.5),
            Field(name="title", read=lambda fault: fault.title, like=lexicon.answers, weight=2.0),
            Field(name="words", read=lambda fault: fault.everything, like=lexicon.covered, weight=3.0),
        )
    )


def _named(base: KnowledgeBase, lexicon: Lexicon, text: str) -> Mapping[str, float] | None:
    """The components that a text names by all words of their names."""
    said = frozenset(lexicon.words([text]))
    names = {part.id: lexicon.words([part.name]) for part in base.components.values()}
    return {part: 1.0 for part, words in names.items() if words and said.issuperset(words)} or None


def _names_one(left: Mapping[str, float], right: Mapping[str, float]) -> float:
    return 0.0 if left.keys().isdisjoint(right) else 1.0


def _cases(base: KnowledgeBase, text: str) -> list[tuple[str, Match]]:
    cases = comparable_cases(base)
    ready, lexicon = ready_cases(base, [*cases, _as_case(text)])
    words = functools.cache(lexicon.bag)
    asking: Matcher[ReadyCase] = Matcher(
        (Field(name="words", read=lambda case: words(case.said), like=lexicon.covered, weight=1.0),)
    )
    return [(case.id, asking.compare(ready[-1], each)) for case, each in zip(cases, ready[:-1], strict=True)]


def as_fault(base: KnowledgeBase, text: str) -> Fault:
    """A text as if it were the title of an entry, with the codes that it names."""
    formats = base.club.code_formats if base.club is not None else ()
    readings = [read_code(word.strip(".,;:!?()"), formats) for word in text.split()]
    words = " ".join(word for word, read in zip(text.split(), readings, strict=True) if read.code is None)
    rows = tuple(
        CodeRow(
            read=read,
            meaning=None,
            unit=None,
            sets_when=None,
            with_codes=(),
            follow_on=False,
            ride_advice=None,
            at="",
        )
        for read in readings
        if read.code is not None
    )
    return Fault(
        id="",
        path="",
        damaged=frozenset(),
        title=words,
        system=None,
        applies_to=(),
        codes=rows,
        symptoms=(),
        does_not_start=None,
        ride_advice=None,
        cautions=(),
        causes=(),
        checks=(),
        sources=(),
        related=(),
        distinct_from=(),
        reviewed=None,
        formerly=(),
        withdrawn=None,
        draft=True,
    )


def _as_case(text: str) -> Case:
    nothing = Outcome(state=None, cause=None, also=(), after=None, verified=False, paid=None, note=None)
    return Case(
        id="",
        path="",
        damaged=frozenset(),
        vehicle=Vehicle(model=None, year=None, odometer=None, bike=None, modified=()),
        seen=None,
        conditions=(),
        codes=(),
        symptoms=(text,),
        fault=None,
        tried=(),
        cleared=None,
        follows=None,
        outcome=nothing,
        source=None,
    )
