"""What is known of the last build, and which of its answers are others now: found out while the site is filled."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from kbtools.edges.beside import beside, two_at_once
from kbtools.index.answers import Index
from kbtools.index.asked import Answers, Derived
from kbtools.model.memory import Memory
from kbtools.site.kept_pages import Ahead, Freshness, Record, looked_ahead
from kbtools.site.record_json import as_json, from_json

_WORK: Final = "pages of a site"
MUCH: Final = 10_000
"""So many questions are worth a second process."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """What earlier builds left."""

    site: Path
    """The site that stands there; only looked at."""
    spare: Path | None
    """That of the build before, which may be taken apart (`kbtools.edges.spare`); None: there is none."""


class LastBuild:
    """The record of the last build of a site."""

    def __init__(self, memory: Memory, stood: Stood, place: str) -> None:
        """Ask the memory for it.

        Args:
            memory: has it, if anybody.
            stood: what earlier builds left.
            place: of the site; one record is kept of each.
        """
        self.stood = stood
        """What earlier builds left."""
        self._place = place.encode()
        row = memory.worked_out(_WORK, self._place)
        self._record = from_json(row)
        self._key = row.get("key") if self._record is not None else None
        self._second = ExitStack()
        self._looked: Any = None

    def look_ahead(
        self, index: Index, others: Mapping[str, Mapping[Any, Any]], derived: Mapping[str, Derived[Any, Any]]
    ) -> None:
        """Begin to find out which answers are others now, in a second process if that is to be had.

        Args:
            index: of the knowledge base, without notes being taken.
            others: what else is asked, by the name under which it is noted.
            derived: what is worked out of answers.
        """
        known = self._record
        if known is not None and len(known.asked) >= MUCH and two_at_once():
            answers = Answers(index, others, known.entries)
            self._looked = self._second.enter_context(beside(lambda: looked_ahead(known, answers, derived)))

    def record(self, key: str) -> Record | None:
        """What is known, if whatever may change every page is as it was: that is what `key` says."""
        return self._record if self._key == key else None

    def fresh(self, known: Record, answers: Answers, derived: Mapping[str, Derived[Any, Any]]) -> Freshness:
        """Tells what would be the same now; waits for what was begun."""
        ahead: Ahead | None = self._looked() if self._looked is not None else None
        self.close()
        return Freshness(known, answers, derived, ahead)

    def keep(self, memory: Memory, key: str, record: Record) -> None:
        """Have the memory keep the record of this build."""
        self.close()
        memory.keep_worked_out(_WORK, self._place, {**as_json(record), "key": key})

    def close(self) -> None:
        """End what was begun, if nobody has waited for it."""
        self._looked = None
        self._second.close()
