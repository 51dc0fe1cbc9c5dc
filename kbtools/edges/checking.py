"""Reading and checking a knowledge base's folder in one go, as every door needs it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import os
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from kbtools.diagnostics import Finding, has_errors, in_order
from kbtools.edges import cache, git
from kbtools.edges import garbage as collector
from kbtools.edges.beside import second_or_none, stream_or_none
from kbtools.edges.folder import files
from kbtools.edges.pictures import looked_at
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.index.build import build_index
from kbtools.linting.run import Linted, examine, examine_change, lint
from kbtools.model.base import KnowledgeBase
from kbtools.reading.crowd import gathered
from kbtools.reading.layout import is_passed_over
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import SourceFile

if TYPE_CHECKING:
    from kbtools.changes.compare import Compared


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A knowledge base and what is wrong with it."""

    base: KnowledgeBase
    """What was read."""
    findings: tuple[Finding, ...]
    """In order, paths relative to the current directory, without those that the club accepts."""
    accepted: tuple[Finding, ...] = ()
    """Those that the club accepts in `accepted.yml`, likewise."""

    @property
    def sound(self) -> bool:
        """Whether it may be published: warnings do not count."""
        return not has_errors(list(self.findings))


def check(folder: Path, today: dt.date, kept: Path | None = None) -> Checked:
    """Read the knowledge base in a folder and run every rule.

    Args:
        folder: of the knowledge base.
        today: the day from which the next one is the future.
        kept: folder of the cache; None: without one.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    with collector.held_back(), cache.opened(kept, today.toordinal()) as memory:
        sources = gathered(looked_at(files(folder), memory))
        reading = read(sources, shapes(), memory, tables=memory.tables(tables()), second=stream_or_none)
        found = _examined(sources, today, memory, lambda: reading, git.edited(folder))
    return Checked(
        base=dataclasses.replace(reading.base, writings=reading.base.writings.settled()),
        findings=tuple(from_here(found.findings, folder)),
        accepted=tuple(from_here(found.accepted, folder)),
    )


def findings_of_new(contents: Mapping[str, bytes], today: dt.date) -> tuple[Finding, ...]:
    """What would be wrong with a knowledge base that is written nowhere yet.

    Args:
        contents: of its files, by path.
        today: as in `check`.
    """
    sources = [SourceFile(path=path, data=data) for path, data in contents.items() if not is_passed_over(path)]
    return tuple(lint(read(sources, shapes(), tables=tables()), rulebook(), today))


def findings_with(folder: Path, changed: Mapping[str, bytes], today: dt.date) -> tuple[Finding, ...]:
    """What would be wrong with a knowledge base if some of its files had another content.

    Args:
        folder: of the knowledge base.
        changed: that content, by path from the folder.
        today: as in `check`.
    """
    with cache.opened(None, today.toordinal()) as memory:
        sources = [
            dataclasses.replace(each, data=changed.get(each.path, each.data))
            for each in gathered(looked_at(files(folder), memory))
        ]
        found = lint(read(sources, shapes(), tables=tables()), rulebook(), today)
    return tuple(from_here(found, folder))


def findings_in(folder: Path, today: dt.date, kept: Path | None = None) -> Linted:
    """What `check` finds, for those who do not need the knowledge base itself: if nothing changed, nothing is read.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    with collector.held_back(), cache.opened(kept, today.toordinal()) as memory:
        sources = gathered(looked_at(files(folder), memory))
        found = findings_of(sources, today, memory, git.edited(folder))
    return Linted(
        findings=tuple(from_here(found.findings, folder)),
        accepted=tuple(from_here(found.accepted, folder)),
        looked_at=tuple(each.path for each in sources),
    )


def findings_since(
    folder: Path, today: dt.date, revision: str, kept: Path | None = None
) -> tuple[tuple[Finding, ...], int]:
    """What a branch is answerable for: all findings in the files it touches, and those elsewhere that are new with it.

    Args:
        folder: of the knowledge base, in a repository.
        today: as in `check`.
        revision: what the branch is compared with, from the point where it left it.
        kept: as in `check`.

    Returns:
        The findings, and how many others there were before.

    Raises:
        NotADirectoryError: there is no such folder.
        kbtools.edges.git.GitError: no git, no repository, no such revision.
    """
    branch = git.branch(folder, revision)
    with collector.held_back(), cache.opened(kept, today.toordinal()) as memory:
        then = gathered(git.files_at(folder, branch.start))
        here = gathered(looked_at(files(folder), memory))
        old = findings_of(then, today, memory).findings
        now = findings_of(here, today, memory, branch.touched).findings
        changed = _of_the_change(then, here, branch, memory)
    before = Counter(_sense(each) for each in old)
    shown = []
    for each in now:
        if each.path not in branch.touched and before[_sense(each)] > 0:
            # Counted off, so that the same mistake once more in the same file is seen as new.
            before[_sense(each)] -= 1
        else:
            shown.append(each)
    return tuple(from_here(in_order([*shown, *changed]), folder)), len(now) - len(shown)


