"""Which column of a table is which key of a case."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from rapidfuzz import process
from rapidfuzz.distance import JaroWinkler

from kbtools.intake.fields import Field
from kbtools.model.money import DistanceUnit
from kbtools.text.short import short

_ALIKE: Final = 0.88
"""Jaro-Winkler similarity from which a heading is taken for a name; what is taken for what is always shown."""
WHY: Final = "Why it was refused"
"""Heading of the column that a file of refused rows has more; never read."""
_ALSO: Final[Mapping[str, tuple[str, ...]]] = {
    "model": ("machine", "motorcycle", "type", "modell"),
    "year": ("model year", "built", "year built", "my", "baujahr"),
    "odometer": ("km", "mileage", "miles", "mi", "kilometres", "kilometers", "distance", "kilometerstand"),
    "bike": ("bike id", "bike no", "bike number"),
    "modified": ("modifications", "changed on the bike"),
    "seen": ("date", "day", "seen on", "date seen", "happened on", "datum"),
    "conditions": ("weather", "circumstances"),
    "codes": ("code", "fault codes", "dtc", "error codes", "trouble codes"),
    "symptoms": ("symptom", "complaint", "what happened"),
    "fault": ("entry", "fault id"),
    "tried": ("done", "checks", "what was tried"),
    "cleared": ("cleared on", "codes cleared"),
    "state": ("outcome", "result", "status", "solved"),
    "cause": ("root cause", "it was"),
    "also": ("also found", "further causes"),
    "after": ("ridden since", "km since", "since then"),
    "verified": ("verified by reading",),
    "parts": ("cost of parts", "parts cost", "paid parts", "paid for parts"),
    "labour": ("labor", "cost of labour", "labour cost", "paid labour", "paid for labour"),
    "where": ("where mended", "home or workshop", "mended by"),
    "note": ("notes", "remark", "remarks", "comment", "comments"),
}
"""Other names that clubs' tables have for the keys."""


class ColumnsError(ValueError):
    """The columns cannot be told; the words say what to say."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column that is read."""

    place: int
    """From 0."""
    heading: str
    """As the table has it. Hostile."""
    field: Field
    """What it holds."""
    unit: DistanceUnit | None
    """Of its distances, where the heading names one."""


def columns(header: Sequence[str], fields: Mapping[str, Field], said: Mapping[str, str]) -> tuple[Column, ...]:
    """The columns that are read, in the table's order.

    Args:
        header: headings of the table.
        fields: the keys of a case.
        said: key → heading, where somebody says it; an empty heading: the key is not read.

    Raises:
        ColumnsError: a column that is said is not there, two may be the same, or one is missing without which no row
            is a case.
    """
    found = {place: name for name, place in _said(header, fields, said)}
    taken = {*found.values(), *said}
    guessed: dict[str, list[int]] = {}
    for place, heading in enumerate(header):
        name = None if place in found else _meant(heading, fields)
        if name is not None and name not in taken:
            guessed.setdefault(name, []).append(place)
    for name, places in guessed.items():
        exact = [place for place in places if _even(header[place]) in map(_even, (name, *_paths(fields[name])))]
        sure = exact if len(exact) == 1 else places
        if len(sure) > 1:
            both = " and ".join(f'"{short(header[place])}"' for place in sure)
            raise ColumnsError(f"{both} may both be {name}. Say which: --column {name}={header[sure[0]]}.")
        found[sure[0]] = name
    missing = [field.name for field in fields.values() if field.required and field.name not in found.values()]
    missing = [each for each in missing if not each.startswith("source")]
    if missing:
        there = ", ".join(f'"{short(each)}"' for each in header[:30])
        raise ColumnsError(
            f"No column is {', '.join(missing)}. Say which: --column {missing[0]}=HEADING. There: {there}."
        )
    return tuple(
        Column(place=place, heading=header[place], field=fields[name], unit=_unit(header[place]))
        for place, name in sorted(found.items())
    )


def _said(header: Sequence[str], fields: Mapping[str, Field], said: Mapping[str, str]) -> Iterator[tuple[str, int]]:
    places = {_even(heading): place for place, heading in reversed(list(enumerate(header)))}
    for name, heading in said.items():
        if name not in fields:
            raise ColumnsError(f'There is no key "{short(name)}". There are: {", ".join(fields)}.')
        if not heading:
            continue
        if _even(heading) not in places:
            there = ", ".join(f'"{short(each)}"' for each in header[:30])
            raise ColumnsError(f'There is no column "{short(heading)}". There: {there}.')
        yield name, places[_even(heading)]


def _meant(heading: str, fields: Mapping[str, Field]) -> str | None:
    """The key that a heading is taken for; None where it is none, and is not read."""
    plain = _even(heading)
    if not plain or plain == _even(WHY):
        return None
    names: dict[str, str] = {}
    for labels in (_names, _paths, _others):
        # A key's own name goes before another one's title.
        for name, field in fields.items():
            for label in labels(field):
                names.setdefault(_even(label), name)
    without = _even(re.sub(r"[(\[].*?[)\]]", " ", heading))
    for each in (plain, without):
        if each in names:
            return names[each]
    best = process.extractOne(without or plain, list(names), scorer=JaroWinkler.similarity, score_cutoff=_ALIKE)
    return None if best is None else names[best[0]]


def _names(field: Field) -> tuple[str, ...]:
    return (field.name,)


def _paths(field: Field) -> tuple[str, ...]:
    """As data formats write the way to a key: `vehicle.model`, `outcome paid parts`."""
    return (" ".join(field.steps),)


def _others(field: Field) -> tuple[str, ...]:
    return (*_ALSO.get(field.name, ()), field.title)


def _even(text: str) -> str:
    return " ".join(re.findall(r"[^\W_]+", text.casefold()))


def _unit(heading: str) -> DistanceUnit | None:
    words = set(_even(heading).split())
    if words & {"km", "kms", "kilometers", "kilometres", "kilometerstand"}:
        return "km"
    return "mi" if words & {"mi", "miles"} else None
