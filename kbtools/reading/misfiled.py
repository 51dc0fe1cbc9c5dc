"""Entries of one kind that stand among those of another: a case in the folder of faults."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import PurePosixPath
from typing import Final

from kbtools.diagnostics import START, Finding
from kbtools.reading.layout import FileKind
from kbtools.reading.shape import Shape
from kbtools.reading.source import form_error
from kbtools.reading.tree import Mapping as Keys
from kbtools.reading.tree import Node, Scalar

_KINDS: Final[tuple[FileKind, ...]] = ("fault", "case", "model")
_WORDS: Final = {"fault": "a fault", "case": "a case", "model": "a model"}
_FOLDERS: Final = {"fault": "faults", "case": "cases", "model": "models"}
_FEWEST: Final = 3
"""Keys that tell a kind; a stub of two says nothing."""


def misfiled(kind: FileKind, path: str, root: Node, shapes: Mapping[str, Shape]) -> Finding | None:
    """The finding that a file is an entry of another kind; None where it is of the kind that its folder says."""
    if kind not in _KINDS or not isinstance(root, Keys) or len(root.entries) < _FEWEST:
        return None
    known = {each: root.entries.keys() & shapes[each].schema["properties"].keys() for each in _KINDS}
    likest = max(_KINDS, key=lambda each: (len(known[each]), each == kind))
    if likest == kind or len(known[likest]) < len(root.entries) - 1 or 2 * len(known[kind]) > len(root.entries):
        return None
    message = f"This is {_WORDS[likest]}, and it stands in the folder of {_FOLDERS[kind]}."
    hint = f"Move it to {_place(likest, root, PurePosixPath(path).name)}."
    return form_error("KB109", path, START, message, hint)


def _place(kind: FileKind, root: Keys, name: str) -> str:
    """Where it belongs, as far as the file tells: a case by its day, a fault by its system."""
    if kind == "model":
        return f"models/{name}"
    value = root.entries.get("seen" if kind == "case" else "system", (None, None))[1]
    text = value.value if isinstance(value, Scalar) else ""
    if kind == "case":
        return f"cases/{text[:4] if re.match(r'[0-9]{4}-', text) else '<year>'}/{name}"
    return f"faults/{text if re.fullmatch(r'[a-z0-9-]+', text) else '<system>'}/{name}"
