"""All generated pages of one build: made, or taken as they stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from jinja2 import Environment

from kbtools.edges.beside import beside, two_at_once
from kbtools.edges.rendering import Renderer
from kbtools.index.answers import Index
from kbtools.index.asked import Answers
from kbtools.model.memory import Memory
from kbtools.pages.catalogue import Catalogue
from kbtools.site.framing import Frame
from kbtools.site.kept_pages import Freshness, KeptPage, Notes, Questions, Record, record, worked_out
from kbtools.site.page_maker import page_maker
from kbtools.site.record_json import as_json, from_json
from kbtools.site.stamps import Stamps, marks
from kbtools.site.taken_over import TakenOver
from kbtools.site.written_pages import Output, Writer

_WORK: Final = "pages of a site"
MUCH: Final = 1_500
"""So many pages and files are worth a second process."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """What earlier builds left."""

    site: Path
    """The site that stands there; only looked at."""
    spare: Path | None
    """That of the build before, which may be taken apart (`kbtools.edges.spare`); None: there is none."""


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

    def write(self, site: Path, environment: Environment, memory: Memory, stood: Stood | None, key: bytes) -> Notes:
        """Write all pages into a folder.

        Args:
            site: the folder.
            environment: MkDocs' own, with the templates of the frame.
            memory: has what is known of the last build, and is told of this one.
            stood: what earlier builds left; None: nothing.
            key: changes with whatever may change every page.
        """
        marked = marks()
        frame = self.frame.with_values(marked)
        make = page_maker(environment, self.renderer, frame, marked.several)
        writer = Writer(site, make, self.catalogue.log, marked, self.values)
        before = from_json(memory.worked_out(_WORK, key)) if stood is not None else None
        answers = Answers(self.index, self.others, before.entries if before is not None else None)
        notes = Notes(questions=Questions(before.asked if before is not None else ()))
        if before is not None and stood is not None:
            left = self._taken(writer, before, Freshness(before, answers, self.catalogue.log.derived), stood, notes)
        else:
            left = self.catalogue.in_order()
            for name, contents in self.data.items():
                writer.data(getattr(self.values, name), contents, None)
        self._write(writer, left, answers, notes)
        if stood is not None:
            memory.keep_worked_out(_WORK, key, as_json(record(self.values.by_name(), notes, before, answers)))
        return notes

    def _taken(self, writer: Writer, before: Record, fresh: Freshness, stood: Stood, notes: Notes) -> Sequence[Output]:
        """Take what would be as it was, first where it need not be written.

        Returns:
            The others.
        """
        now = self.values.by_name()
        names = {before.earlier[name]: now[name] for name in self.data if name in before.earlier}
        over = TakenOver(writer.site, stood.spare if before.earlier else None, names)
        left = writer.keep(self.catalogue.in_order(), over, before, fresh, notes)
        data = {name: over.lacking(now[name], contents) for name, contents in self.data.items()}
        over.sweep()
        for name, contents in data.items():
            writer.data(now[name], contents, stood.site / before.values[name])
        return writer.take(left, stood.site, before, fresh, notes)

    def _write(self, writer: Writer, left: Sequence[Output], answers: Answers, notes: Notes) -> None:
        """Make what is left, of much the second half in a second process."""
        start = len(notes.questions.asked)

        def written(part: Sequence[Output], notes: Notes) -> Notes:
            writer.write(part, notes)
            notes.derived |= worked_out(self.catalogue.log.derived, answers, notes.questions)
            return notes

        if len(left) < MUCH or not two_at_once():
            written(left, notes)
            return
        half = _half(left)
        with beside(lambda: written(left[half:], Notes(questions=notes.questions)).told(start)) as second:
            written(left[:half], notes)
            told = second()
            if told is None:
                written(left[half:], notes)
            else:
                notes.add(told, start)


def _half(outputs: Sequence[Output]) -> int:
    """Where the second half begins, between two groups if that is near: one shares what it is made from."""
    middle = len(outputs) // 2
    near = range(middle, min(len(outputs), middle + middle // 2 + 1))
    return next((each for each in near if outputs[each].group != outputs[each - 1].group), middle)


def weight(page: KeptPage | None, pictures: Mapping[str, int]) -> int:
    """Bytes of a page and of what it shows, as a telephone keeps it; 0 of a page that is not there."""
    return 0 if page is None else page.size + sum(pictures.get(each, 0) for each in page.pictures)
