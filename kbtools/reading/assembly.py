"""The files of a knowledge base put together, each taken as it comes: of an entry its typed value alone is kept."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Protocol, TypeVar

from kbtools.diagnostics import Finding
from kbtools.model.base import HandPage, IdKind, KnowledgeBase, Repeated
from kbtools.model.case import Case
from kbtools.model.catalogue import Model, System
from kbtools.model.check import FINDS
from kbtools.model.codes import read_code
from kbtools.model.fault import Fault
from kbtools.model.shared import SHARED_PATH, SharedCheck
from kbtools.model.writing import Writing
from kbtools.reading import typed_case, typed_catalogue, typed_fault, typed_shared
from kbtools.reading.later import texts_of
from kbtools.reading.layout import REQUIRED_FILES, FileKind, Placed
from kbtools.reading.limits import MOST_SYSTEMS
from kbtools.reading.once import Once
from kbtools.reading.one_file import Content
from kbtools.reading.rows import Row
from kbtools.reading.shape import Shape
from kbtools.reading.source import form_error
from kbtools.vocabulary.tables import words_of_data


class HasId(Protocol):
    """Anything with an id and a place in a file."""

    @property
    def id(self) -> str:
        """The id."""

    @property
    def at(self) -> str:
        """JSON pointer of its row."""


RowT = TypeVar("RowT", bound=HasId)

_IDS_OF: Mapping[FileKind, IdKind] = {"model": "model", "fault": "fault", "case": "case", "systems": "system"}
"""What is not sure to be missing where files of a kind were left out."""
_NOTHING: frozenset[str] = frozenset()


class Assembly:
    """Takes first what there is one of, then the entries one by one, since these are read by the light of the former.

    The raw data of an entry has several times the size of its typed value, so that of all of them is never held.
    """

    def __init__(
        self, single: Iterable[tuple[Placed, Content]], shapes: Mapping[str, Shape], cut: frozenset[FileKind]
    ) -> None:
        """Begin.

        Args:
            single: the lists and whatever else is no entry, in the order of the paths.
            shapes: the schemas by kind of file.
            cut: kinds of which not all files were read.
        """
        self.findings: list[Finding] = []
        self._cut = cut
        self._shapes = shapes
        self.lists = list(single)
        """What was given, for whoever needs it a second time."""
        self._single = {where.kind: content for where, content in self.lists if where.kind is not None}
        self._repeated: list[Repeated] = []
        self._again: dict[IdKind, list[Repeated]] = {"model": [], "fault": [], "case": []}
        self._first: dict[IdKind, dict[str, str]] = {"model": {}, "fault": {}, "case": {}}
        self._once = Once()
        formats = typed_catalogue.code_formats(self._row("club"))
        self._read = functools.lru_cache(maxsize=None)(functools.partial(read_code, formats=formats))
        self._finds = FINDS[self._row("club").whole("format") or 1]
        self._checks = self._shared()
        self._models: dict[str, Model] = {}
        self._faults: dict[str, Fault] = {}
        self._cases: dict[str, Case] = {}
        self._double_faults: list[Fault] = []
        self._double_cases: list[Case] = []

    def entry(self, where: Placed, content: Content) -> None:
        """Take in a model, a fault or a case; those of a kind in the order of their paths."""
        path, data = content.document.path, content.data
        usable = isinstance(data, dict)
        damaged = (content.damaged or _NOTHING) if usable else frozenset({""})
        row = Row(data if usable else {}, "", self._once)
        kind: IdKind = where.kind  # type: ignore[assignment]
        first = self._first[kind].setdefault(where.id, path)
        new = first == path
        if not new:
            self._again[kind].append(Repeated(kind=kind, id=where.id, path=path, at="", first=first))
        if kind == "fault":
            fault = typed_fault.fault(where.id, path, row, damaged, self._read, finds=self._finds, shared=self._checks)
            if new:
                self._faults[where.id] = fault
            else:
                self._double_faults.append(fault)
        elif kind == "case":
            case = typed_case.case(where.id, path, row, damaged, self._read)
            if new:
                self._cases[where.id] = case
            else:
                self._double_cases.append(case)
        elif new:
            self._models[where.id] = typed_catalogue.model(where.id, path, row, damaged)

    def writings(self, where: Placed, content: Content) -> Sequence[Writing]:
        """The texts of a file, entry or not."""
        return texts_of(where, content, self._shapes, self._once)

    def base(self) -> KnowledgeBase:
        """The whole value, but for its writings, its pictures and what is told of all files."""
        systems = self._row("systems")
        return KnowledgeBase(
            club=typed_catalogue.club(self._row("club"), self._damaged("club")),
            systems=self._systems(systems),
            components=self._keyed("component", "systems.yml", typed_catalogue.components(systems)),
            access=self._keyed("access job", "systems.yml", typed_catalogue.access(systems)),
            tools=self._keyed("tool", "systems.yml", typed_catalogue.tools(systems)),
            cautions=self._keyed("caution", "cautions.yml", typed_catalogue.cautions(self._row("cautions"))),
            stop_now=tuple(typed_catalogue.stop_now(self._row("cautions"))),
            models=self._models,
            checks=self._checks,
            faults=self._faults,
            cases=self._cases,
            double_faults=tuple(self._double_faults),
            double_cases=tuple(self._double_cases),
            words=words_of_data(self._data("words"), "words"),
            accepted=tuple(typed_catalogue.accepted(self._data("accepted"), self._damaged("accepted"))),
            pages=tuple(content.data for content in self._of("page") if isinstance(content.data, HandPage)),
            unsure=frozenset(self._unsure()),
            repeated=(*self._repeated, *itertools.chain.from_iterable(self._again.values())),
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
        return (content for where, content in self.lists if where.kind == kind)

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

    def _shared(self) -> dict[str, SharedCheck]:
        rows = typed_shared.shared_checks(self._row("checks"), self._damaged("checks"), self._finds)
        return self._keyed("shared check", SHARED_PATH, rows)

    def _unsure(self) -> Iterator[IdKind]:
        yield from (_IDS_OF[kind] for kind in self._cut if kind in _IDS_OF)
        if any(where.kind is None and content.damaged for where, content in self.lists):
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
