"""Reports into the folder of a knowledge base: placed, checked in one run with all that is there, and written."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal

from kbtools.diagnostics import Finding
from kbtools.edges import cache
from kbtools.edges import garbage as collector
from kbtools.edges.checking import changes_from_here
from kbtools.edges.folder import files
from kbtools.edges.intake_check import Checking
from kbtools.edges.pictures import looked_at
from kbtools.edges.shipped import shapes, tables
from kbtools.edges.writing import put_in_place, put_new
from kbtools.index.build import build_index
from kbtools.intake.pending import Pending, error_in, find_place, refuses
from kbtools.intake.register import Register
from kbtools.intake.report import Report
from kbtools.model.base import KnowledgeBase
from kbtools.reading.crowd import gathered
from kbtools.reading.layout import place_of
from kbtools.reading.one_file import read_file
from kbtools.reading.reader import Reading, read
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile

if TYPE_CHECKING:
    from kbtools.changes.compare import Compared

_ROUNDS: Final = 5
"""Reports about the case of another one wait for that; who hands in longer chains at once hands in the rest again."""

Became = Literal["written", "updated", "there", "refused"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Filed:
    """What became of a report."""

    report: Report
    """The report."""
    became: Became
    """`there`: the case was there already, and stays as it is."""
    path: str | None
    """Of the case's file, relative to the knowledge base's folder; None where it was refused."""
    findings: tuple[Finding, ...]
    """What is wrong with it, in order; paths are the report's name. Of what is not refused: warnings."""
    said: tuple[str, ...]
    """What to tell beside that, sentences. Hostile."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """What became of several reports that were handed in together."""

    filed: tuple[Filed, ...]
    """In the order of the reports."""
    changes: Compared | None
    """What the cases change in the published advice; None where none was written."""


def take_in(
    folder: Path,
    handed_in: Callable[[KnowledgeBase, Mapping[str, Shape]], Sequence[Report]],
    today: dt.date,
    kept: Path | None = None,
    step: Callable[[], None] = lambda: None,
) -> TakenIn:
    """File reports as cases: each whole or not at all. All are checked in one run.

    Args:
        folder: of the knowledge base.
        handed_in: reads the reports; gets the base that they name things of, and the schemas.
        today: the day from which the next one is the future.
        kept: folder of the cache; None: without one.
        step: called twice for each report, once it has its place and once it is filed or refused.

    Raises:
        OSError: a file cannot be written; the reports before it are.
    """
    filed: dict[int, Filed] = {}
    with collector.held_back(), cache.opened(kept, today.toordinal()) as memory:
        desk = _Desk(folder, today, memory, step)
        waiting = dict(enumerate(handed_in(desk.base, desk.shapes)))
        for _ in range(_ROUNDS):
            filed |= desk.take(waiting)
            waiting = {number: report for number, report in waiting.items() if number not in filed}
            if not waiting:
                break
        filed |= {number: _too_many(report) for number, report in waiting.items()}
        return TakenIn(filed=tuple(filed[number] for number in sorted(filed)), changes=desk.changes())


class _Desk:
    def __init__(self, folder: Path, today: dt.date, memory: cache.Cache, step: Callable[[], None]) -> None:
        self._folder, self._today, self._memory, self._step = folder, today, memory, step
        self.shapes = shapes()
        self._sources = {each.path: each for each in gathered(looked_at(files(folder), memory))}
        self._now = self._before = self._read(self._sources.values())
        self._written: set[str] = set()

    def take(self, reports: Mapping[int, Report]) -> dict[int, Filed]:
        """File those that are about cases of their own; the others wait until these are filed."""
        pending = self._placed(reports, self._step)
        found = dict(zip(pending, self._checking().findings(list(pending.values())), strict=True))
        good = {number: pending[number].report for number, told in found.items() if not refuses(told)}
        # Numbers of those that are refused are not left out.
        settled = self._placed(good)
        filed = {}
        for number, each in pending.items():
            place = settled.get(number)
            filed[number] = _refused(each, found[number]) if place is None else self._write(place, found[number])
            self._step()
        self._now = self._read(self._sources.values())
        return filed

    def changes(self) -> Compared | None:
        """What all that was written changes in the advice."""
        if not self._written:
            return None
        # They load scipy, and reports that are refused need none of it.
        from kbtools.changes.compare import compared  # noqa: PLC0415

        found = compared(self._before.base, self._now.base, frozenset(self._written), self._index_of)
        return changes_from_here(found, self._folder)

    def _read(self, sources: Iterable[SourceFile]) -> Reading:
        return read(sources, self.shapes, self._memory, tables=self._memory.tables(tables()))

    @property
    def base(self) -> KnowledgeBase:
        """What is there now."""
        return self._now.base

    def _data_of(self, path: str) -> Mapping[str, Any]:
        data = read_file(place_of(path), self._sources[path], self.shapes).data
        return data if isinstance(data, dict) else {}

    def _checking(self) -> Checking:
        return Checking(
            folder=self._folder, today=self._today, memory=self._memory, sources=self._sources, read=self._read
        )

    def _placed(self, reports: Mapping[int, Report], step: Callable[[], None] = lambda: None) -> dict[int, Pending]:
        """Each that is not about the case of one before it."""
        register = Register(self._now.base, self._data_of)
        found: dict[int, Pending] = {}
        taken: set[str] = set()
        for number, report in reports.items():
            each = find_place(report, register, self._now.base, self._sources.get, self.shapes["case"].hints)
            if each.place is not None:
                if each.place.path in taken:
                    continue
                if each.place.how != "there":
                    taken.add(each.place.path)
                register.take(each.place)
            found[number] = each
            step()
        return found

    def _write(self, each: Pending, found: tuple[Finding, ...]) -> Filed:
        place = each.place
        if place is None:
            raise ValueError("A report without a place is not written")
        became: Became = "there"
        if place.how == "new":
            put_new(self._folder, place.path, each.text)
            became = "written"
        elif place.how == "update":
            if not put_in_place(self._folder, self._sources[place.path], each.text):
                moved = error_in(each.report, "", "KB311", (f"{place.path} has just been changed.", "Try it again."))
                return _refused(each, (moved,))
            became = "updated"
        if became == "there":
            return Filed(report=each.report, became=became, path=place.path, findings=(), said=each.said)
        self._written.add(place.path)
        self._sources[place.path] = SourceFile(path=place.path, data=each.text)
        return Filed(report=each.report, became=became, path=place.path, findings=found, said=each.said)

    def _index_of(self, base: KnowledgeBase) -> Any:
        return build_index(base, self._today)


def _refused(each: Pending, found: tuple[Finding, ...]) -> Filed:
    return Filed(report=each.report, became="refused", path=None, findings=found, said=())


def _too_many(report: Report) -> Filed:
    message = "Several reports that were handed in with it are about the same case."
    told = error_in(report, "", "KB311", (message, "Hand it in again."))
    return Filed(report=report, became="refused", path=None, findings=(told,), said=())
