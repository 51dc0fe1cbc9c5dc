"""Faults made ready to be compared: every text, code and row is gone through once, not once a pair."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from kbtools.index.entries import faults
from kbtools.index.scopes import built_years
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.codes import CodeFormat, CodeReading, structure
from kbtools.model.fault import MOST_ROWS, AppliesTo, Cause, Fault
from kbtools.model.years import Years
from kbtools.similarity.keys import keys_of
from kbtools.similarity.lexicon import Bag, Lexicon
from kbtools.similarity.ready import ReadyCause, ReadyCode, ReadyFault, SaidCause, SaidFault, SaidWords
from kbtools.vocabulary.opposites import Stand, denials, numbers, together

_PART = 0.3
"""What the words of its component's name count for in a cause: the component is compared by itself."""
_PART_TOLD = 0.4
"""The same elsewhere in the entry."""
_BACKGROUND = 40
"""So many faults that name no component are added to the base, so that in a small one no component looks common."""
_START = 1900
"""First year of a set of years: bit 0."""


class Readier:
    """Makes faults of one base ready."""

    def __init__(self, base: KnowledgeBase, faults: Sequence[Fault]) -> None:
        self._base = base
        self._formats: tuple[CodeFormat, ...] = base.club.code_formats if base.club is not None else ()
        self._last = last_year(base)
        self._components = _component_weights(faults)
        known = vocabulary(base)
        self._opposites, self._failures = known.opposites, known.failures
        self._lexicon = Lexicon(
            ([*texts(fault), *_work(fault)] for fault in faults), known.equals, known.like, known.settled
        )

    @property
    def lexicon(self) -> Lexicon:
        """The words of the faults."""
        return self._lexicon

    def ways(self, cause: Cause) -> frozenset[int]:
        """The ways of failing that a cause names."""
        return self._failures.named([self._lexicon.meant(cause.summary or "", self._failures.written)])

    def ready(self, fault: Fault) -> ReadyFault:
        """The fault, ready to be compared."""
        return self.weighed(self.said(fault))

    def said(self, fault: Fault) -> SaidFault:
        """What the fault says, before it is known how much each word of it counts."""
        few = _few(fault.causes)
        parts = [word for cause in fault.causes for word in self._part_words(cause.component)]
        title_stand = self._stand([fault.title])
        told = together([title_stand, self._stand(fault.symptoms)])
        stands = [self._stand([cause.summary or ""]) for cause in few]
        codes = tuple(code for row in fault.codes for code in self._codes(row.read, row.unit))
        units = (*(row.unit for row in fault.codes), *(row.unit for row in fault.applies_to))
        title = self._words([fault.title], parts, _PART_TOLD)
        causes = tuple(
            SaidCause(
                component=cause.component,
                words=self._words([cause.summary or ""], self._part_words(cause.component), _PART),
                stand=stand,
            )
            for cause, stand in zip(few, stands, strict=True)
        )
        return SaidFault(
            title=title,
            symptoms=self._words(fault.symptoms),
            everything=self._words(texts(fault), parts, _PART_TOLD),
            causes=causes,
            work=self._words(_work(fault)),
            components=tuple(dict.fromkeys(_named(fault))),
            codes=tuple(dict.fromkeys(codes)),
            units=frozenset(unit for unit in units if unit is not None),
            machines=self._machines(fault.applies_to),
            system=fault.system,
            title_stand=title_stand,
            stand=told,
            whole_stand=together([told, *stands]),
            ways=self._failures.named(
                self._lexicon.meant(cause.summary or "", self._failures.written) for cause in fault.causes
            ),
            numbers=numbers(fault.title),
            denials=denials(self._lexicon.meant(fault.title, self._opposites.written)),
            keys=keys_of(fault, title, causes, codes, self._lexicon),
        )

    def weighed(self, said: SaidFault) -> ReadyFault:
        """What a fault says, with what each word of it counts for in this base."""
        return ReadyFault(
            title=self._bag(said.title),
            symptoms=self._bag(said.symptoms),
            everything=self._bag(said.everything),
            causes=tuple(
                ReadyCause(component=each.component, words=self._bag(each.words), stand=each.stand)
                for each in said.causes
            )
            or None,
            work=self._bag(said.work),
            components={part: self._components[part] for part in said.components} or None,
            codes=said.codes or None,
            units=said.units or None,
            machines=said.machines or None,
            system=said.system,
            title_stand=said.title_stand,
            stand=said.stand,
            whole_stand=said.whole_stand,
            ways=said.ways or None,
            numbers=said.numbers,
            denials=said.denials,
            keys=said.keys,
        )

    def weights(self, words: Iterable[str], components: Iterable[str]) -> bytes:
        """Everything that weighing adds to what a fault says of these words and components."""
        parts = " ".join(str(self._components[part]) for part in components)
        return self._lexicon.told(words) + parts.encode()

    def odd(self, fault: Fault) -> Sequence[tuple[str, str, Any]]:
        """What of the other entries decides how the words of this one are read; see `Lexicon.odd`."""
        parts = (self._base.components.get(cause.component or "") for cause in fault.causes)
        names = (part.name for part in parts if part is not None)
        return [row for text in (*texts(fault), *_work(fault), *names) for row in self._lexicon.odd(text)]

    @property
    def last_year(self) -> int:
        """The year to which a model that is still built is compared."""
        return self._last

    def _words(self, texts: Iterable[str], less: Sequence[str] = (), to: float = 1.0) -> SaidWords:
        words, spans = self._lexicon.said(texts)
        return SaidWords(words=tuple(words), spans=spans, less=tuple(dict.fromkeys(less)), to=to)

    def _bag(self, said: SaidWords) -> Bag | None:
        return self._lexicon.weighed(said.words, said.spans, said.less, said.to)

    def _stand(self, texts: Iterable[str]) -> Stand:
        meant = (self._lexicon.meant(text, self._opposites.written) for text in texts)
        return self._opposites.stand(meant)

    def _part_words(self, component: str | None) -> Sequence[str]:
        part = self._base.components.get(component or "")
        return self._lexicon.words([part.name]) if part is not None else ()

    def _codes(self, read: CodeReading, unit: str | None) -> Iterator[ReadyCode]:
        if not read.matches:
            yield ReadyCode(base=read.text.strip().upper(), failure=None, unit=unit)
        for code in read.matches[:1]:
            told = structure(code, self._formats)
            failure = told.failure_type.code if told.failure_type is not None else None
            yield ReadyCode(base=told.base.text, failure=failure, unit=unit)

    def _machines(self, rows: Iterable[AppliesTo]) -> dict[str, int]:
        found: dict[str, int] = {}
        for row in rows:
            model = self._base.models.get(row.model)
            years: Years | None = row.years
            if model is not None:
                years = built_years(row, model)
            found[row.model] = found.get(row.model, 0) | (self._bits(years) if years is not None else 0)
        return found

    def _bits(self, years: Years) -> int:
        first = max(_START, years.first or _START) - _START
        last = max(first, min(self._last, years.last or self._last) - _START)
        return ((1 << (last - first + 1)) - 1) << first


