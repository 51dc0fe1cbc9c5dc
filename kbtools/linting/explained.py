"""Rules with their samples carried out: what is wrong, what the check says of it, and how to write it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import difflib
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.diagnostics import Finding, in_order
from kbtools.linting.run import Rulebook, lint, run
from kbtools.model.vocabulary import Tables
from kbtools.reading.one_file import Content
from kbtools.reading.reader import read
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile
from kbtools.rules.rule import Rule, Sample
from kbtools.rules.samples import FILES, with_bad, with_good

TODAY = dt.date(2026, 6, 1)
"""The day that the samples are about."""
FOLDER = "kb"
"""Where the sample base is said to lie: where most do."""

_NEAR = 1
"""Lines shown before and after one that matters."""
_WHOLE = 14
"""A file of so many lines is shown whole if the sample is about all of it."""
_LONGEST = 60
"""Of a sample with more lines that matter only those are shown at which something is found."""
_WORD = re.compile(r"[^\s\[\]{},:]+")

Text = tuple[str, bool]
"""A piece of a line, and whether it is what the sample is about."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line of a sample."""

    number: int
    """In its file, from 1."""
    pieces: tuple[Text, ...]
    """The line, in pieces; together they are the whole of it."""
    differs: bool
    """It does not stand so in the other sample."""
    after_gap: bool
    """Lines between the one before and this one are left out."""

    @property
    def text(self) -> str:
        """The whole line."""
        return "".join(text for text, _ in self.pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class Excerpt:
    """A part of a file."""

    path: str
    """From the folder that holds the knowledge base."""
    lines: tuple[Line, ...]
    """What is shown of it."""
    note: str | None
    """What cannot be seen in the lines, one sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Explained:
    """A rule with its sample."""

    rule: Rule
    """What is checked."""
    bad: tuple[Excerpt, ...]
    """The wrong sample, and what other files the findings stand in; empty: the rule has no sample."""
    good: tuple[Excerpt, ...]
    """How to write it."""
    findings: tuple[Finding, ...]
    """What the check says of the wrong one."""


def explained(rulebook: Rulebook, samples: Mapping[str, Sequence[Finding]]) -> tuple[Explained, ...]:
    """Every rule, by code, with what the check says of its sample."""
    return tuple(_explained(rule, samples[rule.code]) for rule in rulebook.rules)


def carried_out(rulebook: Rulebook, shapes: Mapping[str, Shape], tables: Tables) -> dict[str, tuple[Finding, ...]]:
    """Code of each rule → what is found in its wrong sample, with these schemas and tables."""
    memory = _Memory({})
    return {rule.code: tuple(_found(rule, rulebook, shapes, tables, memory)) for rule in rulebook.rules}


@dataclass(frozen=True, slots=True)
class _Memory:
    """What files said: a sample changes one file of the small base, and the others are read once for all."""

    known: dict[SourceFile, Content]

    def contents(self, files: Sequence[SourceFile]) -> Sequence[Content | None]:
        return [self.known.get(each) for each in files]

    def keep(self, file: SourceFile, content: Content) -> None:
        self.known[file] = content


def _found(
    rule: Rule, rulebook: Rulebook, shapes: Mapping[str, Shape], tables: Tables, memory: _Memory
) -> Sequence[Finding]:
    if rule.sample is None:
        return ()
    files = with_bad(rule.sample)
    reading = read([SourceFile(path=path, data=data) for path, data in files.items()], shapes, memory, tables=tables)
    found = in_order([*reading.findings, *run(rule, reading, TODAY)])
    if not found:
        # What is wrong with accepted.yml shows only beside everything else that is found.
        found = lint(reading, rulebook, TODAY)
    return found


def _explained(rule: Rule, found: Sequence[Finding]) -> Explained:
    if rule.sample is None:
        return Explained(rule=rule, bad=(), good=(), findings=())
    return Explained(
        rule=rule,
        bad=tuple(_bad(rule.sample, found)),
        good=(_good(rule.sample),),
        findings=tuple(dataclasses.replace(each, path=f"{FOLDER}/{each.path}") for each in found),
    )


def _bad(sample: Sample, found: Sequence[Finding]) -> Iterator[Excerpt]:
    wrong, right = _texts(sample)
    for path in dict.fromkeys([sample.path, *(each.path for each in found)]):
        if path == sample.path and sample.bad is None:
            yield Excerpt(path=f"{FOLDER}/{path}", lines=(), note="The file is not there.")
            continue
        own = path == sample.path
        lines = (wrong if own else FILES[path]).splitlines()
        places = {each.mark.line - 1: each.mark.column - 1 for each in found if each.path == path}
        marks = {at: _word_at(lines[at], column) for at, column in places.items() if at < len(lines)}
        differing = _differing(lines, right.splitlines())[0] if own else set()
        encoded = sample.encoding.replace("latin-1", "Latin-1")
        note = f"Saved as {encoded}." if own and sample.encoding != "utf-8" else None
        yield _excerpt(path, lines, differing, marks, note=note)


def _good(sample: Sample) -> Excerpt:
    wrong, right = _texts(sample)
    lines, others = right.splitlines(), wrong.splitlines()
    differing, gone = _differing(lines, others)
    marks = {at: _changed(lines[at], others[pair]) for at, pair in _pairs(lines, others)}
    note = None
    if sample.encoding != "utf-8":
        note = "Saved as UTF-8."
    elif sample.good_path is not None:
        note = "The same under another name."
    elif gone and not differing:
        note = "What was too much is taken out."
    near = gone | ({0} if sample.encoding != "utf-8" else set())
    return _excerpt(sample.good_path or sample.path, lines, differing, marks, near=near, note=note)


def _texts(sample: Sample) -> tuple[str, str]:
    """The sample's file, wrong and right."""
    right = with_good(sample)[sample.good_path or sample.path].decode()
    return ("" if sample.bad is None else with_bad(sample)[sample.path].decode(sample.encoding)), right


def _excerpt(  # noqa: PLR0913 - what is shown of a file is decided in several places
    path: str,
    lines: Sequence[str],
    differing: set[int],
    marks: Mapping[int, tuple[int, int]],
    *,
    near: Iterable[int] = (),
    note: str | None = None,
) -> Excerpt:
    picked = _picked(lines, differing | set(marks) | set(near))
    if len(picked) > _LONGEST:
        picked = _picked(lines, set(marks)) or picked[:_LONGEST]
    shown = []
    for place, at in enumerate(picked):
        start, end = marks.get(at, (0, 0))
        text = lines[at]
        pieces = [(text[:start], False), (text[start:end], True), (text[end:], False)]
        shown.append(
            Line(
                number=at + 1,
                pieces=tuple(piece for piece in pieces if piece[0]),
                differs=at in differing,
                after_gap=at > (picked[place - 1] + 1 if place else 0),
            )
        )
    return Excerpt(path=f"{FOLDER}/{path}", lines=tuple(shown), note=note)


def _picked(lines: Sequence[str], wanted: set[int]) -> list[int]:
    """The lines to show: those that matter, their neighbours, and the keys that they stand under."""
    if len(lines) <= _WHOLE:
        return list(range(len(lines)))
    picked = {near for at in wanted for near in range(at - _NEAR, at + _NEAR + 1)}
    for at in wanted:
        indent = _indent(lines[min(at, len(lines) - 1)])
        for above in range(at - 1, -1, -1):
            if _indent(lines[above]) < indent:
                indent = _indent(lines[above])
                picked.add(above)
    return sorted(each for each in picked if 0 <= each < len(lines))


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" \t"))


