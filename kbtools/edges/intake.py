"""Reports into the folder of a knowledge base: placed, checked in one run with all that is there, and written."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable, Container, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal

from kbtools.diagnostics import START, Finding, has_errors, in_order
from kbtools.drafting.entries import NewFile, text_of
from kbtools.edges import cache, git
from kbtools.edges import garbage as collector
from kbtools.edges.checking import changes_from_here, findings_of
from kbtools.edges.folder import files
from kbtools.edges.pictures import looked_at
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.edges.writing import put_in_place, put_new
from kbtools.index.build import build_index
from kbtools.intake.entry import entry_today
from kbtools.intake.personal import is_personal
from kbtools.intake.placing import pointer_at
from kbtools.intake.register import Place, Register, WrongMachineError
from kbtools.intake.report import Report
from kbtools.intake.rewritten import rewritten
from kbtools.linting.run import examine
from kbtools.model.base import KnowledgeBase
from kbtools.reading.crowd import gathered
from kbtools.reading.layout import place_of
from kbtools.reading.one_file import read_file
from kbtools.reading.places import Document
from kbtools.reading.reader import Reading, read
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile

if TYPE_CHECKING:
    from kbtools.changes.compare import Compared

_FORM: Final = ("KB1", "KB2")
"""Families of findings that a report's own reading has told already."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pending:
    report: Report
    place: Place | None
    text: bytes
    findings: tuple[Finding, ...]
    said: tuple[str, ...]


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
        checked = self._checked(list(pending.values()), {})
        found = dict(zip(pending, checked, strict=True))
        good = {number: pending[number].report for number, told in found.items() if not _refuses(told)}
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

    # Each to its place

    def _placed(self, reports: Mapping[int, Report], step: Callable[[], None] = lambda: None) -> dict[int, _Pending]:
        """Each that is not about the case of one before it."""
        register = Register(self._now.base, self._data_of)
        found: dict[int, _Pending] = {}
        taken: set[str] = set()
        for number, report in reports.items():
            each = self._place(report, register)
            if each.place is not None:
                if each.place.path in taken:
                    continue
                if each.place.how != "there":
                    taken.add(each.place.path)
                register.take(each.place)
            found[number] = each
            step()
        return found

    def _place(self, report: Report, register: Register) -> _Pending:
        if report.data is None:
            return _pending(report, text=(report.broken or "").encode())
        today = entry_today(report.data, self._now.base)
        data = {**report.data, "fault": today.fault} if today.fault is not None else report.data
        said: tuple[str, ...] = (today.said,) if today.said is not None else ()
        if today.refused:
            return _pending(report, findings=(_error(report, "/fault", "KB310", (today.said or "", today.hint)),))
        try:
            place = register.place(data)
        except WrongMachineError as error:
            hint = "Take `follows` out, or correct model, year or bike."
            return _pending(report, findings=(_error(report, "/follows", "KB311", (str(error), hint)),))
        if place.otherwise:
            said += (f"It says something else about: {', '.join(place.otherwise)}. {place.path} counts already.",)
        return self._with_text(report, place, said)

    def _with_text(self, report: Report, place: Place, said: tuple[str, ...]) -> _Pending:
        if place.how == "there":
            return _pending(report, place=place, said=said)
        before = self._sources.get(place.path)
        if place.how == "update" and before is not None:
            text = rewritten((before.data or b"").decode("utf-8-sig"), place.data, self.shapes["case"].hints)
        else:
            new = NewFile(path=place.path, kind="case", data=place.data, notes=())
            text = text_of(new, self.shapes["case"].hints, None)
        return _pending(report, place=place, text=text.encode(), said=said)

    # All in one check

    def _checked(self, pending: Sequence[_Pending], beside: Mapping[str, SourceFile]) -> list[tuple[Finding, ...]]:
        """The findings of each, those of its form among them.

        Args:
            pending: with their files.
            beside: files that have been found good, as if they were there.
        """
        own = {
            path: SourceFile(path=path, data=each.text)
            for number, each in enumerate(pending)
            if each.text and (path := _path_of(number, each)) is not None
        }
        found: dict[str, list[Finding]] = {}
        for finding in self._examined({**beside, **own}) if own else ():
            found.setdefault(finding.path, []).append(finding)
        elsewhere = self._new_elsewhere(found, {*own, *beside})
        if elsewhere and len(own) > 1:
            # One of them makes another file wrong. The half that does not need not wait for it.
            middle = len(pending) // 2
            first = self._checked(pending[:middle], beside)
            good = [each for each, told in zip(pending[:middle], first, strict=True) if not _refuses(told)]
            files_of = {each.place.path: own[each.place.path] for each in good if each.place and each.text}
            return [*first, *self._checked(pending[middle:], {**beside, **files_of})]
        told = []
        for number, each in enumerate(pending):
            ours = found.get(_path_of(number, each) or "", ()) if each.text else ()
            placed = [self._in_report(each, finding) for finding in ours if not _told(each, finding)]
            there = elsewhere if each.text else ()
            told.append(tuple(in_order([*each.report.findings, *each.findings, *placed, *there])))
        return told

    def _examined(self, own: Mapping[str, SourceFile]) -> Sequence[Finding]:
        reading = self._read({**self._sources, **own}.values())
        touched = git.edited(self._folder) | own.keys()
        reading = dataclasses.replace(reading, base=dataclasses.replace(reading.base, touched=touched))
        return examine(reading, rulebook(), self._today).findings

    def _new_elsewhere(self, found: Mapping[str, Sequence[Finding]], own: Container[str]) -> tuple[Finding, ...]:
        """Errors in other files that were not there before; a sound base need not be looked at for that."""
        others = [
            each for path, group in found.items() if path not in own for each in group if each.severity == "error"
        ]
        if not others:
            return ()
        old = {
            (each.rule, each.path, each.message)
            for each in findings_of(list(self._sources.values()), self._today, self._memory).findings
        }
        return tuple(each for each in others if (each.rule, each.path, each.message) not in old)

    def _in_report(self, each: _Pending, finding: Finding) -> Finding:
        """A finding in the file that would be written, where the report says it."""
        if each.report.broken is not None:
            return each.report.placed(finding)
        written = Document(path=finding.path, text=each.text.decode())
        pointer = pointer_at(written, finding.mark, each.place.data if each.place is not None else {})
        return _at(each.report, pointer, finding)

    # Onto the disk

    def _write(self, each: _Pending, found: tuple[Finding, ...]) -> Filed:
        place = each.place
        if place is None:
            raise ValueError("A report without a place is not written")
        became: Became = "there"
        if place.how == "new":
            put_new(self._folder, place.path, each.text)
            became = "written"
        elif place.how == "update":
            if not put_in_place(self._folder, self._sources[place.path], each.text):
                moved = _error(each.report, "", "KB311", (f"{place.path} has just been changed.", "Try it again."))
                return _refused(each, (moved,))
            became = "updated"
        if became == "there":
            return Filed(report=each.report, became=became, path=place.path, findings=(), said=each.said)
        self._written.add(place.path)
        self._sources[place.path] = SourceFile(path=place.path, data=each.text)
        return Filed(report=each.report, became=became, path=place.path, findings=found, said=each.said)

    def _index_of(self, base: KnowledgeBase) -> Any:
        return build_index(base, self._today)


