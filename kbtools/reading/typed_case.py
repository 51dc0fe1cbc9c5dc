"""Typed values of a case report's file."""

from __future__ import annotations

from kbtools.model.case import Case, CaseSource, Cleared, Outcome, Paid, SeenCode, Tried, Vehicle
from kbtools.reading.rows import Row
from kbtools.reading.typed_fault import ReadCode

_NOTHING = Row({}, "")


def case(identity: str, path: str, row: Row, damaged: frozenset[str], read: ReadCode) -> Case:
    """One case report, as far as its file could be read."""
    return Case(
        id=identity,
        path=path,
        damaged=damaged,
        vehicle=_vehicle(row.row("vehicle") or _NOTHING),
        seen=row.date("seen"),
        conditions=row.texts("conditions"),
        codes=tuple(
            [
                SeenCode(
                    read=read(each.text("code") or ""),
                    status=each.choice("status"),
                    freeze_frame=each.pairs("freeze_frame"),
                    at=each.at,
                )
                for each in row.rows("codes")
                if each.has("code")
            ]
        ),
        symptoms=row.texts("symptoms"),
        fault=row.text("fault"),
        tried=tuple([_tried(each) for each in row.rows("tried") if each.has("check") or each.has("fix")]),
        cleared=_cleared(row.row("cleared")),
        follows=row.text("follows"),
        outcome=_outcome(row.row("outcome") or _NOTHING),
        source=_source(row.row("source")),
    )


def _vehicle(row: Row) -> Vehicle:
    return Vehicle(
        model=row.text("model"),
        year=row.whole("year"),
        odometer=row.distance("odometer"),
        bike=row.text("bike"),
        modified=row.texts("modified"),
    )


def _tried(row: Row) -> Tried:
    return Tried(
        check=row.text("check"),
        fix=row.text("fix"),
        result=row.choice("result"),
        reading=row.text("reading"),
        at=row.at,
    )


def _cleared(row: Row | None) -> Cleared | None:
    return None if row is None else Cleared(on=row.date("on"), back_after=row.distance("back_after"))


def _outcome(row: Row) -> Outcome:
    paid = row.row("paid")
    return Outcome(
        state=row.choice("state"),
        cause=row.text("cause"),
        also=row.texts("also"),
        after=row.distance("after"),
        verified=row.flag("verified"),
        paid=None
        if paid is None
        else Paid(parts=paid.number("parts"), labour=paid.number("labour"), where=paid.choice("where")),
        note=row.text("note"),
    )


def _source(row: Row | None) -> CaseSource | None:
    kind = None if row is None else row.choice("kind")
    title = None if row is None else row.text("title")
    if row is None or kind is None or title is None:
        return None
    return CaseSource(kind=kind, title=title, url=row.text("url"))
