"""KB705: link without an archived copy."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Links of published entries that nothing is left of when the page goes."""
    for fault in published(base).values():
        for source in fault.sources:
            if source.url is None or not fault.intact(f"{source.at}/archived"):
                continue
            if source.archived is None or source.archived == source.url:
                message = "This link has no archived copy."
                pointer = source.at
                if source.archived is not None:
                    message, pointer = "The archived copy is the link itself.", f"{source.at}/archived"
                hint = "Have a web archive take a copy of the page, and add its address as `archived`."
                yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint)


RULE = Rule(
    code="KB705",
    title="Link without an archived copy",
    severity="warning",
    what="A source of a published entry with `url` and without `archived`.",
    why="Pages vanish, forums above all; then nobody can see any more what the entry rests on.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="title: Spring teardown}",
        bad="title: Spring teardown, url: https://notes.example/teardown}",
        good=(
            "title: Spring teardown, url: https://notes.example/teardown, "
            "archived: https://archive.example/2026/teardown}"
        ),
    ),
    alone="any day",
    check=check,
)
