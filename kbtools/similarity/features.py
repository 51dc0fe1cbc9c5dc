"""Faults made ready to be compared: every text, code and row is gone through once, not once a pair."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from kbtools.index.entries import faults
from kbtools.index.scopes import built_years
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.codes import CodeFormat, CodeReading, structure
from kbtools.model.fault import MOST_ROWS, AppliesTo, Cause, Fault
from kbtools.model.years import Years
from kbtools.similarity.lexicon import Bag, Lexicon
from kbtools.vocabulary.opposites import Denials, Stand, denials, numbers, together

_PART = 0.3
"""What the words of its component's name count for in a cause: the component is compared by itself."""
_PART_TOLD = 0.4
"""The same elsewhere in the entry."""
_BACKGROUND = 40
"""So many faults that name no component are added to the base, so that in a small one no component looks common."""
_MOST_SYMPTOMS, _MOST_WORDS = 50, 24
"""By so many symptoms, and so many telling words of each, an entry is found: pairs of words grow with the square, and
nobody writes half of that."""
_START = 1900
"""First year of a set of years: bit 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyCode:
    """A fault code."""

    base: str
    """Canonical text without the failure type; what the author wrote where it is no code."""
    failure: str | None
    """Failure type."""
    unit: str | None
    """Id of the control unit that reports it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyCause:
    """A cause, whatever its id."""

    component: str | None
    """Id of the component."""
    words: Bag | None
    """Of the summary."""
    stand: Stand
    """Of the summary."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyFault:
    """A fault, ready to be compared."""

    title: Bag | None
    """Words of the title."""
    symptoms: Bag | None
    """Words of the symptoms."""
    everything: Bag | None
    """Words of title, symptoms and causes."""
    causes: tuple[ReadyCause, ...] | None
    """None where there are none."""
    work: Bag | None
    """Words of the fixes and the checks."""
    components: Mapping[str, float] | None
    """Components that its causes name, with what each counts for: the fewer entries name it, the more."""
    codes: tuple[ReadyCode, ...] | None
    """None where there are none."""
    units: frozenset[str] | None
    """Control units that its codes or rows name; None where they name none."""
    machines: Mapping[str, int] | None
    """Model → its years, one bit each; None where no row says anything."""
    system: str | None
    """Id of the system."""
    title_stand: Stand
    """On which sides the title stands."""
    stand: Stand
    """On which sides title and symptoms stand."""
    whole_stand: Stand
    """The same with the causes."""
    ways: frozenset[int] | None
    """In which ways the parts fail, as the causes say; None where they name none."""
    denials: Denials
    """Words that the title denies, and words that it says."""
    numbers: frozenset[float] | None
    """Numbers in the title; None if there are none."""
    keys: tuple[Hashable, ...]
    """By which it is found."""


class Readier:
    """Makes faults of one base ready."""

    def __init__(self, base: KnowledgeBase, faults: Sequence[Fault]) -> None:
        self._base = base
        self._formats: tuple[CodeFormat, ...] = base.club.code_formats if base.club is not None else ()
        self._last = _last_year(base)
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
        bag = self._lexicon.bag
        causes = tuple(
            ReadyCause(
                component=cause.component,
                words=bag([cause.summary or ""], less=self._part_words(cause.component), to=_PART),
                stand=self._stand([cause.summary or ""]),
            )
            for cause in _few(fault.causes)
        )
        codes = tuple(code for row in fault.codes for code in self._codes(row.read, row.unit))
        units = frozenset(
            unit
            for unit in (*(row.unit for row in fault.codes), *(row.unit for row in fault.applies_to))
            if unit is not None
        )
        parts = [word for cause in fault.causes for word in self._part_words(cause.component)]
        title_stand = self._stand([fault.title])
        told = together([title_stand, self._stand(fault.symptoms)])
        title = bag([fault.title], less=parts, to=_PART_TOLD)
        return ReadyFault(
            title=title,
            symptoms=bag(fault.symptoms),
            everything=bag(texts(fault), less=parts, to=_PART_TOLD),
            causes=causes or None,
            work=bag(_work(fault)),
            components={part: self._components[part] for part in dict.fromkeys(_named(fault))} or None,
            codes=tuple(dict.fromkeys(codes)) or None,
            units=units or None,
            machines=self._machines(fault.applies_to) or None,
            system=fault.system,
            title_stand=title_stand,
            stand=told,
            whole_stand=together([told, *(cause.stand for cause in causes)]),
            ways=self._failures.named(
                self._lexicon.meant(cause.summary or "", self._failures.written) for cause in fault.causes
            )
            or None,
            numbers=numbers(fault.title),
            denials=denials(self._lexicon.meant(fault.title, self._opposites.written)),
            keys=tuple(self._keys(fault, title, causes, codes)),
        )

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

    def _keys(
        self, fault: Fault, title: Bag | None, causes: Sequence[ReadyCause], codes: Sequence[ReadyCode]
    ) -> Iterator[Hashable]:
        words = [*title.weights] if title is not None else []
        yield from words
        for word in words:
            yield from self._lexicon.near(word)
        yield from (("g", group) for group in self._lexicon.groups([fault.title]))
        yield from combinations(sorted(words), 2)
        for text in fault.symptoms[:_MOST_SYMPTOMS]:
            told = self._lexicon.words([text])[:_MOST_WORDS]
            yield from told
            yield from (("s", *sorted(pair)) for pair in combinations(dict.fromkeys(told), 2))
        for code in codes:
            yield ("code", code.base)
            yield ("code", code.base, code.unit)
        components = sorted({cause.component for cause in causes if cause.component is not None})
        for cause in causes:
            for word in cause.words.weights if cause.words is not None else ():
                yield word
                yield ("c", cause.component, word)
        yield from combinations(components, 2)
        for component in components:
            yield from (("m", component, row.model) for row in fault.applies_to)
            yield from (("w", component, word) for word in words)


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


def _last_year(base: KnowledgeBase) -> int:
    """A still built model is compared to the last year that anything in the base names."""
    rows = [row.years for fault in faults(base) for row in fault.applies_to]
    named = [
        year
        for years in (*rows, *(model.years for model in base.models.values()))
        for year in (years.first, years.last)
    ]
    return min(2200, max((year for year in named if year is not None), default=2000) + 1)
