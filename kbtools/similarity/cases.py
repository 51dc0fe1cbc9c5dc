"""How cases are compared: the same event told twice, by two people or from memory, and not two events of one kind.

Weights, gates and the threshold were chosen on the first part of the labelled cases in `tests/similar/cases.yml`.
"""

from __future__ import annotations

import datetime as dt
import functools
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.money import KM_PER_MILE
from kbtools.similarity.blocking import Limits
from kbtools.similarity.engine import Field, Matcher
from kbtools.similarity.lexicon import Lexicon
from kbtools.similarity.likeness import days, distance, same, sets

THRESHOLD: Final = 0.5
"""From here on a pair of cases is shown."""

_NEAR_DAYS, _NEAR_KM = 6, 250
"""So far apart two dates, two odometers are alike by one half: people remember a week and round to hundreds."""
LIMITS: Final = Limits(crowd=8, best=5)
"""Few people tell of one event, and a time and a machine are rare keys already."""
_BUCKET_DAYS, _BUCKET_KM = 14, 1000
"""Cases are looked for in the same and the next bucket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyCase:
    """A case, ready to be compared."""

    id: str
    """Its id."""
    follows: str | None
    """Id of the case that it follows."""
    bike: str | None
    """The made-up id of the machine."""
    machine: tuple[str, int | None] | None
    """Model and model year."""
    seen: dt.date | None
    """Day."""
    odometer: float | None
    """Kilometres."""
    said: tuple[str, ...]
    """Symptoms and note. Few pairs come so far that their words matter, so that they are weighed when asked for."""
    codes: tuple[str, ...] | None
    """Canonical texts; None where there are none."""
    fault: str | None
    """Id of the fault."""
    cause: str | None
    """Id of the cause."""


def ready_cases(base: KnowledgeBase, cases: Sequence[Case]) -> tuple[list[ReadyCase], Lexicon]:
    """The cases, ready to be compared, and their words."""
    known = vocabulary(base)
    lexicon = Lexicon((_texts(case) for case in cases), known.equals, known.like, known.settled)
    return [_ready(case) for case in cases], lexicon


def _texts(case: Case) -> list[str]:
    return [*case.symptoms, case.outcome.note or ""]


def _ready(case: Case) -> ReadyCase:
    vehicle = case.vehicle
    codes = (code.read.matches[0].text if code.read.matches else code.read.text.upper() for code in case.codes)
    odometer = vehicle.odometer
    return ReadyCase(
        id=case.id,
        follows=case.follows,
        bike=vehicle.bike,
        machine=(vehicle.model, vehicle.year) if vehicle.model is not None else None,
        seen=case.seen,
        odometer=None if odometer is None else odometer.value * (KM_PER_MILE if odometer.unit == "mi" else 1.0),
        said=tuple(_texts(case)),
        codes=tuple(dict.fromkeys(codes)) or None,
        fault=case.fault,
        cause=case.outcome.cause,
    )


def keys_of(case: ReadyCase) -> Iterator[Hashable]:
    """What two tellings of one event share: the machine, and the time and the odometer nearly."""
    times = () if case.seen is None else _buckets(case.seen.toordinal(), _BUCKET_DAYS)
    ways = () if case.odometer is None else _buckets(case.odometer, _BUCKET_KM)
    if case.bike is not None:
        yield from ((case.bike, "seen", time) for time in times)
        yield from ((case.bike, "ridden", way) for way in ways)
    yield from ((case.machine, time, way) for time in times for way in ways)


def _buckets(value: float, width: int) -> tuple[int, int]:
    """Two overlapping buckets, so that near values share one even where a border lies between them."""
    return (int(value // width) * 2, int((value + width / 2) // width) * 2 + 1)


def _apart(left: ReadyCase, right: ReadyCase) -> float:
    """0 where one case says that it follows the other, or both follow one another's forerunner at another time."""
    return 0.0 if left.follows == right.id or right.follows == left.id else 1.0


def case_matcher(lexicon: Lexicon) -> Matcher[ReadyCase]:
    """The comparison of cases, with the words of their base."""
    words = functools.cache(lexicon.bag)
    return Matcher(
        (
            Field(name="bike", read=lambda case: case.bike, like=same, weight=1.0, gate=0.15),
            Field(name="vehicle", read=lambda case: case.machine, like=same, weight=0.5, gate=0.2),
            Field(name="seen", read=lambda case: case.seen, like=days(_NEAR_DAYS), weight=1.5, gate=0.2, enough=0.4),
            Field(
                name="odometer",
                read=lambda case: case.odometer,
                like=distance(_NEAR_KM),
                weight=1.5,
                gate=0.3,
                enough=0.4,
            ),
            Field(
                name="words", read=lambda case: words(case.said), like=lexicon.alike, weight=1.5, gate=0.7, enough=0.2
            ),
            Field(name="codes", read=lambda case: case.codes, like=sets(same, part=0.7), weight=0.5, gate=0.5),
            Field(name="fault", read=lambda case: case.fault, like=same, weight=1.0, gate=0.3),
            Field(name="cause", read=lambda case: case.cause, like=same, weight=0.5, gate=0.6),
            Field(name="follows", read=lambda case: case, like=_apart, gate=0.0),
        )
    )
