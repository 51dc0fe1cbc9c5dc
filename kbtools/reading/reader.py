"""All files of a knowledge base to one value, with everything that is wrong with their form."""

from __future__ import annotations

import dataclasses
import functools
import hashlib
import itertools
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Protocol, TypeVar

from kbtools.diagnostics import START, Finding, in_order
from kbtools.model.base import HandPage, IdKind, KnowledgeBase, PictureFile, Repeated
from kbtools.model.case import Case
from kbtools.model.catalogue import Model, System
from kbtools.model.check import FINDS
from kbtools.model.codes import read_code
from kbtools.model.fault import Fault
from kbtools.model.shared import SHARED_PATH, SharedCheck
from kbtools.model.vocabulary import NO_TABLES, Tables
from kbtools.model.writing import Writing
from kbtools.reading import typed_case, typed_catalogue, typed_fault, typed_shared
from kbtools.reading.crowd import gathered, overfull, without_crowd
from kbtools.reading.layout import REQUIRED_FILES, FileKind, Placed, clashes, place_of
from kbtools.reading.limits import MOST_SYSTEMS
from kbtools.reading.one_file import Content, read_file
from kbtools.reading.places import Document
from kbtools.reading.rows import Row
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile, decode, form_error
from kbtools.reading.writings import file_writings, name_writing, page_writings
from kbtools.vocabulary.tables import words_of_data


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A knowledge base that was read."""

    base: KnowledgeBase
    """What it says."""
    documents: Mapping[str, Document]
    """By path; for placing findings."""
    findings: tuple[Finding, ...]
    """What is wrong with the form of its files, in order."""


class Memory(Protocol):
    """What files said when they were read before, so that an unchanged one need not be read again."""

    def content(self, file: SourceFile) -> Content | None:
        """What this very file said; None where that is not known."""

    def keep(self, file: SourceFile, content: Content) -> None:
        """Take in what a file said."""


class HasId(Protocol):
    """Anything with an id and a place in a file."""

    @property
    def id(self) -> str:
        """The id."""

    @property
    def at(self) -> str:
        """JSON pointer of its row."""


_IDS_OF: Mapping[FileKind, IdKind] = {"model": "model", "fault": "fault", "case": "case", "systems": "system"}
"""What is not sure to be missing where files of a kind were left out."""
_SHOWN = frozenset({"page", "image"})
"""Kinds of files that are published as they are."""

RowT = TypeVar("RowT", bound=HasId)


def read(
    files: Iterable[SourceFile],
    shapes: Mapping[str, Shape],
    memory: Memory | None = None,
    *,
    tables: Tables = NO_TABLES,
) -> Reading:
    """Read every file.

    Args:
        files: in any order, each path once.
        shapes: the schemas by kind of file.
        memory: asked for each file first; changes nothing but the time it takes.
        tables: the vocabulary that comes with the programs, handed on with the base.

    Returns:
        The knowledge base as far as it can be read, and all findings of the families KB1 and KB2.
    """
    taken = gathered(files)
    problem = overfull(taken)
    if problem is not None:
        return Reading(base=_Assembly([], shapes).base(), documents={}, findings=(problem,))
    placed = [(place_of(file.path), file) for file in sorted(taken, key=lambda each: each.path)]
    placed, crowd, cut = without_crowd(placed)
    contents = [(where, _content(where, file, shapes, memory)) for where, file in placed if where.kind != "image"]
    findings = [*crowd, *(finding for _, content in contents for finding in content.findings)]
    findings += [each for where, file in placed if where.kind == "image" for each in _unseen(file)]
    # What cannot be read is told of by that alone.
    findings += [_misplaced(where, file.path) for where, file in placed if where.problem and file.problem is None]
    findings += [_clashing(path, other) for path, other in clashes(f.path for p, f in placed if p.kind in _SHOWN)]
    present = {where.kind for where, _ in placed}
    findings += [_absent(kind) for kind in REQUIRED_FILES if kind not in present]
    assembly = _Assembly(contents, shapes, cut)
    base = assembly.base()
    digests = {file.path: hashlib.sha256(file.data or b"").digest() for _, file in placed}
    names = (name_writing(file.path) for where, file in placed if where.kind == "image")
    base = dataclasses.replace(
        base,
        writings=(*base.writings, *names),
        tables=tables,
        digest=_digest(digests),
        digests=digests,
        pictures=tuple(_pictures(placed)),
        lost_pictures=frozenset(file.path for where, file in placed if where.kind == "image" and file.data is None),
        whole=not any(content.damaged for _, content in contents) and not cut,
    )
    findings += assembly.findings
    return Reading(
        base=base,
        documents={content.document.path: content.document for _, content in contents},
        findings=tuple(in_order(findings)),
    )


def _content(where: Placed, file: SourceFile, shapes: Mapping[str, Shape], memory: Memory | None) -> Content:
    if memory is None or where.kind in {"page", None}:
        return read_file(where, file, shapes)
    known = memory.content(file)
    if known is None:
        known = read_file(where, file, shapes)
        memory.keep(file, known)
    return known


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


class _Assembly:
    """Puts the files' contents together."""

    def __init__(
        self,
        contents: list[tuple[Placed, Content]],
        shapes: Mapping[str, Shape],
        cut: frozenset[FileKind] = frozenset(),
    ) -> None:
        """`cut`: kinds of which not all files were read."""
        self.findings: list[Finding] = []
        self._cut = cut
        self._contents = contents
        self._shapes = shapes
        self._single = {where.kind: content for where, content in contents if where.kind is not None}
        self._repeated: list[Repeated] = []
        self._doubles: dict[IdKind, list[tuple[str, str, Row, frozenset[str]]]] = {}
        formats = typed_catalogue.code_formats(self._row("club"))
        self._read = functools.lru_cache(maxsize=None)(functools.partial(read_code, formats=formats))

    def base(self) -> KnowledgeBase:
        """The whole value."""
        systems = self._row("systems")
        finds = FINDS[self._row("club").whole("format") or 1]
        shared = self._shared(finds)
        return KnowledgeBase(
            club=typed_catalogue.club(self._row("club"), self._damaged("club")),
            systems=self._systems(systems),
            components=self._keyed("component", "systems.yml", typed_catalogue.components(systems)),
            access=self._keyed("access job", "systems.yml", typed_catalogue.access(systems)),
            tools=self._keyed("tool", "systems.yml", typed_catalogue.tools(systems)),
            cautions=self._keyed("caution", "cautions.yml", typed_catalogue.cautions(self._row("cautions"))),
            stop_now=tuple(typed_catalogue.stop_now(self._row("cautions"))),
            models=self._models(),
            checks=shared,
            faults=self._faults(finds, shared),
            cases=self._cases(),
            double_faults=tuple(
                typed_fault.fault(*entry, self._read, finds=finds, shared=shared) for entry in self._double("fault")
            ),
            double_cases=tuple(typed_case.case(*entry, self._read) for entry in self._double("case")),
            words=words_of_data(self._data("words"), "words"),
            accepted=tuple(typed_catalogue.accepted(self._data("accepted"), self._damaged("accepted"))),
            pages=tuple(content.data for content in self._of("page") if isinstance(content.data, HandPage)),
            unsure=frozenset(self._unsure()),
            writings=tuple(self._writings()),
            repeated=tuple(self._repeated),
        )

    def _systems(self, row: Row) -> dict[str, System]:
        keyed = self._keyed("system", "systems.yml", typed_catalogue.systems(row))
        if len(keyed) > MOST_SYSTEMS:
            first = list(keyed.values())[MOST_SYSTEMS]
            mark = self._single["systems"].document.value(first.at)
            message = f"The knowledge base has more than {MOST_SYSTEMS} systems."
            hint = "Take out what is not needed; a component is no system."
            self.findings.append(form_error("KB121", "systems.yml", mark, message, hint))
            self._cut |= {"systems"}
        return dict(itertools.islice(keyed.items(), MOST_SYSTEMS))

    def _of(self, kind: str) -> Iterator[Content]:
        return (content for where, content in self._contents if where.kind == kind)

    def _data(self, kind: Any) -> Any:
        content = self._single.get(kind)
        return None if content is None else content.data

    def _row(self, kind: Any) -> Row:
        data = self._data(kind)
        return Row(data if isinstance(data, dict) else {}, "")

    def _damaged(self, kind: Any) -> frozenset[str]:
        content = self._single.get(kind)
        return frozenset({""}) if content is None else content.damaged

    def _keyed(self, kind: IdKind, path: str, rows: Iterable[RowT]) -> dict[str, RowT]:
        keyed: dict[str, RowT] = {}
        for row in rows:
            if row.id in keyed:
                self._repeated.append(Repeated(kind=kind, id=row.id, path=path, at=row.at, first=path))
            else:
                keyed[row.id] = row
        return keyed

    def _files(self, kind: IdKind) -> Iterator[tuple[str, str, Row, frozenset[str]]]:
        """Each file of a kind whose id is new: id, path, content, what was lost."""
        first: dict[str, str] = {}
        for where, content in self._contents:
            if where.kind != kind:
                continue
            path = content.document.path
            usable = isinstance(content.data, dict)
            damaged = content.damaged if usable else frozenset({""})
            entry = (where.id, path, Row(content.data if usable else {}, ""), damaged)
            if where.id in first:
                self._doubles.setdefault(kind, []).append(entry)
                self._repeated.append(Repeated(kind=kind, id=where.id, path=path, at="", first=first[where.id]))
                continue
            first[where.id] = path
            yield entry

    def _models(self) -> dict[str, Model]:
        return {entry[0]: typed_catalogue.model(*entry) for entry in self._files("model")}

    def _shared(self, finds: float) -> dict[str, SharedCheck]:
        rows = typed_shared.shared_checks(self._row("checks"), self._damaged("checks"), finds)
        return self._keyed("shared check", SHARED_PATH, rows)

    def _faults(self, finds: float, shared: Mapping[str, SharedCheck]) -> dict[str, Fault]:
        return {
            entry[0]: typed_fault.fault(*entry, self._read, finds=finds, shared=shared)
            for entry in self._files("fault")
        }

    def _cases(self) -> dict[str, Case]:
        return {entry[0]: typed_case.case(*entry, self._read) for entry in self._files("case")}

    def _double(self, kind: IdKind) -> list[tuple[str, str, Row, frozenset[str]]]:
        """Files of a kind whose id another one has; known once those of the kind have been gone through."""
        return self._doubles.get(kind, [])

    def _writings(self) -> Iterator[Writing]:
        for where, content in self._contents:
            if isinstance(content.data, HandPage):
                yield from page_writings(content.data.path, content.data.text)
            elif where.kind is not None and where.kind in self._shapes:
                places = self._shapes[where.kind].texts
                yield from file_writings(content.document.path, content.data, places, content.comments)

    def _unsure(self) -> Iterator[IdKind]:
        yield from (_IDS_OF[kind] for kind in self._cut if kind in _IDS_OF)
        if any(where.kind is None and content.damaged for where, content in self._contents):
            # A folder that cannot be looked into may hold any of them.
            yield from ("model", "fault", "case")
        lists: dict[str, dict[str, IdKind]] = {
            "systems": {"systems": "system", "components": "component", "access": "access job", "tools": "tool"},
            "cautions": {"cautions": "caution"},
            "checks": {"checks": "shared check"},
        }
        for file, kinds in lists.items():
            content = self._single.get(file)  # type: ignore[call-overload]
            if content is None and file not in REQUIRED_FILES:
                continue
            for key, kind in kinds.items():
                if content is None or content.data is None or any(_loses_id(each, key) for each in content.damaged):
                    yield kind


def _loses_id(pointer: str, rows: str) -> bool:
    """Whether the loss of what stands at a pointer loses an id of the list `rows` or of a list of children in it."""
    if pointer in {"", f"/{rows}"}:
        return True
    last = pointer.rsplit("/", 1)[-1]
    return pointer.startswith(f"/{rows}/") and (last in {"id", "children"} or last.isdecimal())