def _few(causes: Sequence[Cause]) -> Sequence[Cause]:
    """As many as an entry may have: each is compared with each of the other one's, and more of them are an error."""
    return causes[:MOST_ROWS]


def _named(fault: Fault) -> Iterator[str]:
    return (cause.component for cause in fault.causes if cause.component is not None)


def _component_weights(faults: Sequence[Fault]) -> dict[str, float]:
    counts = Counter(part for fault in faults for part in set(_named(fault)))
    every = len(faults) + _BACKGROUND
    return {part: math.log(every / count) / math.log(every) for part, count in counts.items()}


def texts(fault: Fault) -> list[str]:
    """What a fault says in words about what it is."""
    return [fault.title, *fault.symptoms, *(cause.summary or "" for cause in fault.causes)]


def _work(fault: Fault) -> list[str]:
    """What a fault says in words about what is done about it."""
    fixes = (cause.fix.summary for cause in fault.causes if cause.fix is not None)
    return [text for text in (*fixes, *(each for check in fault.checks for each in (check.do, check.expect))) if text]


def last_year(base: KnowledgeBase) -> int:
    """A still built model is compared to the last year that anything in the base names."""
    rows = [row.years for fault in faults(base) for row in fault.applies_to]
    named = [
        year
        for years in (*rows, *(model.years for model in base.models.values()))
        for year in (years.first, years.last)
    ]
    return min(2200, max((year for year in named if year is not None), default=2000) + 1)
