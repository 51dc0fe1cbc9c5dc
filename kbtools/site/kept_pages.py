"""What the pages of the last build were made from, and which of them need not be made again.

Of each page is kept which questions it asked while it was made; of each question a digest of the answer; of each page's
bytes a digest, so that what somebody did to the file by hand is seen.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from typing import Any, Final

from kbtools.export.json_text import About
from kbtools.index.asked import Answers, Derived
from kbtools.index.asked_base import Question
from kbtools.index.digests import key_text
from kbtools.site.stamps import Place

Asked = tuple[str, str]
"""A question: its name, and the text of its key."""
_IDLE: Final = 4
"""Where of so many questions one is asked by nobody any more, those that are asked get new numbers."""


class Questions:
    """Questions by their numbers: many pages ask the same, and a large site has a million of them."""

    __slots__ = ("_known", "_numbers", "asked")

    def __init__(self, asked: Iterable[Asked] = ()) -> None:
        """Begin with those of a record."""
        self.asked: list[Asked] = list(asked)
        """Each question, at the place of its number."""
        self._numbers = {each: number for number, each in enumerate(self.asked)}
        self._known: dict[Question, int] = {}

    def number(self, asked: Asked) -> int:
        """The number of a question, a new one if need be."""
        number = self._numbers.get(asked)
        if number is None:
            number = self._numbers[asked] = len(self.asked)
            self.asked.append(asked)
        return number

    def numbers(self, questions: Iterable[Question]) -> tuple[int, ...]:
        """The numbers of questions as the log has them, in any order."""
        found = []
        for question in questions:
            number = self._known.get(question)
            if number is None:
                name, key = question
                number = self._known[question] = self.number((name, key_text(key)))
            found.append(number)
        return tuple(found)


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
    asked: Sequence[int]
    """What it was made from: numbers of questions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What came out of answers and was asked for in its turn."""

    digest: str | None
    """Of what came out; None: it cannot be told."""
    asked: Sequence[int]
    """What it was worked out from: numbers of questions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """All pages of one build."""

    values: Mapping[str, str]
    """The values of the build that stand in all pages, by name."""
    pages: Mapping[str, KeptPage]
    """By path from the site's root."""
    asked: Sequence[Asked]
    """Each question, at the place of its number."""
    answers: Mapping[int, str | None]
    """Digest of the answer to each question of the index, by its number."""
    derived: Mapping[int, Answered]
    """Of what is worked out from answers, likewise."""
    entries: Mapping[str, str] = field(default_factory=dict)
    """Digests of entries, by what they were read from (`kbtools.index.digests.Digests`)."""
    earlier: Mapping[str, str] = field(default_factory=dict)
    """The values of the build before that one, whose site may lie about as a spare; empty: they are not known."""


Told = tuple[dict[str, KeptPage], dict[str, About], dict[int, Answered], list[Asked]]
"""Notes of another process, with the questions that are new in it."""


@dataclass(slots=True, kw_only=True)
class Notes:
    """What is found out while pages and files are written."""

    questions: Questions = field(default_factory=Questions)
    """All questions by their numbers."""
    pages: dict[str, KeptPage] = field(default_factory=dict)
    """By path from the site's root."""
    files: dict[str, About] = field(default_factory=dict)
    """What the index of the open formats says of files, by path."""
    derived: dict[int, Answered] = field(default_factory=dict)
    """What was worked out meanwhile, by the number of the question."""

    def told(self, start: int) -> Told:
        """What is handed over to another process that has the questions before `start`."""
        return self.pages, self.files, self.derived, self.questions.asked[start:]

    def add(self, told: Told, start: int) -> None:
        """Take over what another process has told."""
        pages, files, derived, asked = told
        to = list(map(self.questions.number, asked))

        def numbers(of: Iterable[int]) -> tuple[int, ...]:
            return tuple([each if each < start else to[each - start] for each in of])

        self.pages |= {path: replace(each, asked=numbers(each.asked)) for path, each in pages.items()}
        self.files |= files
        found = zip(numbers(derived), derived.values(), strict=True)
        self.derived |= {number: replace(each, asked=numbers(each.asked)) for number, each in found}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """What somebody has found out about the answers of a record, for whoever has the same record."""

    stale: frozenset[int]
    """The questions that have another answer now."""
    digests: Mapping[int, str | None]
    """Digests of their answers, of what is not worked out."""
    entries: Mapping[str, str]
    """Digests of entries that the record does not know, by what they were read from."""
    told: Told
    """What was worked out again."""


