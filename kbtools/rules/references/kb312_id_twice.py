"""KB312: id twice."""

from __future__ import annotations

import collections
import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Check
from kbtools.model.fault import Cause
from kbtools.rules.rule import Breach, Rule, Sample

_HINT = "Give this one another id, or put the two together."


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Ids that stand twice: files of one kind, rows of one list, causes and checks of one fault."""
    for again in base.repeated:
        article = "an" if again.kind[0] in "aeiou" else "a"
        message = (
            f'There is {article} {again.kind} "{again.id}" already{f", in {again.first}" if not again.at else ""}.'
        )
        pointer = f"{again.at}/id" if again.at else ""
        yield Breach(path=again.path, pointer=pointer, message=message, hint=_HINT)
    for fault in faults(base):
        yield from _rows(fault.path, "cause", fault.causes)
        yield from _rows(fault.path, "check", fault.checks)
    yield from _formats(base)
    for model in base.models.values():
        seen = collections.Counter[str]()
        for unit in model.control_units:
            seen[unit.id] += 1
            if seen[unit.id] > 1:
                message = f'There is a control unit "{unit.id}" already.'
                yield Breach(path=model.path, pointer=f"{unit.at}/id", message=message, hint=_HINT)


def _formats(base: KnowledgeBase) -> Iterator[Breach]:
    """Code formats; the rows whose form is wrong are not among them, so places are counted only where all are."""
    if base.club is None or any(each.startswith("/code_formats") for each in base.club.damaged):
        return
    seen: set[str] = set()
    for index, each in enumerate(base.club.code_formats):
        if each.id in seen:
            message = f'There is a code format "{each.id}" already.'
            yield Breach(path="club.yml", pointer=f"/code_formats/{index}/id", message=message, hint=_HINT)
        seen.add(each.id)


def _rows(path: str, kind: str, rows: tuple[Cause, ...] | tuple[Check, ...]) -> Iterator[Breach]:
    seen: set[str] = set()
    for row in rows:
        if row.id in seen:
            message = f'There is a {kind} "{row.id}" in this entry already.'
            key = "use" if isinstance(row, Check) and row.use is not None else "id"
            yield Breach(path=path, pointer=f"{row.at}/{key}", message=message, hint=_HINT)
        seen.add(row.id)


RULE = Rule(
    code="KB312",
    title="Id twice",
    severity="error",
    what=(
        "The same id for two things of one kind: two files, two rows of a list, two causes or checks of a fault, "
        "two code formats. Ids have no capitals, so none differ by case alone."
    ),
    why="Whoever names the id could mean either.",
    sample=Sample(
        path="systems.yml",
        instead_of="  - {id: seat-off, name: Seat off, minutes: 3, cautions: [battery-gas]}\n",
        bad="  - {id: seat-off, name: Seat off, minutes: 3}\n  - {id: seat-off, name: Tray off, minutes: 30}\n",
        good="  - {id: seat-off, name: Seat off, minutes: 3}\n  - {id: tray-off, name: Tray off, minutes: 30}\n",
    ),
    check=check,
)
