"""What the owner brings to a plan: machine, skill, tools, time, and what was found out already."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from kbtools.checkplan.problem import Problem
from kbtools.index.answers import ModelYear
from kbtools.model.case import CheckResult
from kbtools.model.catalogue import Skill


@dataclass(frozen=True, slots=True, kw_only=True)
class Owner:
    """The owner of one machine. The default is what is taken of an owner who says nothing."""

    bike: ModelYear | None = None
    """Model and model year; None: any machine that the fault concerns."""
    skill: Skill = "home"
    """The most that the owner does."""
    own_time_value: float | None = None
    """What an hour of the owner's time counts for; None: what the club says."""
    has: frozenset[str] = frozenset()
    """Ids of tools at hand besides the usual ones."""
    lacks: frozenset[str] = frozenset()
    """Ids of tools that are not at hand; they count even where `has` names them too."""
    absent: bool = False
    """The fault is not there now."""
    opened: frozenset[str] = frozenset()
    """Ids of access jobs that are done; what they need is then done as well."""
    covered: frozenset[str] = frozenset()
    """Ids of causes of which the dealer has confirmed, by the frame number, that the maker pays for them."""
    results: Mapping[str, CheckResult] = field(default_factory=dict)
    """Id of a check → what came out of it, in the order in which they were done."""


def allowed_results(problem: Problem, check_id: str) -> tuple[CheckResult, ...]:
    """What can come out of a check: `bad` or `low` and `high`, and `good` and `unclear` of each.

    Raises:
        KeyError: there is no such check.
    """
    for check in problem.checks:
        if check.id == check_id:
            sides: tuple[CheckResult, ...] = ("bad",) if check.outcomes[0][0] == "bad" else ("low", "high")
            return (*sides, "good", "unclear")
    raise KeyError(check_id)
