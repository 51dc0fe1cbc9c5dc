"""The sentences that the terminal and the page of the figures say about how often the advice was right."""

from __future__ import annotations

from typing import Final, Protocol

from kbtools.model.money import show_about

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


class Ways(Protocol):
    """One score of each of the `WAYS`; less is better."""

    @property
    def club(self) -> float:
        """With the cases seen before."""

    @property
    def judgement(self) -> float:
        """Without them."""

    @property
    def equal(self) -> float:
        """With neither."""


def judged_words(log: Ways, brier: Ways) -> list[str]:
    """What the scores say, in sentences: whether the cases helped, and what was no better than knowing nothing."""
    one, other = (_beside(each.club, each.judgement) for each in (log, brier))
    how = one if one == other else f"{one} by the log score and {other} by the Brier score"
    said = [f"With the cases seen before, the shares were {how} than by the curators' judgement alone."]
    for way in ("club", "judgement"):
        lost = [name for name, each in (("log", log), ("Brier", brier)) if getattr(each, way) >= each.equal]
        if lost:
            by = f", by the {lost[0]} score" if len(lost) == 1 else ""
            said.append(f"{WAYS[way]} did no better than the same share for each cause{by}.")
    return said


def _beside(with_cases: float, alone: float) -> str:
    if with_cases == alone:
        return "no better"
    return "better" if with_cases < alone else "worse"


def between(low: float, high: float) -> str:
    """Of two shares: `40 to 60 %`."""
    return f"{100 * low:.0f} to {100 * high:.0f}\u00a0%"


def spent_words(plan: float, likeliest_first: float, hand_over: float, currency: str) -> str:
    """What each way would have cost on average, with the causes that it was."""
    money = [show_about(each, currency) for each in (plan, likeliest_first, hand_over)]
    return (
        f"With the causes that it was, the plan would have cost {money[0]} on average, the likeliest first {money[1]},"
        f" handing over at once {money[2]}."
    )


def paid_words(cases: int, paid: float, plan: float, currency: str) -> str:
    """What was paid on average, beside the plan in the same cases."""
    said = f"{cases} case says" if cases == 1 else f"{cases} cases say"
    return (
        f"{said} what was paid: {show_about(paid, currency)} on average, without the owner's own time. The plan"
        f" comes to {show_about(plan, currency)} in these, with it."
    )
