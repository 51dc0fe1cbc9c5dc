"""How good answers are: the labelled queries of `finder_queries.yml`, and the usual figures over them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Any, Literal

import yaml

from tests.support.places import TESTS
from tests.support.yaml_files import SAFE

Half = Literal["tune", "kept"]
NONE = "none"
"""The kind of queries that nothing answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Query:
    """What an owner types, and what should come of it."""

    kind: str
    text: str
    first: tuple[str, ...]
    """Any of these may come first; `*` stands for anything."""
    all: tuple[str, ...]
    """All of these must be among the answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Over some queries."""

    count: int
    first: float
    """Share of queries with a right answer at the top: success@1."""
    three: float
    """Among the first three: success@3."""
    reciprocal: float
    """Mean reciprocal rank."""


def queries(half: Half) -> list[Query]:
    """The queries of one half, in the order of the file."""
    kinds: dict[str, Any] = yaml.load((TESTS / "finder_queries.yml").read_text(encoding="utf-8"), Loader=SAFE)
    return [
        Query(kind=kind, text=row["q"], first=tuple(row["first"]), all=tuple(row.get("all", ())))
        for kind, halves in kinds.items()
        for row in halves[half]
    ]


def rank(query: Query, answers: Sequence[str]) -> int | None:
    """Which of the answers, addresses without a slash at the end, is the first right one, from 1; None: none is."""
    if query.kind == NONE:
        return 1 if not answers else None
    if not set(query.all) <= set(answers):
        return None
    right = (at for at, answer in enumerate(answers, 1) if any(fnmatchcase(answer, each) for each in query.first))
    return next(right, None)


def figures(ranks: Iterable[int | None]) -> Figures:
    """The figures over the ranks of some queries."""
    found = list(ranks)
    return Figures(
        count=len(found),
        first=sum(each == 1 for each in found) / len(found),
        three=sum(each is not None and each <= 3 for each in found) / len(found),
        reciprocal=sum(1 / each for each in found if each) / len(found),
    )


def by_kind(ranks: Sequence[tuple[Query, int | None]]) -> Mapping[str, Figures]:
    """Figures by kind, and over all of them as `all`."""
    kinds = dict.fromkeys(query.kind for query, _ in ranks)
    parts = {kind: figures(each for query, each in ranks if query.kind == kind) for kind in kinds}
    return parts | {"all": figures(each for _, each in ranks)}
