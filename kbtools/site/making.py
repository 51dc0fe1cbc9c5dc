"""All generated pages of one build: made, or taken as they stand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from operator import attrgetter
from pathlib import Path
from typing import Any, Final

from jinja2 import Environment

from kbtools.edges.beside import beside, in_turns, two_at_once
from kbtools.edges.rendering import Renderer
from kbtools.index.answers import Index
from kbtools.index.asked import Answers
from kbtools.model.memory import Memory
from kbtools.pages.catalogue import Catalogue
from kbtools.site.framing import Frame
from kbtools.site.kept_pages import Freshness, KeptPage, Notes, Questions, Record, Told, record, worked_out
from kbtools.site.last_build import LastBuild, Stood
from kbtools.site.page_maker import page_maker
from kbtools.site.stamps import Stamps, marks
from kbtools.site.taken_over import TakenOver
from kbtools.site.written_pages import Output, Writer, path_of

MUCH: Final = 1_500_000
"""Bytes of pages and files, as they were, that are worth a second process; one that was not there counts for few."""
_UNKNOWN: Final = 1_000
_MOST_PARTS: Final = 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """What the generated pages are made with."""

    catalogue: Catalogue
    """The pages."""
    index: Index
    """Of the knowledge base, without notes being taken."""
    others: Mapping[str, Mapping[Any, Any]]
    """What else is asked, by the name under which it is noted."""
    renderer: Renderer
    """Of articles; it takes notes in the catalogue's log."""
    frame: Frame
    """Of the build, with its values."""
    values: Stamps
    """What changes with each build."""
    data: Mapping[str, Mapping[str, bytes]]
    """Files in folders whose names say their content, by name; the folders by the names of their values in `Stamps`."""

    def write(self, site: Path, environment: Environment, memory: Memory, last: LastBuild | None, key: str) -> Notes:
        """Write all pages into a folder.

        Args:
            site: the folder.
            environment: MkDocs' own, with the templates of the frame.
            memory: is told of this build.
            last: what is known of the last one; None: nobody wants to know.
            key: changes with whatever may change every page.
        """
        marked = marks()
        frame = self.frame.with_values(marked)
        make = page_maker(environment, self.renderer, frame, marked.several)
        writer = Writer(site, make, self.catalogue.log, marked, self.values)
        before = last.record(key) if last is not None else None
        answers = Answers(self.index, self.others, before.entries if before is not None else None)
        notes = Notes(questions=Questions(before.asked if before is not None else ()))
        if before is not None and last is not None:
            fresh = last.fresh(before, answers, self.catalogue.log.derived)
            left = self._taken(writer, before, fresh, last.stood, notes)
        else:
            left = self.catalogue.in_order()
            for name, contents in self.data.items():
                writer.data(getattr(self.values, name), contents, None)
        self._write(writer, left, {} if before is None else before.pages, answers, notes)
        if last is not None:
            last.keep(memory, key, record(self.values.by_name(), notes, before, answers))
        return notes

    def _taken(self, writer: Writer, before: Record, fresh: Freshness, stood: Stood, notes: Notes) -> Sequence[Output]:
        """Take what would be as it was, first where it need not be written.

        Returns:
            The others.
        """
        now = self.values.by_name()
        names = {before.earlier[name]: now[name] for name in self.data if name in before.earlier}
        if fresh.told is not None:
            notes.add(fresh.told, len(before.asked))
        over = TakenOver(writer.site, stood.spare if before.earlier else None, names)
        left = writer.keep(self.catalogue.in_order(), over, before, fresh, notes)
        data = {name: over.lacking(now[name], contents) for name, contents in self.data.items()}
        over.sweep()
        for name, contents in data.items():
            writer.data(now[name], contents, stood.site / before.values[name])
        return writer.take(left, stood.site, before, fresh, notes)

    def _write(
        self, writer: Writer, left: Sequence[Output], known: Mapping[str, KeptPage], answers: Answers, notes: Notes
    ) -> None:
        """Make what is left, by two processes if it is much; `known` are the pages as they were."""

        def written(parts: Iterable[Sequence[Output]], notes: Notes) -> None:
            for each in parts:
                writer.write(each, notes)
            notes.derived |= worked_out(self.catalogue.log.derived, answers, notes.questions)

        size = sum(_UNKNOWN if (page := known.get(path_of(each))) is None else page.size for each in left)
        if size >= MUCH and two_at_once():
            _by_two(written, _parts(left), notes)
        else:
            written([left], notes)


def _by_two(
    written: Callable[[Iterable[Sequence[Output]], Notes], None], parts: Sequence[Sequence[Output]], notes: Notes
) -> None:
    """Have parts written, each by that of two processes which is free."""
    start = len(notes.questions.asked)
    taken: set[int] = set()

    def own() -> Iterator[Sequence[Output]]:
        for number in numbers:
            taken.add(number)
            yield parts[number]

    def elsewhere() -> Told:
        others = Notes(questions=notes.questions)
        written(own(), others)
        return others.told(start)

    with in_turns(len(parts)) as numbers, beside(elsewhere) as second:
        written(own(), notes)
        told = second()
    if told is not None:
        notes.add(told, start)
    else:
        written([part for number, part in enumerate(parts) if number not in taken], notes)


def _parts(outputs: Sequence[Output]) -> list[Sequence[Output]]:
    """Those of one group, which share what they are made from; of none each by itself, or few together of very many."""
    found: list[Sequence[Output]] = [
        list(each) for group, each in groupby(outputs, key=attrgetter("group")) if group != ""
    ]
    alone = [each for each in outputs if each.group == ""]
    together = len(alone) // _MOST_PARTS + 1
    return [*found, *(alone[at : at + together] for at in range(0, len(alone), together))]


def weight(page: KeptPage | None, pictures: Mapping[str, int]) -> int:
    """Bytes of a page and of what it shows, as a telephone keeps it; 0 of a page that is not there."""
    return 0 if page is None else page.size + sum(pictures.get(each, 0) for each in page.pictures)
