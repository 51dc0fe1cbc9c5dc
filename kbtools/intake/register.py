"""Which case a report is about: one that is there, an earlier one that it goes on with, or a new one."""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import PurePosixPath
from typing import Any, Literal

from kbtools.drafting.naming import next_case_id
from kbtools.index.cases import counted
from kbtools.index.entries import ids_by_path
from kbtools.index.events import EventKey, counting, event_keys, events, last_of, same_event
from kbtools.intake.merged import merged
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.code_reading import read_code
from kbtools.reading.rows import Row
from kbtools.reading.typed_case import case as typed

Data = Mapping[str, Any]


class WrongMachineError(ValueError):
    """A report goes on with a case of another machine; the words say so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a report goes."""

    how: Literal["new", "update", "there"]
    """A file of its own, another content for one that is there, or nothing to be written."""
    path: str
    """Of the file, relative to the knowledge base's folder."""
    data: Data
    """What the file is to say, or says."""
    otherwise: tuple[str, ...] = ()
    """Keys that the report says otherwise than the case that is there and counts, which stays as it is."""


class Register:
    """All cases, those of the reports before among them."""

    def __init__(self, base: KnowledgeBase, data_of: Callable[[str], Data]) -> None:
        """Take the cases of a base.

        Args:
            base: the knowledge base.
            data_of: from the path of a case's file to what it says.
        """
        formats = base.club.code_formats if base.club is not None else ()
        self._read = functools.lru_cache(maxsize=None)(functools.partial(read_code, formats=formats))
        self._base, self._data_of = base, data_of
        self._cases: dict[str, Case] = {}
        """Those of this run, by id, in the place of those of the base."""
        self._data: dict[str, Data] = {}
        self._events: dict[EventKey, list[str]] = {}
        self._last: dict[str, int] = {}

    def place(self, data: Data) -> Place:
        """Where a report goes.

        Args:
            data: what it says, in the form of a case's file, `model`, `year` and `seen` among it.

        Raises:
            WrongMachineError: it goes on with a case of another machine.
        """
        case = self._typed(data, "", "")
        earlier = self._earlier(case, data)
        if earlier is None:
            return self._new(data)
        whole = merged(self._said(earlier), data)
        if _sense(self._typed(whole, "", "")) == _sense(earlier):
            return Place(how="there", path=earlier.path, data=self._said(earlier))
        if not self._counts(earlier):
            return Place(how="update", path=earlier.path, data=whole)
        if data.get("follows") is not None and case.seen != earlier.seen:
            # It was over, and has come back: another case.
            return self._new(data)
        differing = tuple(key for key, value in whole.items() if value != self._said(earlier).get(key))
        return Place(how="there", path=earlier.path, data=self._said(earlier), otherwise=differing)

    def take(self, place: Place) -> None:
        """Take in a report that has its place, so that the next ones are held against it."""
        if place.how != "there":
            case = self._typed(place.data, PurePosixPath(place.path).stem, place.path)
            self._cases[case.id], self._data[case.path] = case, place.data
            for key in event_keys(case):
                self._events.setdefault(key, []).append(case.id)

    def _new(self, data: Data) -> Place:
        model, year = data["vehicle"]["model"], str(data["seen"])[:4]
        if model not in self._last:
            first = next_case_id(model, ids_by_path(self._base).values())
            self._last[model] = int(first.rsplit("-", 1)[1]) - 1
        self._last[model] += 1
        return Place(how="new", path=f"cases/{year}/{model}-{self._last[model]:04}.yml", data=data)

    def _earlier(self, case: Case, data: Data) -> Case | None:
        """The case that the report names as the earlier one, or that tells of the same event."""
        named = data.get("follows")
        if named is not None and named in self._base.cases:
            found = self._case(last_of(self._base, named))
            same = [getattr(each.vehicle, key) for key in ("model", "year") for each in (case, found)]
            bikes = {case.vehicle.bike, found.vehicle.bike} - {None}
            if same[0] != same[1] or same[2] != same[3] or len(bikes) > 1:
                raise WrongMachineError(f'"{named}" is a case of another machine.')
            if case.fault is None or found.fault is None or case.fault == found.fault:
                return found
        for key in event_keys(case):
            ids = [*(each.id for each in events(self._base).get(key, ())), *self._events.get(key, ())]
            for each in ids:
                if same_event(case, self._case(each)):
                    return self._case(each)
        return None

    def _case(self, identity: str) -> Case:
        return self._cases.get(identity) or self._base.cases[identity]

    def _said(self, case: Case) -> Data:
        return self._data[case.path] if case.path in self._data else self._data_of(case.path)

    def _counts(self, case: Case) -> bool:
        if case.id not in self._cases:
            return case.id in counting(self._base)
        fault = self._base.faults.get(case.fault or "")
        return fault is not None and any(counted(fault, (case,), self._base).values())

    def _typed(self, data: Data, identity: str, path: str) -> Case:
        return typed(identity, path, Row(dict(data), ""), frozenset(), self._read)


def _sense(case: Case) -> Case:
    """A case without what does not make it another one."""
    return replace(
        case,
        id="",
        path="",
        damaged=frozenset(),
        source=None,
        codes=tuple(replace(each, at="") for each in case.codes),
        tried=tuple(replace(each, at="") for each in case.tried),
    )
