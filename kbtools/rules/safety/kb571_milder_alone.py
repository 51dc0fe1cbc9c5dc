"""KB571: milder advice on one person's word."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.index.milder import is_milder, predecessor
from kbtools.index.safety import critical_system
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.rules.rule import Breach, Rule


def compare(before: KnowledgeBase, now: KnowledgeBase) -> Iterator[Breach]:
    """Published faults that hurt people, whose level became milder without a new second reader."""
    for fault in published(now).values():
        was = predecessor(fault, before)
        if was is None or was.id not in published(before) or not is_milder(was.ride_level, fault.ride_level):
            continue
        critical = critical_system(before, was) is not None or critical_system(now, fault) is not None
        if (was.ride_level == "do-not-ride" or critical) and not _read_again(was, fault):
            why = "is safety-critical" if critical else "was not to be ridden"
            yield Breach(
                path=fault.path,
                pointer="/ride_advice/level",
                message=f"The ride advice became milder, {was.ride_level} before, on a fault that {why}.",
                hint="Have a second person read the whole entry, and set `reviewed` with today's day and `second`;"
                " or keep the stricter level.",
            )


def _read_again(was: Fault, now: Fault) -> bool:
    """Whether two people have read the entry since."""
    review = now.reviewed
    if review is None or review.second is None or review.second == review.by:
        return False
    return was.reviewed is None or review.on > was.reviewed.on


RULE = Rule(
    code="KB571",
    title="Milder on one person's word",
    severity="error",
    what=(
        "A change that makes the level of `ride_advice` milder, on a published fault that was `do-not-ride` or whose "
        "system is safety-critical before or after the change, without a review that is newer than the last one and "
        "names a `second` reader beside `by`. Only `kbtools check --changed-since` finds it, since one state of the "
        "files does not show what was there before."
    ),
    why="Somebody rides because the page says so. One slip of the hand must not be enough for that.",
    sample=None,
    compare=compare,
)
