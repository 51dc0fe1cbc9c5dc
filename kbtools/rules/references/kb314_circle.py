"""KB314: things that name each other in a circle."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

from kbtools.index.access import access_needs
from kbtools.index.cases import earlier_cases
from kbtools.index.heirs import replaced_by
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Circles of replaced entries, of access jobs and of cases, each once, at its first member."""
    for circle in circles({old: (new,) for old, new in replaced_by(base).items()}):
        yield _replaced(base, circle)
    for circle in circles({case: (before,) for case, before in earlier_cases(base).items()}):
        yield _followed(base, circle)
    for circle in circles(access_needs(base)):
        yield _needed(base, circle)


def circles(edges: Mapping[str, Sequence[str]]) -> Iterator[list[str]]:
    """Each circle of a graph that is met on one walk through all of it; its members in the order of their edges.

    A graph of several crossing circles gives at least one of them; when that is broken up, the next run gives another.
    """
    done: set[str] = set()
    for start in edges:
        if start in done:
            continue
        way: dict[str, Iterator[str]] = {start: iter(edges[start])}
        while way:
            at, ahead = next(reversed(way.items()))
            to = next(ahead, None)
            if to is None:
                done.add(at)
                del way[at]
            elif to in way:
                yield list(way)[list(way).index(to) :]
            elif to not in done and to in edges:
                way[to] = iter(edges[to])


def _turned(circle: list[str], paths: Mapping[str, str]) -> tuple[str, str]:
    """The member that comes first by the path of its file, and the way round from it in words."""
    first = min(circle, key=lambda each: paths[each])
    start = circle.index(first)
    names = [short(each) for each in (*circle[start:], *circle[:start], first)]
    return first, " → ".join(names if len(names) <= 12 else (*names[:10], "…", names[-1]))


def _replaced(base: KnowledgeBase, circle: list[str]) -> Breach:
    first, way = _turned(circle, {each: base.faults[each].path for each in circle})
    fault = base.faults[first]
    pointer = f"{fault.withdrawn.at if fault.withdrawn is not None else ''}/replaced_by"
    hint = "Let the last of them name an entry that holds, or none."
    return Breach(path=fault.path, pointer=pointer, message=f"Replaced in a circle: {way}.", hint=hint)


def _followed(base: KnowledgeBase, circle: list[str]) -> Breach:
    first, way = _turned(circle, {each: base.cases[each].path for each in circle})
    hint = "The earliest of them follows none; take the line out there."
    return Breach(
        path=base.cases[first].path, pointer="/follows", message=f"Cases follow in a circle: {way}.", hint=hint
    )


def _needed(base: KnowledgeBase, circle: list[str]) -> Breach:
    job = base.access[circle[0]]
    way = " → ".join(short(each) for each in (*circle[:11], circle[0]))
    needed = circle[1] if len(circle) > 1 else circle[0]
    pointer = f"{job.at}/needs/{job.needs.index(needed)}"
    hint = "The job that is done first needs none of the others; take it out there."
    return Breach(path="systems.yml", pointer=pointer, message=f"Access jobs need each other: {way}.", hint=hint)


RULE = Rule(
    code="KB314",
    title="Circle",
    severity="error",
    what=(
        "Withdrawn entries whose `replaced_by` leads back to where it began; likewise cases that follow each other, "
        "and access jobs that need each other."
    ),
    why="A reader who follows it never arrives, and the work could never begin.",
    sample=Sample(
        path="faults/charging/lamp-glows.yml",
        instead_of="replaced_by: battery-flat",
        bad="replaced_by: lamp-glows",
        good="replaced_by: battery-flat",
    ),
    check=check,
)
