"""Reports on their way into a base, checked as the files that they would be: all in one run with all that is there."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable, Container, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from kbtools.diagnostics import Finding, in_order
from kbtools.edges import cache, git
from kbtools.edges.checking import findings_of
from kbtools.edges.rulebook import rulebook
from kbtools.intake.pending import Pending, refuses
from kbtools.linting.run import examine
from kbtools.reading.reader import Reading
from kbtools.reading.source import SourceFile


@dataclass(frozen=True, slots=True, kw_only=True)
class Checking:
    """What reports are checked with."""

    folder: Path
    """Of the knowledge base."""
    today: dt.date
    """The day from which the next one is the future."""
    memory: cache.Cache
    """What is kept of earlier runs."""
    sources: Mapping[str, SourceFile]
    """The files that are there, by path."""
    read: Callable[[Iterable[SourceFile]], Reading]
    """Reads a whole base."""

    def findings(self, pending: Sequence[Pending]) -> list[tuple[Finding, ...]]:
        """The findings of each, those of its form among them, in order; paths are the reports' names."""
        return self._checked(pending, {})

    def _checked(self, pending: Sequence[Pending], beside: Mapping[str, SourceFile]) -> list[tuple[Finding, ...]]:
        """The findings of each.

        Args:
            pending: with their files.
            beside: files that have been found good, as if they were there.
        """
        own = {
            path: SourceFile(path=path, data=each.text)
            for number, each in enumerate(pending)
            if each.text and (path := each.path(number)) is not None
        }
        found: dict[str, list[Finding]] = {}
        for finding in self._examined({**beside, **own}) if own else ():
            found.setdefault(finding.path, []).append(finding)
        elsewhere = self._new_elsewhere(found, {*own, *beside})
        if elsewhere and len(own) > 1:
            # One of them makes another file wrong. The half that does not need not wait for it.
            middle = len(pending) // 2
            first = self._checked(pending[:middle], beside)
            good = [each for each, told in zip(pending[:middle], first, strict=True) if not refuses(told)]
            files_of = {each.place.path: own[each.place.path] for each in good if each.place and each.text}
            return [*first, *self._checked(pending[middle:], {**beside, **files_of})]
        told = []
        for number, each in enumerate(pending):
            ours = found.get(each.path(number) or "", ()) if each.text else ()
            placed = [each.in_report(finding) for finding in ours if not each.has_told(finding)]
            there = elsewhere if each.text else ()
            told.append(tuple(in_order([*each.report.findings, *each.findings, *placed, *there])))
        return told

    def _examined(self, own: Mapping[str, SourceFile]) -> Sequence[Finding]:
        reading = self.read({**self.sources, **own}.values())
        touched = git.edited(self.folder) | own.keys()
        reading = dataclasses.replace(reading, base=dataclasses.replace(reading.base, touched=touched))
        return examine(reading, rulebook(), self.today).findings

    def _new_elsewhere(self, found: Mapping[str, Sequence[Finding]], own: Container[str]) -> tuple[Finding, ...]:
        """Errors in other files that were not there before; a sound base need not be looked at for that."""
        others = [
            each for path, group in found.items() if path not in own for each in group if each.severity == "error"
        ]
        if not others:
            return ()
        old = {
            (each.rule, each.path, each.message)
            for each in findings_of(list(self.sources.values()), self.today, self.memory).findings
        }
        return tuple(each for each in others if (each.rule, each.path, each.message) not in old)