class Freshness:
    """Whether what was made from questions would be the same now."""

    def __init__(
        self, record: Record, answers: Answers, derived: Mapping[str, Derived[Any, Any]], ahead: Ahead | None = None
    ) -> None:
        """`answers` are those of now, `derived` works out again what has to be; `ahead` has found it out already."""
        self._record = record
        self._answers = answers
        self._derived = derived
        self._known: dict[int, bool] = {}
        self._stale: Set[int] | None = None
        self.told: Told | None = None
        """What was worked out again by whoever looked ahead; the numbers from the record's own on are new."""
        if ahead is not None:
            self._stale, self.told = ahead.stale, ahead.told
            same = ((number, digest) for number, digest in record.answers.items() if number not in ahead.stale)
            answers.know(
                {record.asked[number]: digest for number, digest in (*same, *ahead.digests.items())}, ahead.entries
            )

    def page(self, path: str) -> KeptPage | None:
        """A page or a file as it was written, where it would be the same now."""
        kept = self._record.pages.get(path)
        return kept if kept is not None and self.stale.isdisjoint(kept.asked) else None

    @property
    def stale(self) -> Set[int]:
        """The questions that have another answer now."""
        if self._stale is None:
            self._stale = {each for each in (*self._record.answers, *self._record.derived) if not self.same(each)}
        return self._stale

    def same(self, question: int) -> bool:
        """Whether a question has the answer that it had."""
        known = self._known.get(question)
        if known is None:
            known = self._known[question] = self._same(question)
        return known

    def _same(self, question: int) -> bool:
        name, key = self._record.asked[question]
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


def looked_ahead(known: Record, answers: Answers, derived: Mapping[str, Derived[Any, Any]]) -> Ahead:
    """Find out which answers of a record are others now."""
    stale = Freshness(known, answers, derived).stale
    notes = Notes(questions=Questions(known.asked))
    notes.derived |= worked_out(derived, answers, notes.questions)
    return Ahead(
        stale=frozenset(stale),
        digests={each: answers.digest(*known.asked[each]) for each in stale if each in known.answers},
        entries={each: digest for each, digest in answers.entries.items() if each not in known.entries},
        told=notes.told(len(known.asked)),
    )


def worked_out(derived: Mapping[str, Derived[Any, Any]], answers: Answers, questions: Questions) -> dict[int, Answered]:
    """What was worked out so far, for the next build."""
    return {
        questions.number((name, key_text(key))): Answered(
            digest=answers.digest_of(value), asked=questions.numbers(asked)
        )
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
    derived: dict[int, Answered] = {}
    asked: set[int] = set()
    open_: set[int] = set().union(*(page.asked for page in notes.pages.values()))
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
    made = Record(
        values=values,
        pages=notes.pages,
        asked=notes.questions.asked,
        answers={each: answers.digest(*notes.questions.asked[each]) for each in asked},
        derived=derived,
        entries=dict(answers.entries),
        earlier=before.values if before is not None else {},
    )
    return _packed(made) if len(notes.questions.asked) > (len(asked) + len(derived)) * _IDLE // (_IDLE - 1) else made


def _packed(made: Record) -> Record:
    """Without the questions that nobody asks any more."""
    used = sorted({*made.answers, *made.derived})
    to = {number: place for place, number in enumerate(used)}

    def of(numbers: Iterable[int]) -> tuple[int, ...]:
        return tuple(map(to.__getitem__, numbers))

    return replace(
        made,
        pages={path: replace(each, asked=of(each.asked)) for path, each in made.pages.items()},
        asked=[made.asked[number] for number in used],
        answers={to[number]: digest for number, digest in made.answers.items()},
        derived={to[number]: replace(each, asked=of(each.asked)) for number, each in made.derived.items()},
    )