def advice_since(folder: Path, today: dt.date, revision: str, kept: Path | None = None) -> Compared:
    """What the folder as it stands changes in the published advice against where it left a revision.

    Arguments and errors are those of `findings_since`; paths are relative to the current directory.
    """
    # They load scipy, and a check does without it.
    from kbtools.changes.compare import compared  # noqa: PLC0415

    branch = git.branch(folder, revision)
    with collector.held_back(), cache.opened(kept, today.toordinal()) as memory:
        then = gathered(git.files_at(folder, branch.start))
        here = gathered(looked_at(files(folder), memory))
        before, now = (read(sources, shapes(), memory, tables=memory.tables(tables())).base for sources in (then, here))
        found = compared(before, now, branch.touched, lambda base: build_index(base, today))
    return changes_from_here(found, folder)


def changes_from_here(found: Compared, folder: Path) -> Compared:
    """With paths that an editor opens from the current directory."""
    prefix = _prefix(folder)
    return dataclasses.replace(
        found,
        changes=tuple(
            dataclasses.replace(each, because=tuple(f"{prefix}{path}" for path in each.because))
            for each in found.changes
        ),
        unread=tuple((side, f"{prefix}{path}") for side, path in found.unread),
    )


def _of_the_change(
    then: Sequence[SourceFile], here: Sequence[SourceFile], branch: git.Branch, memory: cache.Cache
) -> list[Finding]:
    """What only both states together show; nothing is read where no entry and no system is touched."""
    if not any(each.startswith("faults/") or each == "systems.yml" for each in branch.touched):
        return []
    before, now = (read(sources, shapes(), memory, tables=memory.tables(tables())) for sources in (then, here))
    return examine_change(before.base, now, rulebook())


def _sense(finding: Finding) -> tuple[str, str, str]:
    """What makes two findings the same although lines have moved."""
    return (finding.rule, finding.path, finding.message)


def findings_of(
    sources: Sequence[SourceFile], today: dt.date, memory: cache.Cache, touched: frozenset[str] = frozenset()
) -> Linted:
    """What is wrong with files, wherever they come from; paths relative to the knowledge base's folder.

    Args:
        sources: the files.
        today: as in `check`.
        memory: asked first.
        touched: those that are new or edited; of two entries that are alike these are the newcomers.
    """

    def reading() -> Reading:
        return read(sources, shapes(), memory, tables=memory.tables(tables()), second=stream_or_none)

    return _examined(sources, today, memory, reading, touched)


def _examined(
    sources: Sequence[SourceFile],
    today: dt.date,
    memory: cache.Cache,
    reading: Callable[[], Reading],
    touched: frozenset[str],
) -> Linted:
    found = memory.findings(sources, today.toordinal(), touched)
    if found is None:
        every = reading()
        every = dataclasses.replace(every, base=dataclasses.replace(every.base, touched=touched))
        found = examine(every, rulebook(), today, memory, second_or_none)
        memory.keep_findings(sources, today.toordinal(), found, touched)
    return found


def from_here(findings: Iterable[Finding], folder: Path) -> list[Finding]:
    """With paths that an editor opens from the current directory."""
    start = _prefix(folder)
    return [dataclasses.replace(finding, path=f"{start}{finding.path}") for finding in findings]


def in_folder(findings: Iterable[Finding], folder: Path) -> list[Finding]:
    """The way back: with paths relative to the knowledge base's folder."""
    start = _prefix(folder)
    return [dataclasses.replace(finding, path=finding.path.removeprefix(start)) for finding in findings]


def _prefix(folder: Path) -> str:
    """What leads from the current directory to the files of a folder."""
    prefix = Path(os.path.relpath(folder)).as_posix()
    return "" if prefix == "." else f"{prefix}/"
