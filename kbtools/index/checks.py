"""Which causes a check points to, and which checks point to a cause."""

from __future__ import annotations

from collections.abc import Mapping

from kbtools.model.fault import Check, Fault


def pointed(check: Check) -> tuple[str, ...]:
    """Ids of all causes that a check can point to."""
    reading = check.reading
    return check.points_to if reading is None else (*reading.low_points_to, *reading.high_points_to)


def checks_by_cause(fault: Fault) -> Mapping[str, tuple[Check, ...]]:
    """Id of a cause → the checks of the fault that can point to it, each once, in file order."""
    found: dict[str, list[Check]] = {}
    for check in fault.checks:
        for cause in dict.fromkeys(pointed(check)):
            found.setdefault(cause, []).append(check)
    return {cause: tuple(checks) for cause, checks in found.items()}


def answer_intact(fault: Fault, check: Check) -> bool:
    """Whether all was read of what a check may show and what it points to."""
    return all(fault.intact(f"{check.at}/{key}") for key in ("expect", "points_to", "reading"))
