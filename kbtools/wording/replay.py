"""The sentences that the terminal and the page of the figures say about how often the advice was right."""

from __future__ import annotations

from typing import Final

LIMIT: Final = (
    "The curators knew some of these bikes when they wrote the entries, and the cases are those that members reported:"
    " it is no test on unknown ones."
)
"""Stands beside every figure of it."""

WAYS: Final = {
    "club": "Judgement and cases",
    "judgement": "The curators' judgement alone",
    "equal": "The same share for each",
}
"""The ways to say how likely each cause is, by the names that scores have."""

NO_CASES: Final = "No case counts yet, so there is nothing to hold the advice against."


def verdict_on_cases(log: tuple[float, float], brier: tuple[float, float]) -> str:
    """Whether the cases helped the judgement: each score with the cases, and by the judgement alone; less is better."""
    one, other = (_beside(*each) for each in (log, brier))
    how = one if one == other else f"{one} by the log score and {other} by the Brier score"
    return f"With the cases seen before, the shares were {how} than by the curators' judgement alone."


def _beside(with_cases: float, alone: float) -> str:
    if with_cases == alone:
        return "no better"
    return "better" if with_cases < alone else "worse"


def no_better_than_equal(way: str, log: tuple[float, float], brier: tuple[float, float]) -> str | None:
    """Says so where a way was no better than equal shares, by both scores or by one; None else.

    Args:
        way: one of `WAYS`.
        log: the score of it, and that of equal shares.
        brier: likewise.
    """
    worse = [name for name, (own, equal) in (("log", log), ("Brier", brier)) if own >= equal]
    if not worse:
        return None
    by = "" if len(worse) == 2 else f", by the {worse[0]} score"
    return f"{WAYS[way]} did no better than the same share for each cause{by}."


def between(low: float, high: float) -> str:
    """Of two shares: `40 to 60 %`."""
    return f"{100 * low:.0f} to {100 * high:.0f}\u00a0%"