def _pending(
    report: Report,
    *,
    place: Place | None = None,
    text: bytes = b"",
    findings: tuple[Finding, ...] = (),
    said: tuple[str, ...] = (),
) -> _Pending:
    return _Pending(report=report, place=place, text=text, findings=findings, said=said)


def _path_of(number: int, each: _Pending) -> str | None:
    """The path under which a report is checked; of one whose form is wrong a made-up one."""
    if each.place is not None:
        return each.place.path
    return f"cases/2000/unread-{number:06}.yml" if each.text else None


def _told(each: _Pending, finding: Finding) -> bool:
    """Whether the reading of the report has told it."""
    return each.report.broken is not None and finding.rule.startswith(_FORM)


def _refuses(found: Sequence[Finding]) -> bool:
    return has_errors(list(found)) or any(is_personal(each) for each in found)


def _refused(each: _Pending, found: tuple[Finding, ...]) -> Filed:
    return Filed(report=each.report, became="refused", path=None, findings=found, said=())


def _too_many(report: Report) -> Filed:
    message = "Several reports that were handed in with it are about the same case."
    told = _error(report, "", "KB311", (message, "Hand it in again."))
    return Filed(report=report, became="refused", path=None, findings=(told,), said=())


def _error(report: Report, pointer: str, rule: str, words: tuple[str, str]) -> Finding:
    """An error at a place of a report: what is wrong, and what to do."""
    made = Finding(rule=rule, severity="error", path="", mark=START, message=words[0], hint=words[1])
    return _at(report, pointer, made)


def _at(report: Report, pointer: str, finding: Finding) -> Finding:
    """A finding, at a place of a report."""
    mark = report.document.value(pointer) if report.document is not None else START
    place = report.where(pointer) if report.where is not None else ""
    words = f"{place}: " if place else ""
    return report.placed(dataclasses.replace(finding, mark=mark, message=f"{words}{finding.message}"))
