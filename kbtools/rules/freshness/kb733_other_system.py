"""KB733: entry outside the folder of its system."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import PurePosixPath

from kbtools.index.entries import faults
from kbtools.index.references import lineage
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries in the folder of another system; a folder or a system that there is not is told of by other rules.

    The folder of a system above its own is one where a curator looks for it.
    """
    if "system" in base.unsure:
        return
    for fault in faults(base):
        path = PurePosixPath(fault.path)
        folder = path.parts[1]
        if fault.system is None or not {fault.system, folder} <= base.systems.keys():
            continue
        if folder not in lineage(base, fault.system):
            message = f'Its system is "{fault.system}", and it stands in the folder of "{folder}".'
            hint = f"Move it to faults/{fault.system}/{path.name}, or correct the system."
            yield Breach(path=fault.path, pointer="/system", message=message, hint=hint)


RULE = Rule(
    code="KB733",
    title="Entry outside the folder of its system",
    severity="warning",
    what="An entry below faults/ in the folder of another system than its own or one above it.",
    why="Who looks for it in its system does not find it, and writes it a second time.",
    sample=Sample(
        path="faults/brakes/horn-silent.yml",
        instead_of="",
        bad="title: Horn silent\nsystem: charging\ndraft: true\n",
        good="title: Horn silent\nsystem: charging\ndraft: true\n",
        good_path="faults/charging/horn-silent.yml",
    ),
    alone="any day",
    check=check,
)
