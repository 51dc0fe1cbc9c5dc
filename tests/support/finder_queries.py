"""How good answers are: labelled queries, and the usual figures over them.

Four sets: what the ranking is worked on with (`choose`: the half `tune` of `finder_queries.yml`, and
`finder_own_words.yml`, `…_more.yml`, `…_third.yml` and `…_fourth.yml`, each of another writer), and three that only
measure (`kept`: the other half, and `kept-own` and `kept-more`: `finder_own_words_kept.yml` and
`finder_own_words_kept_more.yml`, in owners' own words, written by people who did not know the ranking).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Any, Literal

import yaml

from tests.support.places import TESTS
from tests.support.yaml_files import SAFE

Half = Literal["tune", "kept"]
Set = Literal["choose", "kept", "kept-own", "kept-more"]
NONE = "none"
"""The kind of queries that nothing answers."""
OWN_WORDS: Mapping[Set, tuple[str, ...]] = {
    "choose": (
        "finder_own_words.yml",
        "finder_own_words_more.yml",
        "finder_own_words_third.yml",
        "finder_own_words_fourth.yml",
    ),
    "kept-own": ("finder_own_words_kept.yml",),
    "kept-more": ("finder_own_words_kept_more.yml",),
}
HALVES: Mapping[Set, Half] = {"choose": "tune", "kept": "kept"}


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
class Answer:
    """One answer, as the page has it."""

    address: str
    """Without a slash at the end."""
    kind: str
    """fault, code, none or other."""
    sure: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What the finder says to one text."""

    known: bool
    """Whether it says that an entry surely answers it."""
    offered: bool
    """Whether it shows any fault or code, sure or not."""
    listed: tuple[Answer, ...]
    """Best first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Over some queries."""

    count: int
    first: float
    """Share of queries with a right answer at the top: success@1."""
    three: float
    """Among the first three: success@3."""
    eight: float
    """Among the first eight."""
    false: float
    """Share of queries that are called known: of those that nothing answers, false answers."""
    offered: float
    """Share of queries to which any fault or code is shown, sure or not."""
    sure: int
    """Answers that are called sure, over all queries."""
    right: int
    """How many of those are right."""


def queries(half: Half) -> list[Query]:
    """The queries of one half of `finder_queries.yml`, in its order."""
    kinds: dict[str, Any] = _read("finder_queries.yml")
    return list(_rows({kind: halves[half] for kind, halves in kinds.items()}))


def labelled(name: Set) -> list[Query]:
    """The queries of a set; what two people wrote down word for word measures nothing if one set is chosen on."""
    half = queries(HALVES[name]) if name in HALVES else []
    rows = [*half, *(row for file in OWN_WORDS.get(name, ()) for row in _rows(_read(file)))]
    if name not in {"kept-own", "kept-more"}:
        return rows
    known = {row.text.lower() for row in labelled("choose")}
    return [row for row in rows if row.text.lower() not in known]


def _read(name: str) -> Any:
    return yaml.load((TESTS / name).read_text(encoding="utf-8"), Loader=SAFE)


def _rows(kinds: Mapping[str, Sequence[Mapping[str, Any]]]) -> Iterator[Query]:
    for kind, rows in kinds.items():
        for row in rows:
            yield Query(kind=kind, text=row["q"], first=tuple(row["first"]), all=tuple(row.get("all", ())))


def rank(query: Query, answers: Sequence[str]) -> int | None:
    """Which of the answers, addresses without a slash at the end, is the first right one, from 1; None: none is."""
    if query.kind == NONE:
        return 1 if not answers else None
    if not set(query.all) <= set(answers):
        return None
    right = (at for at, answer in enumerate(answers, 1) if is_right(query, answer))
    return next(right, None)


def is_right(query: Query, answer: str) -> bool:
    """Whether an answer is one of those wanted, or of those that must be there."""
    return any(fnmatchcase(answer, each) for each in (*query.first, *query.all))


def ranked(query: Query, given: Answers) -> int | None:
    """As `rank`, of what the finder said; what leads on where nothing is known is no answer."""
    listed = [each.address for each in given.listed if each.kind != "none"]
    return rank(query, listed if given.known or query.kind != NONE else [])


def figures(asked: Iterable[tuple[Query, Answers]]) -> Figures:
    """The figures over some queries and what was answered."""
    rows = list(asked)
    ranks = [ranked(query, given) for query, given in rows]
    sure = [
        (query, each)
        for query, given in rows
        for each in given.listed
        if each.sure and (each.kind != "none" or query.kind != NONE)
    ]

    def share(most: int) -> float:
        return sum(each is not None and each <= most for each in ranks) / len(rows)

    return Figures(
        count=len(rows),
        first=share(1),
        three=share(3),
        eight=share(8),
        false=sum(given.known for _, given in rows) / len(rows),
        offered=sum(given.offered for _, given in rows) / len(rows),
        sure=len(sure),
        right=sum(query.kind != NONE and is_right(query, each.address) for query, each in sure),
    )


def by_kind(asked: Sequence[tuple[Query, Answers]]) -> Mapping[str, Figures]:
    """Figures by kind, and over all of them as `all`."""
    kinds = dict.fromkeys(query.kind for query, _ in asked)
    parts = {kind: figures(row for row in asked if row[0].kind == kind) for kind in kinds}
    return parts | {"all": figures(asked)}
