"""What the pages of the last build were made from, and which of them need not be made again.

Of each page is kept which questions it asked while it was made; of each question a digest of the answer; of each page's
bytes a digest, so that what somebody did to the file by hand is seen.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from kbtools.export.json_text import About
from kbtools.index.asked import Answers, Derived
from kbtools.index.asked_base import Question
from kbtools.index.digests import key_text
from kbtools.site.stamps import Place

Asked = tuple[str, str]
"""A question: its name, and the text of its key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPage:
    """A page or a file as it was written."""

    digest: str
    """Of its bytes, the values of its build left out (`stamps.Unstamped`)."""
    size: int
    """Its bytes."""
    pictures: tuple[str, ...]
    """Paths of the pictures that it shows, each once."""
    places: tuple[Place, ...]
    """Where the values of its build stand."""
    asked: tuple[Asked, ...]
    """What it was made from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What came out of answers and was asked for in its turn."""

    digest: str | None
    """Of what came out; None: it cannot be told."""
    asked: tuple[Asked, ...]
    """What it was worked out from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """All pages of one build."""

    values: Mapping[str, str]
    """The values of the build that stand in all pages, by name."""
    pages: Mapping[str, KeptPage]
    """By path from the site's root."""
    answers: Mapping[Asked, str | None]
    """Digest of the answer to each question of the index."""
    derived: Mapping[Asked, Answered]
    """Of what is worked out from answers."""
    entries: Mapping[str, str] = field(default_factory=dict)
    """Digests of entries, by what they were read from (`kbtools.index.digests.Digests`)."""
    earlier: Mapping[str, str] = field(default_factory=dict)
    """The values of the build before that one, whose site may lie about as a spare; empty: they are not known."""


@dataclass(slots=True, kw_only=True)
class Notes:
    """What is found out while pages and files are written."""

    pages: dict[str, KeptPage] = field(default_factory=dict)
    """By path from the site's root."""
    files: dict[str, About] = field(default_factory=dict)
    """What the index of the open formats says of files, by path."""
    derived: dict[Asked, Answered] = field(default_factory=dict)
    """What was worked out meanwhile."""

    def add(self, others: Notes) -> None:
        """Take over what was found out about others."""
        self.pages |= others.pages
        self.files |= others.files
        self.derived |= others.derived


class Known(dict[Question, Asked]):
    """Questions as they are kept, each once: many pages ask the same, and a large site has a million of them."""

    def __missing__(self, question: Question) -> Asked:
        name, key = question
        self[question] = known = (name, key_text(key))
        return known


def asked_of(questions: Iterable[Question], known: Known) -> tuple[Asked, ...]:
    """Questions as they are kept, in any order; `known` has those that were asked before."""
    return tuple(map(known.__getitem__, questions))


class Freshness:
    """Whether what was made from questions would be the same now."""

    def __init__(self, record: Record, answers: Answers, derived: Mapping[str, Derived[Any, Any]]) -> None:
        """`answers` are those of now, `derived` works out again what has to be."""
        self._record = record
        self._answers = answers
        self._derived = derived
        self._known: dict[Asked, bool] = {}
        self._stale: set[Asked] | None = None

    def page(self, path: str) -> KeptPage | None:
        """A page or a file as it was written, where it would be the same now."""
        if self._stale is None:
            self._stale = {each for each in (*self._record.answers, *self._record.derived) if not self.same(each)}
        kept = self._record.pages.get(path)
        return kept if kept is not None and self._stale.isdisjoint(kept.asked) else None

    def same(self, question: Asked) -> bool:
        """Whether a question has the answer that it had."""
        known = self._known.get(question)
        if known is None:
            known = self._known[question] = self._same(question)
        return known

    def _same(self, question: Asked) -> bool:
        name, key = question
        if name not in self._derived:
            before = self._record.answers.get(question)
            return before is not None and self._answers.digest(name, key) == before
        before_derived = self._record.derived.get(question)
        if before_derived is None or before_derived.digest is None:
            return False
        if all(map(self.same, before_derived.asked)):
            return True
        try:
            value, _ = self._derived[name].worked_out(ast.literal_eval(key))
        except LookupError:
            # What it was about is gone.
            return False
        return self._answers.digest_of(value) == before_derived.digest