def _word_at(line: str, at: int) -> tuple[int, int]:
    word = _WORD.match(line, at)
    return (at, word.end()) if word else (at, min(at + 1, len(line)))


def _differing(lines: Sequence[str], others: Sequence[str]) -> tuple[set[int], set[int]]:
    """The lines that the other text does not have, and the places at which that one has more."""
    differing: set[int] = set()
    gone: set[int] = set()
    for tag, start, end, other, other_end in difflib.SequenceMatcher(a=lines, b=others, autojunk=False).get_opcodes():
        if tag != "equal":
            differing.update(range(start, end))
            if other_end - other > end - start:
                gone.add(start)
    return differing, gone


def _pairs(lines: Sequence[str], others: Sequence[str]) -> Iterator[tuple[int, int]]:
    """Lines that took the place of one another."""
    for tag, start, end, other, other_end in difflib.SequenceMatcher(a=lines, b=others, autojunk=False).get_opcodes():
        if tag == "replace" and end - start == other_end - other:
            yield from zip(range(start, end), range(other, other_end), strict=True)


def _changed(line: str, other: str) -> tuple[int, int]:
    """From where to where a line differs from another, in whole words; nothing, where it only lacks something."""
    start = next((at for at, (one, two) in enumerate(zip(line, other, strict=False)) if one != two), len(other))
    start = min(start, len(line))
    common = next(
        (at for at, (one, two) in enumerate(zip(line[::-1], other[::-1], strict=False)) if one != two), len(other)
    )
    end = max(len(line) - common, start)
    if start == end:
        return start, end
    while start > 0 and _WORD.match(line, start) and _WORD.match(line, start - 1):
        start -= 1
    while end < len(line) and _WORD.match(line, end - 1) and _WORD.match(line, end):
        end += 1
    return start, end
