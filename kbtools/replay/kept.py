"""What was said to the cases of each fault, kept as long as nothing of the fault has changed.

It follows from the fault's file, from those of its counted cases, from the machines and the club's lists, and from the
year, which decides what "still built" means. The shares of faults by codes follow from other faults too, and are not
kept.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kbtools.checkplan.problem import problem_of
from kbtools.index.answers import Index
from kbtools.index.sources import SourceDigests
from kbtools.index.together import machine_of
from kbtools.model.batches import in_batches
from kbtools.model.case import Case
from kbtools.model.memory import Memory
from kbtools.replay.advice import Advice, Turned, advice_of

_WORK = "replay"
_FIELDS = ("cause", "shares", "judgement", "cost", "hand_over", "likeliest_first")


@dataclass(frozen=True, slots=True, kw_only=True)
class Dated:
    """A counted case that says when it was seen."""

    seen: dt.date
    """That day."""
    case: Case
    """The case."""
    cause: str
    """Id of its cause, or `unlisted`."""


def said(
    dated: Mapping[str, Sequence[Dated]], index: Index, memory: Memory | None
) -> Iterator[tuple[str, Sequence[Advice]]]:
    """Id of each fault and what was said to its counted cases, in no order.

    Args:
        dated: of each fault these cases, the first seen first.
        index: of the knowledge base.
        memory: asked first; None: all is worked out.
    """
    digests = SourceDigests(index)
    asked = {fault: digests.of(index.published[fault], (each.case for each in cases)) for fault, cases in dated.items()}

    def make(fault: str) -> Sequence[Advice]:
        turned = [
            Turned(day=each.seen.toordinal(), bike=machine_of(each.case), cause=each.cause) for each in dated[fault]
        ]
        return list(advice_of(problem_of(index.published[fault], index), turned))

    def read(fault: str, rows: Any) -> Sequence[Advice]:
        return [_advice(*row) for row, _ in zip(rows, dated[fault], strict=True)]

    return in_batches(memory, _WORK, asked, make, (_write, read))


def _write(found: Sequence[Advice]) -> list[list[object]]:
    return [[getattr(each, name) for name in _FIELDS] for each in found]


def _advice(cause: int, shares: list[float], judgement: list[float], *costs: float) -> Advice:
    """As it was kept, in the order of `_FIELDS`."""
    cost, hand_over, likeliest_first = costs
    kinds = {type(each) for each in (*shares, *judgement, *costs)}
    if type(cause) is not int or not 0 <= cause < len(shares) or not kinds <= {int, float}:
        raise ValueError
    return Advice(
        cause=cause,
        shares=tuple(shares),
        judgement=tuple(judgement),
        cost=cost,
        hand_over=hand_over,
        likeliest_first=likeliest_first,
    )
