"""KB731: folder that is no system."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.index.references import names
from kbtools.model.base import KnowledgeBase
from kbtools.rules.references.named import missing
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries in a folder that is named after no system, each folder told at each of its files."""
    if "system" in base.unsure:
        return
    known = names(base, "system")
    for fault in faults(base):
        folder = fault.path.split("/")[1]
        if folder not in known:
            hint = (
                f"Move it to faults/{fault.system}/." if fault.system in known else missing("system", folder, known)[1]
            )
            message = f'The folder "{folder}" is named after no system.'
            yield Breach(path=fault.path, pointer="", message=message, hint=hint)


RULE = Rule(
    code="KB731",
    title="Folder that is no system",
    severity="warning",
    what="An entry below faults/ in a folder whose name is no system's id.",
    why="Entries stand in the folder of their system; who looks for it there would write it a second time.",
    sample=Sample(
        path="faults/chargin/lamp-dim.yml",
        instead_of="",
        bad="title: Horn silent\nsystem: charging\ndraft: true\n",
        good="title: Horn silent\nsystem: charging\ndraft: true\n",
        good_path="faults/charging/lamp-dim.yml",
    ),
    alone="any day",
    check=check,
)
