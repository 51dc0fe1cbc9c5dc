"""All files of a knowledge base to one value, with everything that is wrong with their form."""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.diagnostics import START, Finding, in_order
from kbtools.model.base import KnowledgeBase, PictureFile
from kbtools.model.second import Stream, no_stream
from kbtools.model.vocabulary import NO_TABLES, Tables
from kbtools.model.writing import Writing, Writings
from kbtools.reading.assembly import Assembly
from kbtools.reading.contents import Contents, Memory
from kbtools.reading.crowd import gathered, overfull, without_crowd
from kbtools.reading.later import Later, may_wait
from kbtools.reading.layout import REQUIRED_FILES, Placed, clashes, place_of
from kbtools.reading.one_file import Content
from kbtools.reading.places import Document
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile, decode, form_error
from kbtools.reading.writings import name_writing


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A knowledge base that was read."""

    base: KnowledgeBase
    """What it says."""
    documents: Mapping[str, Document]
    """By path; for placing findings."""
    findings: tuple[Finding, ...]
    """What is wrong with the form of its files, in order."""


_SHOWN = frozenset({"page", "image"})
"""Kinds of files that are published as they are."""
_ENTRIES = frozenset({"model", "fault", "case"})
"""Kinds of files of which there are many, each typed by the light of the lists."""


def read(
    files: Iterable[SourceFile],
    shapes: Mapping[str, Shape],
    memory: Memory | None = None,
    *,
    tables: Tables = NO_TABLES,
    second: Stream = no_stream,
) -> Reading:
    """Read every file.

    Args:
        files: in any order, each path once.
        shapes: the schemas by kind of file.
        memory: asked for each file first; changes nothing but the time it takes.
        tables: the vocabulary that comes with the programs, handed on with the base.
        second: reads some of many new files meanwhile; changes nothing but the time it takes.

    Returns:
        The knowledge base as far as it can be read, and all findings of the families KB1 and KB2.
    """
    taken = gathered(files)
    problem = overfull(taken)
    if problem is not None:
        return Reading(base=Assembly((), shapes, frozenset()).base(), documents={}, findings=(problem,))
    placed = [(place_of(file.path), file) for file in sorted(taken, key=lambda each: each.path)]
    placed, crowd, cut = without_crowd(placed)
    lists = [each for each in placed if each[0].kind not in _ENTRIES and each[0].kind != "image"]
    assembly = Assembly(Contents(shapes, memory).of(lists), shapes, cut)
    told = _Told()
    for where, content in assembly.lists:
        told.add(content, assembly.writings(where, content))
    later = Later(placed, shapes, memory)
    entries = Contents(shapes, memory, second).of(each for each in placed if each[0].kind in _ENTRIES)
    for where, content in entries:
        assembly.entry(where, content)
        told.add(content, None if may_wait(content) else assembly.writings(where, content))
    findings = [*crowd, *told.findings]
    findings += [each for where, file in placed if where.kind == "image" for each in _unseen(file)]
    # What cannot be read is told of by that alone.
    findings += [_misplaced(where, file.path) for where, file in placed if where.problem and file.problem is None]
    findings += [_clashing(path, other) for path, other in clashes(f.path for p, f in placed if p.kind in _SHOWN)]
    present = {where.kind for where, _ in placed}
    findings += [_absent(kind) for kind in REQUIRED_FILES if kind not in present]
    base = assembly.base()
    digests = {file.path: file.digest for _, file in placed}
    names = {file.path: (name_writing(file.path),) for where, file in placed if where.kind == "image"}
    # In the order of the paths again: the lists stand among the entries.
    paths = sorted(told.documents)
    base = dataclasses.replace(
        base,
        writings=Writings({path: told.writings[path] for path in paths} | names, later.writings),
        tables=tables,
        digest=_digest(digests),
        digests=digests,
        pictures=tuple(_pictures(placed)),
        lost_pictures=frozenset(file.path for where, file in placed if where.kind == "image" and file.data is None),
        whole=not told.damaged and not cut,
    )
    findings += assembly.findings
    return Reading(
        base=base,
        documents={path: told.documents[path] for path in paths},
        findings=tuple(in_order(findings)),
    )


class _Told:
    """What is kept of each file beside its typed value."""

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.documents: dict[str, Document] = {}
        self.writings: dict[str, Sequence[Writing] | None] = {}
        self.damaged = False

    def add(self, content: Content, writings: Sequence[Writing] | None) -> None:
        path = content.document.path
        self.findings += content.findings
        self.documents[path] = content.document
        self.writings[path] = writings
        self.damaged |= bool(content.damaged)


def _misplaced(where: Placed, path: str) -> Finding:
    return form_error("KB109", path, START, where.problem or "", where.hint)


def _pictures(placed: Iterable[tuple[Placed, SourceFile]]) -> Iterator[PictureFile]:
    """The pictures that were looked at: of those the edge hands over the digest."""
    for where, file in placed:
        if where.kind == "image" and file.data:
            yield PictureFile(path=file.path, digest=file.data)


def _unseen(file: SourceFile) -> list[Finding]:
    """Why a picture is not published, if it is not."""
    if file.problem is not None and file.hint is not None:
        message = f"The picture cannot be published: {file.problem}."
        return [form_error("KB114", file.path, START, message, file.hint)]
    return decode(file)[1] if file.problem is not None else []


def _clashing(path: str, other: str) -> Finding:
    return form_error("KB109", path, START, f"It has the same address as {other}.", "Give one of them another name.")


def _digest(digests: Mapping[str, bytes]) -> str:
    digest = hashlib.sha256()
    for path, own in digests.items():
        digest.update(f"\0{path}\0".encode() + own)
    return digest.hexdigest()


def _absent(kind: str) -> Finding:
    hint = (
        "Write it. `kbtools new club FOLDER --name NAME` writes a whole base to begin with, or to copy this file from."
    )
    return form_error("KB113", f"{kind}.yml", START, f"The file {kind}.yml is missing.", hint)
