"""What a case that came in lately has turned on its fault's page, in words."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.changes.by_case import Turn
from kbtools.model.fault import Fault
from kbtools.pages.check_titles import check_titles


def turned_words(turn: Turn | None, fault: Fault | None) -> tuple[str, ...]:
    """A sentence for each thing that it has turned, plain text; none of a case that turned nothing."""
    return () if turn is None or fault is None else tuple(_words(turn, fault))


def _words(turn: Turn, fault: Fault) -> Iterator[str]:
    was, now = turn.likeliest
    if was != now and now is not None:
        before = f" It was: {_cause(was, fault)}." if was is not None else ""
        yield f"With this report another cause became the likeliest: {_cause(now, fault)}.{before}"
    was, now = turn.first
    if was != now and now is not None:
        yield f"With this report the first step became another one: {_step(now, fault)}."


def _cause(identity: str, fault: Fault) -> str:
    cause = fault.cause(identity)
    return (cause.summary or cause.id).rstrip(".") if cause is not None else identity


def _step(step: str, fault: Fault) -> str:
    kind, _, identity = step.partition(":")
    if kind == "check":
        return check_titles(fault.checks).get(identity, identity)
    if kind == "hand_over":
        return "hand the bike over"
    return f"{'try without proof' if kind == 'trial_fix' else 'mend'}: {_cause(identity, fault)}"
