"""The small knowledge base of `vectors/finder.json`, for the tests of both sides of the finder."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, cast

from kbtools.model.base import KnowledgeBase
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.repository import shapes
from kbtools.rules import samples

_SHAPES = shapes()


def vectors() -> dict[str, Any]:
    """A new copy of the vectors."""
    text = (Path(__file__).parent / "vectors" / "finder.json").read_text(encoding="utf-8")
    return cast(dict[str, Any], json.loads(text))


def knowledge(files: dict[str, Any] | None = None) -> KnowledgeBase:
    """The base of such files, each as data or, where it is no YAML, as text; the club is that of the rules' samples."""
    given = vectors()["files"] if files is None else files
    texts = {"club.yml": samples.FILES["club.yml"]} | {
        path: each if isinstance(each, str) else json.dumps(each) for path, each in given.items()
    }
    return read([SourceFile(path=path, data=text.encode()) for path, text in sorted(texts.items())], _SHAPES).base


def entries_of(data: dict[str, object]) -> list[dict[str, Any]]:
    """The entries of the finder's data."""
    return cast(list[dict[str, Any]], data["entries"])
