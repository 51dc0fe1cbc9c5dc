"""A case's file with other content: what stays keeps its comments."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from kbtools.reading.annotated import Group, annotated, plain_data
from kbtools.reading.canonical import canonical
from kbtools.reading.shape import Hints, to_data
from kbtools.reading.tree import parse


def rewritten(text: str, data: Mapping[str, Any], hints: Hints) -> str:
    """The text of a file that is to say something else.

    Args:
        text: of the file; nothing is wrong with its form.
        data: what it is to say.
        hints: of its schema.
    """
    root, _ = parse("", text)
    old = to_data(root, hints, (), []) if root is not None else {}
    document = annotated(text)
    made = plain_data(dict(data))
    if not isinstance(document.value, Group) or not isinstance(made.value, Group) or not isinstance(old, dict):
        return canonical(made, hints)
    rows = {row.key: row for row in document.value.rows}
    for row in made.value.rows:
        there = rows.get(row.key)
        if there is None:
            document.value.rows.append(row)
        elif old.get(row.key or "") != data.get(row.key or ""):
            there.value = row.value
    return canonical(document, hints)
