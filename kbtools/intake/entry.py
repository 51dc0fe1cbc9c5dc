"""The entry that a report is about, under the id that it has today."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from kbtools.index.heirs import end_of, heirs_of_gone
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED
from kbtools.model.fault import Fault
from kbtools.text.short import short


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """What became of the entry that a report names."""

    fault: str | None
    """Its id today; None where nobody has named one."""
    said: str | None = None
    """What to tell about it, a sentence: it goes by another id than the one that was named."""
    refused: bool = False
    """Whether the report cannot stand below it; `said` tells why."""
    hint: str = ""
    """What to do then."""


def entry_today(data: Mapping[str, Any], base: KnowledgeBase) -> Today:
    """The entry of a report: an old id leads on, and a withdrawn entry to what took its place, where that fits.

    An id that is not there at all is left to the rules, which know the nearest.
    """
    named = data.get("fault")
    if named is None:
        return Today(fault=None)
    now = heirs_of_gone(base).get(named, named)
    fault = base.faults.get(now)
    said = None if now == named else f'"{short(named)}" is called "{now}" today; it is filed there.'
    if fault is None or fault.withdrawn is None:
        return Today(fault=now, said=said)
    end = end_of(base, now)
    heir = base.faults.get(end) if end is not None and end != now else None
    why = f'The entry "{short(now)}" is withdrawn.'
    if heir is None or heir.withdrawn is not None:
        hint = "Name another entry, or leave `fault`, `tried` and the cause out: a case may stand without an entry."
        return Today(fault=now, said=why, refused=True, hint=hint)
    strange = sorted(set(_strange(data, heir)))
    if strange:
        message = f'{why} "{heir.id}" took its place, and does not have {", ".join(map(short, strange))}.'
        known = ", ".join(cause.id for cause in heir.causes) or "none yet"
        return Today(fault=now, said=message, refused=True, hint=f"Say what it is there. Its causes: {known}.")
    return Today(fault=heir.id, said=f'{why} It is filed below "{heir.id}", which took its place.')


def _strange(data: Mapping[str, Any], heir: Fault) -> Iterator[str]:
    """Causes and checks of a report that the entry does not have."""
    causes, checks = {each.id for each in heir.causes} | {UNLISTED}, {each.id for each in heir.checks}
    outcome = data.get("outcome", {})
    named = [outcome.get("cause"), *outcome.get("also", ())]
    rows = data.get("tried", ())
    yield from (each for each in (*named, *(row.get("fix") for row in rows)) if each not in causes | {None})
    yield from (row["check"] for row in rows if row.get("check", "") not in checks | {""})
