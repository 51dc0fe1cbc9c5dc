"""A fault as plain data in the order in which people write it, defaults left out: the way back from the typed value."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from typing import Any, Final

from kbtools.model.fault import AppliesTo, Cause, Check, CodeRow, Fault, Fix, Reading, Source
from kbtools.model.money import Range

_SHARES: Final = {6.0: "often", 3.0: "sometimes", 1.0: "rarely"}


def as_data(fault: Fault) -> dict[str, Any]:
    """Mappings, lists, texts, numbers and dates that, written as YAML, read as this fault."""
    advice = fault.ride_advice
    reviewed = fault.reviewed
    return _said(
        title=fault.title,
        system=fault.system,
        draft=fault.draft or None,
        applies_to=[_row(row) for row in fault.applies_to],
        codes=[_code(row) for row in fault.codes],
        symptoms=fault.symptoms,
        ride_advice=advice and _said(level=advice.level, why=advice.why, stop_if=advice.stop_if),
        cautions=fault.cautions,
        causes=[_cause(cause) for cause in fault.causes],
        checks=[_check(check) for check in fault.checks],
        sources=[_source(source) for source in fault.sources],
        related=fault.related,
        distinct_from=[_said(fault=row.fault, because=row.because) for row in fault.distinct_from],
        reviewed=reviewed and _said(on=reviewed.on, by=reviewed.by, second=reviewed.second),
        formerly=fault.formerly,
    )


def _said(**values: Any) -> dict[str, Any]:
    """Without what says nothing; tuples as lists."""
    kept = {}
    for key, value in values.items():
        plain = list(value) if isinstance(value, tuple) else value
        if plain is not None and plain != []:
            kept[key] = plain
    return kept


def _number(value: float) -> float:
    return int(value) if float(value).is_integer() else value


def _range(value: Range | None) -> Any:
    if value is None:
        return None
    return _number(value.low) if value.low == value.high else [_number(value.low), _number(value.high)]


def _row(row: AppliesTo) -> dict[str, Any]:
    return _said(model=row.model, years=row.years.text, unit=row.unit, only_if=row.only_if, note=row.note)


def _rows(rows: Iterable[AppliesTo]) -> list[dict[str, Any]]:
    return [_row(row) for row in rows]


def _code(row: CodeRow) -> dict[str, Any]:
    told = _said(code=row.read.text, meaning=row.meaning, unit=row.unit, sets_when=row.sets_when)
    told |= {"with": [read.text for read in row.with_codes]} if row.with_codes else {}
    return told | ({"follow_on": True} if row.follow_on else {})


def _cause(cause: Cause) -> dict[str, Any]:
    share = None if cause.share is None else _SHARES.get(cause.share, _number(cause.share))
    return _said(
        id=cause.id,
        summary=cause.summary,
        component=cause.component,
        share=share,
        applies_to=_rows(cause.applies_to),
        only_if=cause.only_if,
        often_with=cause.often_with,
        fix=None if cause.fix is None else _fix(cause.fix),
    )


def _fix(fix: Fix) -> dict[str, Any]:
    return _said(
        summary=fix.summary,
        skill=fix.skill,
        parts=[_said(name=part.name, price=_range(part.price)) for part in fix.parts],
        labour_hours=_range(fix.labour_hours),
        tools=fix.tools,
        access=fix.access,
        cautions=fix.cautions,
        trial=fix.trial or None,
        verify=None if fix.verify is None else _said(do=fix.verify.do, expect=fix.verify.expect),
    )


def _check(check: Check) -> dict[str, Any]:
    return _said(
        id=check.id,
        do=check.do,
        expect=check.expect,
        points_to=check.points_to,
        reading=None if check.reading is None else _reading(check.reading),
        finds=None if check.finds == 1 else _number(check.finds),
        only_while_present=check.only_while_present or None,
        bike=check.bike,
        minutes=None if check.minutes is None else _number(check.minutes),
        cost=_number(check.cost) or None,
        skill=check.skill,
        access=check.access,
        tools=check.tools,
        cautions=check.cautions,
    )


def _reading(reading: Reading) -> dict[str, Any]:
    return _said(
        at=reading.place,
        when=reading.when,
        good=_range(reading.good),
        unit=reading.unit,
        low_points_to=reading.low_points_to,
        high_points_to=reading.high_points_to,
    )


def _source(source: Source) -> dict[str, Any]:
    told = {each.name: getattr(source, each.name) for each in dataclasses.fields(source) if each.name != "at"}
    return _said(**{**told, "applies_to": _rows(source.applies_to)})
