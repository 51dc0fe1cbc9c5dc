"""What of a fault is compared: as it says it, and ready, with what each of its words counts for in its base.

What a fault says can be kept as JSON: an edit of another entry changes at most what the words count for.
"""

from __future__ import annotations

from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kbtools.similarity.lexicon import Bag, Spans
from kbtools.vocabulary.opposites import Denials, Stand


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
    keys: array[int]
    """By which it is found, see `keys`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidWords:
    """The words of texts, before it is known what each counts for."""

    words: tuple[str, ...]
    """The telling ones, each once, in order."""
    spans: Spans
    """Groups of like words that the texts name."""
    less: tuple[str, ...]
    """Words that count for less here."""
    to: float
    """The share of their weight that those keep."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidCause:
    """A cause, as `ReadyCause`, its words not weighed."""

    component: str | None
    """Id of the component."""
    words: SaidWords
    """Of the summary."""
    stand: Stand
    """Of the summary."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SaidFault:
    """A fault, as `ReadyFault`, its words not weighed: empty where that has None."""

    title: SaidWords
    """Words of the title."""
    symptoms: SaidWords
    """Words of the symptoms."""
    everything: SaidWords
    """Words of title, symptoms and causes."""
    causes: tuple[SaidCause, ...]
    """At most as many as an entry may have."""
    work: SaidWords
    """Words of the fixes and the checks."""
    components: tuple[str, ...]
    """Components that its causes name, each once."""
    codes: tuple[ReadyCode, ...]
    """Each once."""
    units: frozenset[str]
    """Control units that its codes or rows name."""
    machines: Mapping[str, int]
    """Model → its years, one bit each."""
    system: str | None
    """Id of the system."""
    title_stand: Stand
    """On which sides the title stands."""
    stand: Stand
    """On which sides title and symptoms stand."""
    whole_stand: Stand
    """The same with the causes."""
    ways: frozenset[int]
    """In which ways the parts fail, as the causes say."""
    denials: Denials
    """Words that the title denies, and words that it says."""
    numbers: frozenset[float] | None
    """Numbers in the title; None if there are none."""
    keys: array[int]
    """By which it is found, see `keys`."""


def as_row(said: SaidFault) -> dict[str, Any]:
    """What a fault says, as JSON; without the keys by which it is found. Each word stands there once, by its number."""
    texts = (said.title, said.symptoms, said.everything, said.work, *(each.words for each in said.causes))
    every = dict.fromkeys(word for each in texts for word in (*each.words, *each.less))
    numbers = {word: number for number, word in enumerate(every)}
    return {
        "words": [*every],
        "texts": [_words_row(each, numbers) for each in texts],
        "causes": [[each.component, each.stand] for each in said.causes],
        "components": said.components,
        "codes": [[each.base, each.failure, each.unit] for each in said.codes],
        "units": sorted(said.units),
        "machines": said.machines,
        "system": said.system,
        "stands": [said.title_stand, said.stand, said.whole_stand],
        "ways": sorted(said.ways),
        "denials": [sorted(each) for each in said.denials],
        "numbers": None if said.numbers is None else sorted(said.numbers),
    }


def of_row(row: Mapping[str, Any]) -> SaidFault:
    """The way back; without the keys."""
    words = row["words"]
    title, symptoms, everything, work, *summaries = (_words_of_row(each, words) for each in row["texts"])
    title_stand, stand, whole_stand = row["stands"]
    denied, told = row["denials"]
    return SaidFault(
        title=title,
        symptoms=symptoms,
        everything=everything,
        causes=tuple(
            SaidCause(component=component, words=summary, stand=its)
            for (component, its), summary in zip(row["causes"], summaries, strict=True)
        ),
        work=work,
        components=tuple(row["components"]),
        codes=tuple(ReadyCode(base=base, failure=failure, unit=unit) for base, failure, unit in row["codes"]),
        units=frozenset(row["units"]),
        machines=row["machines"],
        system=row["system"],
        title_stand=title_stand,
        stand=stand,
        whole_stand=whole_stand,
        ways=frozenset(row["ways"]),
        denials=(frozenset(denied), frozenset(told)),
        numbers=None if row["numbers"] is None else frozenset(row["numbers"]),
        keys=array("Q"),
    )


def _words_row(said: SaidWords, numbers: Mapping[str, int]) -> list[Any]:
    # Many groups are named by the same words.
    by_words: dict[frozenset[str], list[int]] = {}
    for group, words in said.spans.items():
        by_words.setdefault(words, []).append(group)
    spans = [[sorted(numbers[word] for word in words), groups] for words, groups in by_words.items()]
    return [[numbers[word] for word in said.words], spans, [numbers[word] for word in said.less], said.to]


def _words_of_row(row: list[Any], words: Sequence[str]) -> SaidWords:
    said, spans, less, to = row
    groups: dict[int, frozenset[str]] = {}
    for own, named in spans:
        groups |= dict.fromkeys(named, frozenset([words[each] for each in own]))
    return SaidWords(
        words=tuple([words[each] for each in said]), spans=groups, less=tuple([words[each] for each in less]), to=to
    )
