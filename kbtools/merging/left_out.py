"""What an entry says and its draft does not: whatever key it is, somebody is told."""

from __future__ import annotations

import json
from collections.abc import Hashable, Iterator, Mapping
from typing import Any, Final

from kbtools.merging.machines import is_held
from kbtools.merging.rows import Row, code_of, known_by
from kbtools.model.codes import CodeReading
from kbtools.model.fault import AppliesTo, CodeRow, DistinctFrom, Fault, Part, Source
from kbtools.reading.write_fault import SHARE_NAMES, plain, said

Way = tuple[str, ...]
"""Keys from the root; a row stands under its id, or whatever it is known by."""
Why = Mapping[Hashable, str]
"""Why whole rows were left out, by what these are known by."""

_DECIDED: Final = frozenset({"reviewed", "withdrawn", "draft"})
"""What a merge decides: a draft is a draft and to be reviewed anew, and what has been withdrawn is not merged."""


def left_out(entry: Fault, draft: Fault, why: Why) -> Iterator[str]:
    """A sentence for each thing that an entry says and the draft does not, plain text, hostile.

    Args:
        entry: one of the two, its causes and checks with the ids that they have in the draft.
        draft: what has become of both.
        why: reasons, where there are such.
    """
    kept = dict(said(draft))
    both = {draft.id, *draft.formerly}
    for key, value in said(entry):
        # That they are related is no news when they are one.
        told = tuple(each for each in value if each not in both) if key == "related" else value
        if key not in _DECIDED:
            for way, what in _of_value(told, kept.get(key), (key,), why):
                yield f"Left out of {entry.id}: {' / '.join(way)}{what}."


def _of_value(value: Any, kept: Any, way: Way, why: Why) -> Iterator[tuple[Way, str]]:
    """Where something is missing, and how the sentence goes on."""
    if isinstance(value, tuple):
        for each in value:
            yield from _of_member(each, kept or (), way, why)
    elif kept is not None and isinstance(plain(value), dict):
        yield from _of_mapping(value, kept, way, why)
    elif not _is_told(value, kept, way):
        yield way, f": {_written(value, way)}" + ("" if kept is None else f"; the draft has {_written(kept, way)}")


def _of_mapping(value: object, kept: object, way: Way, why: Why) -> Iterator[tuple[Way, str]]:
    there = dict(said(kept))
    for key, inner in said(value):
        yield from _of_value(inner, there.get(key), (*way, key), why)


def _of_member(member: Any, kept: tuple[Any, ...], way: Way, why: Why) -> Iterator[tuple[Way, str]]:
    if isinstance(member, Row):
        twin = next((each for each in kept if known_by(each) == known_by(member)), None)
        if twin is not None:
            yield from _of_mapping(member, twin, (*way, _name(member)), why)
        else:
            reason = why.get(known_by(member))
            yield (*way, _name(member)), f": {_written(member, way)}" if reason is None else f", since {reason}"
    elif not _is_among(member, kept, way):
        yield way, f": {_written(member, way)}"


def _is_among(member: Any, kept: tuple[Any, ...], way: Way) -> bool:
    """Whether a member of a list is told; machines and causes that are covered are all where none is named."""
    if isinstance(member, AppliesTo):
        return not kept or is_held(member, kept)
    return (way[-1] == "covers" and not kept) or any(_is_told(member, each, way) for each in kept)


def _is_told(value: object, kept: object, way: Way) -> bool:
    if isinstance(value, CodeReading) and isinstance(kept, CodeReading):
        return code_of(value) == code_of(kept)
    # Reasons are put one behind the other.
    return value == kept or (way[-2:] == ("ride_advice", "why") and str(value) in str(kept))


def _name(row: Row) -> str:
    match row:
        case CodeRow():
            return row.read.text
        case DistinctFrom():
            return row.fault
        case Part():
            return row.name
        case Source():
            return row.title
    return row.id


def _written(value: Any, way: Way) -> str:
    word = SHARE_NAMES.get(value) if way[-1] == "share" else None
    return json.dumps(word or plain(value), ensure_ascii=False, default=str)
