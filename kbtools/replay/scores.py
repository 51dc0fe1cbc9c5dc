"""How good the shares were, in sum: two scores that are the lower the better, and how often what was called came true.

Both scores are proper: nothing scores better, on average, than the shares that one believes in.

- log: the mean of −ln(the share of what it was); I. J. Good, Rational Decisions, 1952.
- Brier: the mean of Σ (share − 1 if it was it, else 0)² over all causes; G. W. Brier, Verification of forecasts
  expressed in terms of probability, Monthly Weather Review 78 (1950), formula 2. From 0 to 2.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import fsum, log
from statistics import fmean

from kbtools.replay.advice import Advice
from kbtools.replay.rows import ReplayRow

EDGES = (0.0, 0.1, 0.2, 0.4, 0.6, 0.8, 1.0)
"""Shares are counted between these; one on an edge belongs to what is above it, 1 to the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scores:
    """One score of three ways to say how likely each cause is."""

    club: float
    """Judgement and the cases seen before."""
    judgement: float
    """The curators' judgement alone."""
    equal: float
    """The same share for each cause and `unlisted`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bin:
    """The causes that were called about so likely, over all cases."""

    low: float
    """Least share."""
    high: float
    """Share below which they are."""
    called: int
    """How many there were."""
    mean: float
    """Their mean share; 0 of none."""
    were: int
    """How many of them were it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """What each way of going about it would have cost on average, with the causes that the cases had."""

    plan: float
    """By the plan."""
    hand_over: float
    """Handing over at once."""
    likeliest_first: float
    """Going after the likeliest cause first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaidBeside:
    """What was paid beside what the plan would have cost, in the cases that say what was paid."""

    cases: int
    """How many say so."""
    paid: float
    """Parts and labour on average; nobody's own time is in it."""
    plan: float
    """The plan on average; the owner's own time is in it."""


def scores(rows: Sequence[ReplayRow]) -> tuple[Scores, Scores] | None:
    """The log and the Brier score over all rows; None of none."""
    if not rows:
        return None
    log_score, brier = [
        Scores(
            club=fmean(score(row.advice.shares, row.advice.cause) for row in rows),
            judgement=fmean(score(row.advice.judgement, row.advice.cause) for row in rows),
            equal=fmean(score(_equal(row.advice), row.advice.cause) for row in rows),
        )
        for score in _SCORES
    ]
    return log_score, brier


def log_of(shares: Sequence[float], cause: int) -> float:
    """−ln of the share of what it was."""
    return -log(shares[cause])


def brier_of(shares: Sequence[float], cause: int) -> float:
    """The sum of the squares by which all shares were off."""
    return fsum((share - (place == cause)) ** 2 for place, share in enumerate(shares))


_SCORES: tuple[Callable[[Sequence[float], int], float], ...] = (log_of, brier_of)


def _equal(advice: Advice) -> Sequence[float]:
    return [1 / len(advice.shares)] * len(advice.shares)


def calibration(rows: Iterable[ReplayRow]) -> tuple[Bin, ...]:
    """How often causes that were called about so likely were it; each row calls all causes on its bike."""
    told: list[list[tuple[float, bool]]] = [[] for _ in EDGES[1:]]
    for row in rows:
        for place, share in enumerate(row.advice.shares):
            told[sum(share >= edge for edge in EDGES[1:-1])].append((share, place == row.advice.cause))
    return tuple(
        Bin(
            low=low,
            high=high,
            called=len(own),
            mean=fmean(share for share, _ in own) if own else 0.0,
            were=sum(was for _, was in own),
        )
        for low, high, own in zip(EDGES, EDGES[1:], told, strict=False)
    )


def costs(rows: Sequence[ReplayRow]) -> Costs | None:
    """What each way would have cost on average; None without rows."""
    if not rows:
        return None
    return Costs(
        plan=fmean(row.advice.cost for row in rows),
        hand_over=fmean(row.advice.hand_over for row in rows),
        likeliest_first=fmean(row.advice.likeliest_first for row in rows),
    )


def paid_beside(rows: Sequence[ReplayRow]) -> PaidBeside | None:
    """What was paid beside the plan; None where no case says it."""
    told = [(row.paid, row.advice.cost) for row in rows if row.paid is not None]
    if not told:
        return None
    return PaidBeside(cases=len(told), paid=fmean(paid for paid, _ in told), plan=fmean(cost for _, cost in told))
