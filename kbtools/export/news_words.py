"""News in words, for feeds and for my bike: a title, a few sentences, and where it leads."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from markupsafe import Markup

from kbtools.changes.news import News, models, systems
from kbtools.index.answers import Index
from kbtools.model.case import UNLISTED
from kbtools.model.fault import Fault
from kbtools.model.ride_advice import RIDE_LEVELS
from kbtools.text import html as text
from kbtools.wording import addresses
from kbtools.wording.labels import RIDE, SOURCE, STATE, day, verdict

_UNKNOWN = "nobody knows yet what it is"


def title(item: News, index: Index) -> str:
    """One line of plain text, hostile until escaped."""
    name = item.fault.title if item.fault is not None else _UNKNOWN
    if item.kind == "advice":
        return f"Ride advice now {RIDE[item.now].word.lower()}: {name}"
    if item.kind == "notice" and item.source is not None:
        number = f" {item.source.number}" if item.source.number else ""
        return f"{SOURCE[item.source.kind]}{number}: {name}"
    if item.kind == "case":
        return f"Case: {name} ({_machine(item, index)})"
    return f"{item.kind.capitalize()}: {name}"


def address(item: News) -> str:
    """Of the page that tells more, from the site's root; of a case that nobody has explained its model year's."""
    if item.fault is not None:
        return addresses.fault(item.fault.id)
    vehicle = item.case.vehicle if item.case is not None else None
    if vehicle is None or vehicle.model is None or vehicle.year is None:
        return addresses.NEW
    return addresses.model_year(vehicle.model, vehicle.year)


def last_days(index: Index, news: Sequence[News]) -> dict[str, dt.date]:
    """Address of a page → day of the last news of what it is about: of an entry, a model, a system, of all.

    Args:
        index: of the knowledge base.
        news: all, the newest first.
    """
    found: dict[str, dt.date] = {}
    for item in news:
        of_models = (addresses.model(each) for each in models(item, index))
        of_systems = (addresses.system(each) for each in systems(item, index))
        for each in (addresses.NEW, addresses.HOME, address(item), *of_models, *of_systems):
            found.setdefault(each, item.on)
    return found


def told(item: News, index: Index, turned: Sequence[str] = ()) -> Markup:
    """What there is to say, as safe HTML; of a case what it has turned as well, sentences of plain text."""
    return Markup("\n").join([*_told(item, index), *map(_line, turned)])


def _told(item: News, index: Index) -> Iterator[Markup]:
    fault = item.fault
    if item.kind == "case":
        yield from _case(item, index)
    elif fault is not None and item.kind == "withdrawn" and fault.withdrawn is not None:
        yield _line("This is no longer advice.")
        yield text.block(fault.withdrawn.reason or "")
        heir = index.advice(fault.id)
        if heir is not None:
            yield _line(f"Read instead: {heir.title}")
    elif fault is not None:
        if item.kind == "advice":
            yield _line(f"The ride advice is {_how(item)} than it was. Before: {RIDE[item.was].answer}")
        if item.kind == "notice" and item.source is not None:
            yield _line(f"{item.source.title}. The maker may pay: ask a dealer by the frame number before you do.")
        yield from _entry(fault, index)
        if item.kind == "reviewed" and fault.reviewed is not None:
            read = fault.reviewed
            by = read.by if read.second is None else f"{read.by} and {read.second}"
            yield _line(f"Read again by {by} on {day(read.on)}.")


def _how(item: News) -> str:
    if item.was is None or item.now is None:
        return "another one"
    return "stricter" if RIDE_LEVELS.index(item.now) < RIDE_LEVELS.index(item.was) else "milder"


def _entry(fault: Fault, index: Index) -> Iterator[Markup]:
    models = ", ".join(index.base.models[model].name for model in index.scopes.get(fault.id, ()))
    if models:
        yield _line(f"{models}.")
    yield _line(f"May I ride it? {verdict(fault.ride_level, fault.does_not_start)}")
    if fault.ride_advice is not None and fault.ride_advice.why is not None:
        yield text.block(fault.ride_advice.why)


def _case(item: News, index: Index) -> Iterator[Markup]:
    case = item.case
    if case is None:
        return
    seen = f" Seen on {day(case.seen)}." if case.seen is not None else ""
    yield _line(f"{_machine(item, index)}: {STATE[case.outcome.state or 'open'].lower()}.{seen}")
    cause = item.fault.cause(case.outcome.cause or "") if item.fault is not None else None
    if cause is not None:
        yield _line(f"What it was: {cause.summary or cause.id}.")
    elif case.outcome.cause == UNLISTED and item.fault is not None:
        yield _line("It was something that the entry does not list.")


def _machine(item: News, index: Index) -> str:
    vehicle = item.case.vehicle if item.case is not None else None
    if vehicle is None:
        return ""
    model = index.base.models.get(vehicle.model or "")
    name = model.name if model is not None else vehicle.model or "a bike"
    return name if vehicle.year is None else f"{name}, {vehicle.year}"


def _line(sentence: str) -> Markup:
    return Markup("<p>{}</p>").format(text.plain(sentence))