def worked_out(derived: Mapping[str, Derived[Any, Any]], answers: Answers) -> dict[Asked, Answered]:
    """What was worked out so far, for the next build."""
    known = Known()
    return {
        (name, key_text(key)): Answered(digest=answers.digest_of(value), asked=asked_of(asked, known))
        for name, each in derived.items()
        for key, (value, asked) in each.made().items()
    }


def record(values: Mapping[str, str], notes: Notes, before: Record | None, answers: Answers) -> Record:
    """What the next build needs to know of this one.

    Args:
        values: what stands in all pages.
        notes: of all pages, those that were left as they were among them.
        before: of the last build; what was not worked out now is as it was.
        answers: those of now.
    """
    derived: dict[Asked, Answered] = {}
    asked: set[Asked] = set()
    open_: set[Asked] = set().union(*(page.asked for page in notes.pages.values()))
    while open_:
        question = open_.pop()
        if question in asked or question in derived:
            continue
        known = notes.derived.get(question) or (before.derived.get(question) if before is not None else None)
        if known is None:
            asked.add(question)
        else:
            derived[question] = known
            open_.update(known.asked)
    return Record(
        values=values,
        pages=notes.pages,
        answers={each: answers.digest(*each) for each in asked},
        derived=derived,
        entries=dict(answers.entries),
        earlier=before.values if before is not None else {},
    )


class _Numbers(dict[Asked, int]):
    """Questions, numbered in the order in which they are asked for."""

    def __missing__(self, question: Asked) -> int:
        self[question] = number = len(self)
        return number


def as_json(kept: Record) -> dict[str, Any]:
    """As it is kept: each question once."""
    number = _Numbers()

    def numbers(questions: Iterable[Asked]) -> list[int]:
        return list(map(number.__getitem__, questions))

    pages = {
        address: [each.digest, each.size, each.pictures, each.places, numbers(each.asked)]
        for address, each in kept.pages.items()
    }
    derived = [[*numbers([each]), known.digest, numbers(known.asked)] for each, known in kept.derived.items()]
    answers = [[*numbers([each]), digest] for each, digest in kept.answers.items()]
    return {
        "values": dict(kept.values),
        "pages": pages,
        "derived": derived,
        "answers": answers,
        "entries": dict(kept.entries),
        "earlier": dict(kept.earlier),
        "asked": list(number),
    }


def from_json(data: Any) -> Record | None:
    """What was kept; None where it has not the shape of it."""
    try:
        asked: list[Asked] = [(str(name), str(key)) for name, key in data["asked"]]

        def questions(numbers: Iterable[int]) -> tuple[Asked, ...]:
            return tuple(map(asked.__getitem__, numbers))

        return Record(
            values={str(name): str(value) for name, value in data["values"].items()},
            pages={
                str(address): KeptPage(
                    digest=str(digest),
                    size=int(size),
                    pictures=tuple(map(str, pictures)),
                    places=tuple((str(name), int(place)) for name, place in places),
                    asked=questions(numbers),
                )
                for address, (digest, size, pictures, places, numbers) in data["pages"].items()
            },
            answers={asked[number]: digest for number, digest in data["answers"]},
            derived={
                asked[number]: Answered(digest=digest, asked=questions(numbers))
                for number, digest, numbers in data["derived"]
            },
            entries={str(each): str(digest) for each, digest in data["entries"].items()},
            earlier={str(name): str(value) for name, value in data["earlier"].items()},
        )
    except (AttributeError, IndexError, KeyError, TypeError, ValueError):
        return None
