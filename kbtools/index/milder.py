"""Whether advice became milder, and which entry of an earlier state an entry is to be held against."""

from __future__ import annotations

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.model.ride_advice import RIDE_LEVELS, RideLevel


def is_milder(before: RideLevel | None, now: RideLevel | None) -> bool:
    """Whether `now` allows riding that `before` did not allow; nothing is milder than what was not said."""
    return before is not None and now is not None and RIDE_LEVELS.index(now) > RIDE_LEVELS.index(before)


def predecessor(fault: Fault, earlier: KnowledgeBase) -> Fault | None:
    """The entry of an earlier state that this one was: of the same id, or of an old id of its; None of a new one."""
    names = (fault.id, *fault.formerly)
    return next((earlier.faults[each] for each in names if each in earlier.faults), None)
