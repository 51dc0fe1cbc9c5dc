"""Plans of the demo as Python reckons them, and ways through them to a wanted end: what the browser is held to."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import cast

from kbtools.checkplan import Owner, Plan, Step, plan_of
from kbtools.checkplan.problem import CheckWork, IncompleteError, Problem, problem_of
from kbtools.index.answers import Index
from kbtools.index.build import build_index
from kbtools.model.case import CheckResult
from tests.support.demo_read import demo_with

Answer = tuple[str, str]
"""What was done, `check look-at-plug` or `fix stator-short`, and what came out: a check's result, or `no-change`."""


def demo_index() -> Index:
    """The demo knowledge base, indexed for a fixed day."""
    return build_index(demo_with().base, dt.date(2026, 6, 1))


def demo_problems(index: Index) -> dict[str, Problem]:
    """The problems of all faults of which a plan can be reckoned."""
    found: dict[str, Problem] = {}
    for fault in index.published.values():
        try:
            found[fault.id] = problem_of(fault, index)
        except IncompleteError:
            continue
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """Answers that lead from the start of a plan to a step."""

    fault: str
    """Id of the fault."""
    answers: tuple[Answer, ...]
    """In order."""
    step: Step
    """Where they lead."""


def ways(problem: Problem, steps: Sequence[Step], before: tuple[Answer, ...] = ()) -> Iterator[Way]:
    """Every step of a plan with the answers that lead there."""
    answers = before
    for step in steps:
        yield Way(fault=problem.fault, answers=answers, step=step)
        for result, following in step.outcomes.items():
            yield from ways(problem, following, (*answers, (f"check {step.id}", result)))
        answers = (*answers, (f"check {step.id}", "good") if step.kind == "check" else (f"fix {step.id}", "no-change"))


def shortest_way(problems: Mapping[str, Problem], wanted: Callable[[Way], bool]) -> Way:
    """The way with the fewest answers to a wanted step, the first of several."""
    every = (way for problem in problems.values() for way in ways(problem, plan_of(problem, Owner()).steps))
    return min((way for way in every if wanted(way)), key=lambda way: len(way.answers))


def plan_after(problem: Problem, answers: Sequence[Answer], owner: Owner) -> Plan:
    """The plan after some answers. A fix that did not help is taken for a check without doubt of its cause alone."""
    results: dict[str, CheckResult] = {}
    tried = []
    for what, result in answers:
        kind, name = what.split(" ", 1)
        results[name if kind == "check" else what] = "good" if result == "no-change" else cast(CheckResult, result)
        if kind == "fix":
            tried.append(_tried(what, name))
    return plan_of(replace(problem, checks=(*problem.checks, *tried)), replace(owner, results=results))


def _tried(name: str, cause: str) -> CheckWork:
    return CheckWork(
        id=name,
        outcomes=(("bad", (cause,)),),
        good=None,
        finds=1.0,
        only_while_present=False,
        before_riding=False,
        bike="off",
        minutes=0.0,
        cost=0.0,
        skill="home",
        tools=(),
        access=(),
    )
