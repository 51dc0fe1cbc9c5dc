"""Small knowledge bases made in Python. Every factory has a sound default; a test names only what it is about."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Sequence
from typing import Any, TypeVar

from kbtools.edges.rendering import Renderer
from kbtools.edges.shipped import tables
from kbtools.index.build import Index, build_index
from kbtools.model.base import HandPage, KnowledgeBase
from kbtools.model.case import Case, CaseSource, Outcome, Vehicle
from kbtools.model.catalogue import Access, Caution, Club, Component, ControlUnit, Model, System, Tool
from kbtools.model.check import Check
from kbtools.model.codes import CodeFormat, read_code
from kbtools.model.fault import AppliesTo, Cause, CodeRow, Fault, Fix, Reviewed, Source, Withdrawn
from kbtools.model.money import Distance, Range
from kbtools.model.ride_advice import RideAdvice, RideLevel
from kbtools.model.vocabulary import NO_WORDS
from kbtools.model.years import Years, parse_years
from kbtools.pages.spec import PageSpec
from kbtools.replay import replay
from tests.support.all_pages import all_pages

TODAY = dt.date(2026, 6, 1)
FORMATS = (
    CodeFormat(id="obd", name="Five-character code", standard="sae-j2012", pattern=None, example=None, per_unit=False),
    CodeFormat(id="flash", name="Lamp flash code", standard=None, pattern="[1-9]-[1-9]", example="4-2", per_unit=True),
)
T = TypeVar("T")


def make(kind: type[T], defaults: dict[str, Any], changes: dict[str, Any]) -> T:
    """A value whose fields are the changes, else the defaults, else nothing: None, false, an empty tuple or set."""
    empty = {each.name: _nothing(str(each.type)) for each in dataclasses.fields(kind)}  # type: ignore[arg-type]
    return kind(**{**empty, **defaults, **changes})


def _nothing(annotation: str) -> object:
    if annotation.startswith("frozenset"):
        return frozenset()
    return () if "tuple" in annotation else None


def years(text: str) -> Years:
    parsed = parse_years(text)
    assert parsed is not None
    return parsed


def span(low: float, high: float | None = None) -> Range:
    return Range(low=low, high=low if high is None else high)


def club(**changes: Any) -> Club:
    defaults = {
        "name": "Ostrel Owners' Circle",
        "licence": "CC-BY-4.0",
        "currency": "EUR",
        "labour_rate": span(70, 95),
        "diagnosis_hours": 1.0,
        "confirm_hours": 0.3,
        "unlisted_repair": span(150, 600),
        "own_time_value": 15.0,
        "home_time_factor": 2.0,
        "prior_strength": 4.0,
        "unlisted_share": 0.1,
        "solved_after": Distance(value=500, unit="km"),
        "review_after_months": 24,
        "distance_unit": "km",
        "code_formats": FORMATS,
        "format": 2,
    }
    return make(Club, defaults, changes)


def system(id: str = "charging", **changes: Any) -> System:  # noqa: A002 (the field's name)
    return make(System, {"id": id, "name": id.capitalize(), "safety_critical": False, "at": ""}, changes)


def component(id: str, **changes: Any) -> Component:  # noqa: A002
    return make(Component, {"id": id, "name": id.capitalize(), "system": "charging", "at": ""}, changes)


def unit(id: str, when: str, **changes: Any) -> ControlUnit:  # noqa: A002
    defaults = {"id": id, "name": f"Unit {id}", "system": "charging", "years": years(when), "at": ""}
    return make(ControlUnit, defaults, changes)


def model(id: str = "bittern-900", when: str = "2003-2012", **changes: Any) -> Model:  # noqa: A002
    defaults = {"id": id, "name": id.replace("-", " ").capitalize(), "years": years(when), "path": f"models/{id}.yml"}
    return make(Model, defaults, changes)


def row(model: str = "bittern-900", when: str = "all", **changes: Any) -> AppliesTo:
    return make(AppliesTo, {"model": model, "years": years(when), "at": ""}, changes)


def code(text: str, **changes: Any) -> CodeRow:
    return make(CodeRow, {"read": read_code(text, FORMATS), "follow_on": False, "at": ""}, changes)


def fix(**changes: Any) -> Fix:
    defaults = {"summary": "Mend it.", "skill": "home", "labour_hours": span(0.5, 1), "trial": False, "at": ""}
    return make(Fix, defaults, changes)


def cause(id: str = "worn", **changes: Any) -> Cause:  # noqa: A002
    return make(Cause, {"id": id, "summary": f"It is {id}", "fix": fix(), "at": ""}, changes)


def check(id: str = "look", **changes: Any) -> Check:  # noqa: A002
    defaults = {
        "id": id,
        "do": "Look.",
        "expect": "Nothing odd.",
        "finds": 1.0,
        "finds_said": True,
        "before_riding": False,
        "only_while_present": False,
        "bike": "off",
        "minutes": 5.0,
        "cost": 0.0,
        "skill": "home",
        "at": "",
    }
    return make(Check, defaults, changes)


def source(kind: str = "first-hand", **changes: Any) -> Source:
    return make(Source, {"kind": kind, "title": f"A {kind}", "at": ""}, changes)


def advice(level: RideLevel = "ride-with-care", **changes: Any) -> RideAdvice:
    return make(RideAdvice, {"level": level, "why": "Because.", "at": ""}, changes)


def withdrawn(**changes: Any) -> Withdrawn:
    return make(Withdrawn, {"on": dt.date(2026, 5, 1), "reason": "Folded.", "at": ""}, changes)


def fault(id: str, **changes: Any) -> Fault:  # noqa: A002
    defaults = {
        "id": id,
        "path": f"faults/charging/{id}.yml",
        "title": f"Title of {id}",
        "system": "charging",
        "applies_to": (row(),),
        "ride_advice": advice(),
        "causes": (cause(),),
        "sources": (source(),),
        "reviewed": Reviewed(on=dt.date(2026, 3, 14), by="curator-3", second=None, at=""),
        "draft": False,
    }
    return make(Fault, defaults, changes)


def case(id: str, fault: str | None = None, **changes: Any) -> Case:  # noqa: A002
    vehicle = {"model": "bittern-900", "year": 2007, "odometer": Distance(value=61200, unit="km")}
    defaults = {
        "id": id,
        "path": f"cases/2026/{id}.yml",
        "vehicle": make(Vehicle, vehicle, changes.pop("vehicle", {})),
        "seen": dt.date(2026, 3, 2),
        "fault": fault,
        "outcome": make(Outcome, {"state": "open", "verified": False}, changes.pop("outcome", {})),
        "source": CaseSource(kind="first-hand", title="Member report", url=None),
    }
    return make(Case, defaults, changes)


def by_id(values: Sequence[T]) -> dict[str, T]:
    return {value.id: value for value in values}  # type: ignore[attr-defined]


def base(*faults: Fault, **changes: Any) -> KnowledgeBase:
    """A base of these faults; every other part may be given as a sequence."""
    parts: dict[str, Sequence[Any]] = {
        "systems": [system()],
        "components": [],
        "access": [],
        "tools": [Tool(id="multimeter", name="Multimeter", usual=True, at="")],
        "cautions": [Caution(id="battery-gas", text="Keep sparks away.", at="")],
        "models": [model()],
        "faults": faults,
        "cases": [],
    }
    given = {name: by_id(changes.pop(name, default)) for name, default in parts.items()}
    rest = {"club": club(), "words": NO_WORDS, "accepted": (), "pages": (), "unsure": frozenset(), "tables": tables()}
    return KnowledgeBase(**{**given, **rest, **changes})


def access(id: str, *needs: str, **changes: Any) -> Access:  # noqa: A002
    defaults = {"id": id, "name": f"Access {id}", "minutes": 3.0, "skill": "home", "needs": needs, "at": ""}
    return make(Access, defaults, changes)


def hand_page(path: str) -> HandPage:
    return HandPage(path=path, text="Text.", body="Text.")


def index(base: KnowledgeBase, today: dt.date = TODAY) -> Index:
    return build_index(base, today)


def pages(base: KnowledgeBase, today: dt.date = TODAY) -> dict[str, PageSpec]:
    """The pages of a base by address."""
    index = build_index(base, today)
    return {spec.address: spec for spec in all_pages(index, today, replayed=replay(index))}


def article(base: KnowledgeBase, address: str) -> str:
    """The article at an address."""
    specs = pages(base)
    hand_written = {each.path.removeprefix("pages/").removesuffix(".md") + "/" for each in base.pages}
    return rendered(specs[address], Renderer(specs.keys() | hand_written))


def rendered(spec: PageSpec, renderer: Renderer) -> str:
    """The article of a page, given what the site gives it."""
    extra: dict[str, dict[str, object]] = {
        "home": {"finder_data": "data/finder/", "hand_written": None},
        "several": {"several_data": "../several/", "home_href": "../"},
    }
    return str(renderer.article(spec, **extra.get(spec.kind, {})))
