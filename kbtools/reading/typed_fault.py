"""Typed values of a fault's file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from kbtools.model.check import FINDS
from kbtools.model.codes import CodeReading
from kbtools.model.fault import (
    AppliesTo,
    Cause,
    CodeRow,
    DistinctFrom,
    Fault,
    Fix,
    Part,
    Reviewed,
    Source,
    Verify,
    Withdrawn,
)
from kbtools.model.ride_advice import RideAdvice
from kbtools.model.shared import SharedCheck
from kbtools.reading import typed_check
from kbtools.reading.rows import Row
from kbtools.reading.typed_catalogue import years
from kbtools.reading.typed_check import NOTHING_SHARED

ReadCode = Callable[[str], CodeReading]
"""Reads a code in the club's formats."""

SHARE_WORDS = {"often": 6.0, "sometimes": 3.0, "rarely": 1.0}
"""What a word weighs among the causes."""


def fault(  # noqa: PLR0913 (formats and shared checks are the club's, all else the file's)
    identity: str,
    path: str,
    row: Row,
    damaged: frozenset[str],
    read: ReadCode,
    *,
    finds: float = FINDS[1],
    shared: Mapping[str, SharedCheck] = NOTHING_SHARED,
) -> Fault:
    """One fault, as far as its file could be read; `finds` is what a check finds that does not say."""
    checks = tuple(typed_check.checks(row, finds, shared))
    # Nothing is asked of a use whose shared check is not there, or not all there: that is told once, where it stands.
    damaged |= {each.at for each in checks if each.use is not None and not _is_whole(shared.get(each.id))}
    return Fault(
        id=identity,
        path=path,
        damaged=damaged,
        title=row.text("title") or identity,
        system=row.text("system"),
        applies_to=applies_to(row),
        codes=tuple(_codes(row, read)),
        symptoms=row.texts("symptoms"),
        does_not_start=row.choice("does_not_start"),
        ride_advice=_ride_advice(row.row("ride_advice")),
        cautions=row.texts("cautions"),
        causes=tuple(_causes(row)),
        checks=checks,
        sources=sources(row),
        related=row.texts("related"),
        distinct_from=tuple(_distinct(row)),
        reviewed=_reviewed(row.row("reviewed")),
        formerly=row.texts("formerly"),
        withdrawn=_withdrawn(row.row("withdrawn")),
        draft=row.flag("draft"),
    )


def _is_whole(shared: SharedCheck | None) -> bool:
    return shared is not None and shared.whole


def applies_to(row: Row) -> tuple[AppliesTo, ...]:
    """Rows of machines; a row without a readable model or years names none."""
    found = []
    for each in row.rows("applies_to"):
        model, span = each.text("model"), years(each)
        if model is not None and span is not None:
            found.append(
                AppliesTo(
                    model=model,
                    years=span,
                    unit=each.text("unit"),
                    only_if=each.text("only_if"),
                    note=each.text("note"),
                    at=each.at,
                )
            )
    return tuple(found)


def _codes(row: Row, read: ReadCode) -> Iterator[CodeRow]:
    for each in row.rows("codes"):
        code = each.text("code")
        if code is not None:
            yield CodeRow(
                read=read(code),
                meaning=each.text("meaning"),
                unit=each.text("unit"),
                sets_when=each.text("sets_when"),
                with_codes=tuple(read(text) for text in each.texts("with")),
                follow_on=each.flag("follow_on"),
                ride_advice=_ride_advice(each.row("ride_advice")),
                at=each.at,
            )


def _ride_advice(row: Row | None) -> RideAdvice | None:
    level = None if row is None else row.choice("level")
    if row is None or level is None:
        return None
    return RideAdvice(
        level=level,
        why=row.text("why"),
        stop_if=row.texts("stop_if"),
        max_speed=row.speed("max_speed"),
        max_distance=row.distance("max_distance"),
        at=row.at,
    )


def _causes(row: Row) -> Iterator[Cause]:
    for each in row.rows("causes"):
        identity = each.text("id")
        if identity is not None:
            share = each.choice("share")
            yield Cause(
                id=identity,
                summary=each.text("summary"),
                component=each.text("component"),
                share=None if share is None else SHARE_WORDS.get(share) or float(share),
                applies_to=applies_to(each),
                only_if=each.text("only_if"),
                often_with=each.texts("often_with"),
                ride_advice=_ride_advice(each.row("ride_advice")),
                same_as=each.text("same_as"),
                fix=_fix(each.row("fix")),
                at=each.at,
            )


def _fix(row: Row | None) -> Fix | None:
    if row is None:
        return None
    return Fix(
        summary=row.text("summary"),
        skill=row.choice("skill"),
        parts=tuple(
            Part(name=each.text("name") or "", price=each.range("price"), at=each.at)
            for each in row.rows("parts")
            if each.has("name")
        ),
        labour_hours=row.range("labour_hours"),
        tools=row.texts("tools"),
        access=row.texts("access"),
        cautions=row.texts("cautions"),
        trial=row.flag("trial"),
        verify=_verify(row.row("verify")),
        at=row.at,
    )


def _verify(row: Row | None) -> Verify | None:
    return None if row is None else Verify(do=row.text("do"), expect=row.text("expect"))


def sources(row: Row) -> tuple[Source, ...]:
    """Where the knowledge of a row comes from."""
    return tuple(_sources(row))


def _sources(row: Row) -> Iterator[Source]:
    for each in row.rows("sources"):
        kind, title = each.choice("kind"), each.text("title")
        if kind is not None and title is not None:
            yield Source(
                kind=kind,
                title=title,
                year=each.whole("year"),
                url=each.text("url"),
                archived=each.text("archived"),
                seen_on=each.date("seen_on"),
                number=each.text("number"),
                issuer=each.text("issuer"),
                region=each.text("region"),
                applies_to=applies_to(each),
                covers=each.texts("covers"),
                at=each.at,
            )


def _distinct(row: Row) -> Iterator[DistinctFrom]:
    for each in row.rows("distinct_from"):
        other = each.text("fault")
        if other is not None:
            yield DistinctFrom(fault=other, because=each.text("because"), at=each.at)


def _reviewed(row: Row | None) -> Reviewed | None:
    day = None if row is None else row.date("on")
    by = None if row is None else row.text("by")
    if row is None or day is None or by is None:
        return None
    return Reviewed(on=day, by=by, second=row.text("second"), at=row.at)


def _withdrawn(row: Row | None) -> Withdrawn | None:
    if row is None:
        return None
    return Withdrawn(on=row.date("on"), reason=row.text("reason"), replaced_by=row.text("replaced_by"), at=row.at)
