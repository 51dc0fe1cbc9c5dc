"""Typed values of the files that faults and cases refer to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, TypeVar

from kbtools.model.catalogue import (
    Accepted,
    Access,
    Breakdown,
    Caution,
    Club,
    Component,
    ControlUnit,
    Model,
    Reports,
    SiteBudget,
    StopNow,
    System,
    Tool,
)
from kbtools.model.codes import CodeFormat
from kbtools.model.picture import Picture
from kbtools.model.years import ALL_YEARS, Years
from kbtools.reading.rows import Row, rows

T = TypeVar("T")


def years(row: Row) -> Years | None:
    """Model years, None where there are none."""
    return row.years("years")


def club(row: Row, damaged: frozenset[str]) -> Club | None:
    """`club.yml`, None where something is missing without which nothing can be computed."""
    try:
        return Club(
            name=_needed(row.text("name")),
            site_url=_with_slash(row.text("site_url")),
            repository=row.text("repository"),
            licence=_needed(row.text("licence")),
            currency=_needed(row.text("currency")),
            labour_rate=_needed(row.range("labour_rate")),
            diagnosis_hours=_needed(row.number("diagnosis_hours")),
            confirm_hours=_needed(row.number("confirm_hours")),
            transport=row.range("transport"),
            unlisted_repair=_needed(row.range("unlisted_repair")),
            own_time_value=_needed(row.number("own_time_value")),
            home_time_factor=_needed(row.number("home_time_factor")),
            prior_strength=_needed(row.number("prior_strength")),
            unlisted_share=_needed(row.number("unlisted_share")),
            solved_after=_needed(row.distance("solved_after")),
            review_after_months=_needed(row.whole("review_after_months")),
            distance_unit=_needed(row.choice("distance_unit")),
            code_formats=code_formats(row),
            breakdown=_breakdown(row),
            reports=_reports(row),
            phone_countries=row.texts("phone_countries"),
            site_budget=_site_budget(row),
            format=row.whole("format"),
            damaged=damaged,
        )
    except _MissingError:
        return None


def _breakdown(row: Row) -> Breakdown | None:
    line = row.row("breakdown")
    phone = line.text("phone") if line is not None else None
    return Breakdown(phone=phone, say=line.text("say")) if line is not None and phone is not None else None


def _reports(row: Row) -> Reports | None:
    places = row.row("reports")
    return None if places is None else Reports(email=places.text("email"), issues=places.text("issues"))


def _site_budget(row: Row) -> SiteBudget | None:
    bounds = row.row("site_budget")
    if bounds is None:
        return None
    return SiteBudget(page_kb=bounds.number("page_kb"), total_mb=bounds.number("total_mb"))


def code_formats(row: Row) -> tuple[CodeFormat, ...]:
    """The club's notations of codes, as far as they can be read: codes are read even where the rest is damaged."""
    return tuple(
        CodeFormat(
            id=each.text("id") or "",
            name=each.text("name") or each.text("id") or "",
            standard=each.text("standard"),
            pattern=each.text("pattern"),
            example=each.text("example"),
            per_unit=each.flag("per_unit"),
        )
        for each in row.rows("code_formats")
        if each.has("id") and (each.has("standard") or each.has("pattern"))
    )


class _MissingError(Exception):
    """A value is not there; never leaves this module."""


def _needed(value: T | None) -> T:
    if value is None:
        raise _MissingError
    return value


def _with_slash(address: str | None) -> str | None:
    return None if address is None else f"{address.rstrip('/')}/"


def systems(row: Row) -> Iterator[System]:
    """The tree of systems, parents before children."""
    yield from _systems(row.rows("systems"), None, above=False)


def _systems(level: Iterable[Row], parent: str | None, *, above: bool) -> Iterator[System]:
    for each in level:
        identity = each.text("id")
        critical = above or each.flag("safety_critical")
        if identity is not None:
            yield System(
                id=identity,
                name=each.text("name") or identity,
                parent=parent,
                safety_critical=critical,
                cautions=each.texts("cautions"),
                at=each.at,
            )
        yield from _systems(each.rows("children"), identity or parent, above=critical)


