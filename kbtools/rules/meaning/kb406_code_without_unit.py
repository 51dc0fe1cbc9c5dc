"""KB406: code without its control unit."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import CodeRow
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Codes that mean nothing without their control unit, and have none."""
    if base.club is None:
        return
    per_unit = {each.id: each.name for each in base.club.code_formats if each.per_unit}
    for fault in faults(base):
        for row in fault.codes:
            if row.unit is None and not fault.draft and fault.intact(f"{row.at}/unit"):
                yield from _first(row, per_unit, fault.path)


def _first(row: CodeRow, per_unit: Mapping[str, str], path: str) -> Iterator[Breach]:
    """One finding a row: a single control unit in it mends them all."""
    places = [(row.read, f"{row.at}/code")]
    places += [(read, f"{row.at}/with/{index}") for index, read in enumerate(row.with_codes)]
    for read, pointer in places:
        if read.code is not None and read.code.format in per_unit:
            name = short(per_unit[read.code.format])
            message = f'"{short(read.text)}" ({name}) means nothing without its control unit.'
            hint = "Add `unit: …` to the row, with the id of the control unit that shows the code."
            yield Breach(path=path, pointer=pointer, message=message, hint=hint)
            return


RULE = Rule(
    code="KB406",
    title="Code without its control unit",
    severity="error",
    what="A code of a format that is `per_unit`, in a fault, without the control unit that shows it.",
    why="The same code means another thing on another control unit.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="codes:\n",
        bad="codes:\n  - {code: 4-2, meaning: System voltage low}\n",
        good="codes:\n  - {code: 4-2, unit: engine-a, meaning: System voltage low}\n",
    ),
    alone="any day",
    check=check,
)
