"""The small knowledge base of `vectors/finder.json`, for the tests of both sides of the finder."""

from __future__ import annotations

import json
from collections.abc import Collection
from typing import Any, cast

from kbtools.browser_data.finder import finder_files
from kbtools.edges import cache
from kbtools.edges.shipped import shapes
from kbtools.model.base import KnowledgeBase
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples
from tests.support import factories as make
from tests.support.places import VECTORS

_SHAPES = shapes()
THIS_YEAR = 2026


def vectors() -> dict[str, Any]:
    """A new copy of the vectors."""
    text = (VECTORS / "finder.json").read_text(encoding="utf-8")
    return cast(dict[str, Any], json.loads(text))


def knowledge(files: dict[str, Any] | None = None) -> KnowledgeBase:
    """The base of such files, each as data or, where it is no YAML, as text; the club is that of the rules' samples."""
    given = vectors()["files"] if files is None else files
    texts = {"club.yml": samples.FILES["club.yml"]} | {
        path: each if isinstance(each, str) else json.dumps(each) for path, each in given.items()
    }
    return read([SourceFile(path=path, data=text.encode()) for path, text in sorted(texts.items())], _SHAPES).base


def files(base: KnowledgeBase, pages: Collection[str] = ("contribute/",)) -> dict[str, Any]:
    """The finder's files, the site having these pages; read from JSON, as a browser has them."""
    # What a build of the demo worked out in this run is not worked out again.
    with cache.opened(cache.place(), make.TODAY.toordinal()) as memory:
        return {name: json.loads(file) for name, file in finder_files(base, THIS_YEAR, pages, memory).items()}


def entries_of(given: dict[str, Any]) -> list[dict[str, Any]]:
    """All entries, in their order."""
    count = sum(name.startswith("entries/") for name in given)
    return [entry for number in range(count) for entry in given[f"entries/{number}.json"]]


def terms_of(given: dict[str, Any]) -> dict[str, list[list[int]]]:
    """All terms with their postings."""
    return {term: each for name, file in given.items() if name.startswith("terms/") for term, each in file.items()}


def codes_of(given: dict[str, Any]) -> dict[str, list[Any]]:
    """All codes by key, each with its place and its faults."""
    shelf = (file for name, file in given.items() if name.startswith("codes/") and name != "codes/all.json")
    return {key: each for file in shelf for key, each in file.items()}