def pictures(row: Row) -> tuple[Picture, ...]:
    """The pictures of a row; one that does not say what it shows or who looked at it is none."""
    return tuple(
        Picture(file=file, of=of, credit=each.text("credit"), checked_by=checked, at=each.at)
        for each in row.rows("pictures")
        if (file := each.text("file")) and (of := each.text("of")) and (checked := each.text("checked_by"))
    )


def components(row: Row) -> Iterator[Component]:
    """Components in file order."""
    for each in row.rows("components"):
        identity = each.text("id")
        if identity is not None:
            yield Component(
                id=identity,
                name=each.text("name") or identity,
                system=each.text("system"),
                where=each.text("where"),
                zone=each.choice("zone"),
                cautions=each.texts("cautions"),
                pictures=pictures(each),
                at=each.at,
            )


def access(row: Row) -> Iterator[Access]:
    """Access jobs in file order."""
    for each in row.rows("access"):
        identity = each.text("id")
        if identity is not None:
            yield Access(
                id=identity,
                name=each.text("name") or identity,
                minutes=each.number("minutes") or 0,
                skill=each.choice("skill", "home"),
                cautions=each.texts("cautions"),
                needs=each.texts("needs"),
                allows=each.choice("allows"),
                where=each.text("where"),
                pictures=pictures(each),
                at=each.at,
            )


def tools(row: Row) -> Iterator[Tool]:
    """Tools in file order."""
    for each in row.rows("tools"):
        identity = each.text("id")
        if identity is not None:
            yield Tool(
                id=identity,
                name=each.text("name") or identity,
                usual=each.flag("usual"),
                on_bike=each.flag("on_bike"),
                at=each.at,
            )


def cautions(row: Row) -> Iterator[Caution]:
    """Cautions in file order."""
    for each in row.rows("cautions"):
        identity = each.text("id")
        if identity is not None:
            yield Caution(id=identity, text=each.text("text") or identity, hazard=each.choice("hazard"), at=each.at)


def stop_now(row: Row) -> Iterator[StopNow]:
    """Dangers in file order; one that says nothing or asks for nothing is none."""
    for each in row.rows("stop_now"):
        do = each.text("do")
        asked = each.texts("asked")
        if do is not None and asked:
            yield StopNow(asked=asked, do=do, at=each.at)


def model(identity: str, path: str, row: Row, damaged: frozenset[str]) -> Model:
    """One model; years that could not be read are taken as all, so that nothing follows from them."""
    return Model(
        id=identity,
        name=row.text("name") or identity,
        also_called=row.texts("also_called"),
        years=years(row) or ALL_YEARS,
        control_units=tuple(_units(row)),
        path=path,
        damaged=damaged,
    )


def _units(row: Row) -> Iterator[ControlUnit]:
    for each in row.rows("control_units"):
        identity = each.text("id")
        if identity is not None:
            yield ControlUnit(
                id=identity,
                name=each.text("name") or identity,
                system=each.text("system"),
                years=years(each) or ALL_YEARS,
                at=each.at,
            )


def accepted(data: Any, damaged: frozenset[str]) -> Iterator[Accepted]:
    """Findings that the club accepts; a row that has lost something accepts nothing, and is not asked why."""
    keyed = isinstance(data, dict)
    for each in rows(data.get("accepted") if keyed else data, "/accepted" if keyed else ""):
        rule, path, because = each.text("rule"), each.text("path"), each.text("because")
        whole = not any(lost.startswith(f"{each.at}/") for lost in damaged)
        if whole and rule is not None and path is not None and because is not None:
            yield Accepted(rule=rule, path=path, pointer=each.text("at") or "", because=because, at=each.at)
