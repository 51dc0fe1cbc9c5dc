"""How often the advice was right, as the page of the figures shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kbtools.pages.drawing import Bar, range_bar
from kbtools.replay import Bin, ReplayRow, calibration, costs, paid_beside, scores
from kbtools.wording.labels import count_of_cases
from kbtools.wording.plan import percent_words
from kbtools.wording.replay import LIMIT, NO_CASES, WAYS, between, judged_words, paid_words, spent_words


@dataclass(frozen=True, slots=True, kw_only=True)
class ScoreRow:
    """One way to say how likely each cause is, with its scores."""

    way: str
    """What it is."""
    log: str
    """The log score."""
    brier: str
    """The Brier score."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CalledRow:
    """The causes that were called about so likely."""

    called: str
    """How likely."""
    were: str
    """How many of them were it."""
    percent: str
    """The same of a hundred."""
    bar: Bar
    """The bar is how many were it; the line beside it is where they were called."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReplayView:
    """What all counted cases say of the advice."""

    cases: str | None
    """How many there are; None: no case counts, and nothing below is there."""
    said: tuple[str, ...]
    """What the scores say, sentences; without cases that there are none."""
    scores: tuple[ScoreRow, ...]
    """Two scores of each way."""
    called: tuple[CalledRow, ...]
    """By how likely it was called; what was never called so is missing."""
    money: tuple[str, ...]
    """What each way would have cost, and what was paid, sentences."""
    limit: str
    """What it is no test of."""


def replay_view(rows: Sequence[ReplayRow], currency: str) -> ReplayView:
    """What the counted cases say of the advice that they would have had."""
    found, spent, told = scores(rows), costs(rows), paid_beside(rows)
    if found is None or spent is None:
        return ReplayView(cases=None, said=(NO_CASES,), scores=(), called=(), money=(), limit=LIMIT)
    log, brier = found
    money = [spent_words(spent.plan, spent.likeliest_first, spent.hand_over, currency)]
    if told is not None:
        money.append(paid_words(told.cases, told.paid, told.plan, currency))
    return ReplayView(
        cases=count_of_cases(len(rows)),
        said=tuple(judged_words(log, brier)),
        scores=tuple(
            ScoreRow(way=words, log=f"{getattr(log, way):.3f}", brier=f"{getattr(brier, way):.3f}")
            for way, words in WAYS.items()
        ),
        called=tuple(_called(each) for each in calibration(rows) if each.called),
        money=tuple(money),
        limit=LIMIT,
    )


def _called(each: Bin) -> CalledRow:
    part = each.were / each.called
    return CalledRow(
        called=between(each.low, each.high),
        were=f"{each.were} of {each.called}",
        percent=percent_words(part),
        bar=range_bar(part, each.low, each.high),
    )
