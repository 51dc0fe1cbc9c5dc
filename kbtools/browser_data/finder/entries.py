"""What the finder can answer with: one entry for each published fault, code, model, system and component.

Every text of the knowledge base is hostile, but for unseen characters, which are written out: the browser shows it as
text, never as markup. Addresses count from the site's root.
"""

from __future__ import annotations

import dataclasses
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from kbtools.index.codes import faults_of
from kbtools.index.scopes import can_report, held_years
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Component, Model, System
from kbtools.model.codes import CodeFormat, FaultCode, structure
from kbtools.model.fault import AppliesTo, Fault, RideLevel, strictest
from kbtools.model.years import Years, union
from kbtools.text.html import plain
from kbtools.wording import addresses
from kbtools.wording.labels import show_years

EntryKind = Literal["fault", "code", "model", "system", "component"]

UNKNOWN: Final = "unknown"
"""The ride advice where no entry gives any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One possible answer."""

    kind: EntryKind
    """What it is."""
    address: str
    """Of its page."""
    title: str
    """Plain text; of a code its canonical form."""
    ride: str | None = None
    """A ride level, `unknown`, or None where the question does not arise."""
    system: str | None = None
    """Name of the system that it belongs to."""
    models: Mapping[str, tuple[Years, ...]] = dataclasses.field(default_factory=dict)
    """Model id → the years in which it concerns that model, cut to those in which the model was built."""
    fields: Mapping[str, tuple[str, ...]] = dataclasses.field(default_factory=dict)
    """Texts that it is found by, without the title."""
    code: FaultCode | None = None
    """Of a code."""
    faults: tuple[tuple[int, bool], ...] = ()
    """Of a code: places of its faults among the entries, and whether the code is only a consequence there."""
    codes: tuple[str, ...] = ()
    """Of a fault: its codes."""
    cases: int = 0
    """Of a fault: reports that name it."""


def entries(base: KnowledgeBase) -> tuple[Entry, ...]:
    """All entries; faults first, those with most case reports in front, so that of two equals the surer one wins."""
    formats = base.club.code_formats if base.club else ()
    cases = Counter(case.fault for case in base.cases.values() if case.fault)
    reported: dict[str, list[str]] = defaultdict(list)
    for case in base.cases.values():
        if case.fault:
            reported[case.fault] += case.symptoms
    faults = sorted(
        (fault for fault in base.faults.values() if fault.published), key=lambda fault: (-cases[fault.id], fault.id)
    )
    return (
        *(_fault_entry(fault, base, cases[fault.id], reported[fault.id]) for fault in faults),
        *_code_entries(faults, formats, base),
        *(_model_entry(model) for model in base.models.values()),
        *(_system_entry(system, base) for system in base.systems.values()),
        *(_component_entry(component, base) for component in base.components.values()),
    )


def _fault_entry(fault: Fault, base: KnowledgeBase, cases: int, reported: Sequence[str]) -> Entry:
    system = base.systems.get(fault.system or "")
    components = {cause.component: base.components.get(cause.component or "") for cause in fault.causes}
    return Entry(
        kind="fault",
        address=addresses.fault(fault.id),
        title=plain(fault.title),
        ride=fault.ride_advice.level if fault.ride_advice else UNKNOWN,
        system=plain(system.name) if system else None,
        models=_models(fault.applies_to, base),
        codes=tuple(dict.fromkeys(plain(code.text) for row in fault.codes for code in row.read.matches)),
        cases=cases,
        fields=_texts(
            symptoms=fault.symptoms,
            system=(system.name,) if system else (),
            models=_names(fault, base),
            meanings=dict.fromkeys(row.meaning for row in fault.codes),
            causes=(cause.summary for cause in fault.causes),
            components=(component.name for component in components.values() if component),
            reported=(text for text in dict.fromkeys(reported) if text not in fault.symptoms),
            signs=_signs(fault),
        ),
    )


def _signs(fault: Fault) -> Iterator[str | None]:
    """What else an owner may notice: signs at which to stop, and conditions under which codes set."""
    yield from (fault.ride_advice.stop_if if fault.ride_advice else ())
    yield from dict.fromkeys(row.sets_when for row in fault.codes)


def _code_entries(faults: Sequence[Fault], formats: Sequence[CodeFormat], base: KnowledgeBase) -> Iterator[Entry]:
    by_id = {fault.id: fault for fault in faults}
    places = {fault.id: place for place, fault in enumerate(faults)}
    by_code = _faults_by_code(faults)
    kin: dict[FaultCode, dict[FaultCode, list[str]]] = defaultdict(dict)
    for code, ids in by_code.items():
        kin[structure(code, formats).base][code] = ids
    for code in by_code:
        found = [by_id[each] for each in faults_of(code, kin[structure(code, formats).base], formats)]
        # Where a fault is the root of the code it comes before those that only have it as a consequence.
        rows = sorted(((places[fault.id], _follows_on(fault, code)) for fault in found), key=lambda row: row[1])
        levels: list[RideLevel] = [fault.ride_advice.level for fault in found if fault.ride_advice]
        yield Entry(
            kind="code",
            address=addresses.code(code.slug),
            title=plain(code.text),
            ride=strictest(levels) or UNKNOWN,
            models=_models([row for fault in found for row in _reported(fault, code, base)], base),
            code=code,
            faults=tuple(rows),
            fields=_texts(meanings=dict.fromkeys(_meanings(found, code))),
        )


def _model_entry(model: Model) -> Entry:
    return Entry(
        kind="model",
        address=addresses.model(model.id),
        title=plain(model.name),
        models={model.id: (model.years,)},
        fields=_texts(names=model.also_called, units=(unit.name for unit in model.control_units)),
    )


def _system_entry(system: System, base: KnowledgeBase) -> Entry:
    parent = base.systems.get(system.parent or "")
    return Entry(
        kind="system",
        address=addresses.system(system.id),
        title=plain(system.name),
        system=plain(parent.name) if parent else None,
        fields=_texts(system=(parent.name,) if parent else ()),
    )


def _component_entry(component: Component, base: KnowledgeBase) -> Entry:
    system = base.systems.get(component.system or "")
    return Entry(
        kind="component",
        address=addresses.component(component.id),
        title=plain(component.name),
        system=plain(system.name) if system else None,
        fields=_texts(system=(system.name,) if system else ()),
    )


def _faults_by_code(faults: Iterable[Fault]) -> dict[FaultCode, list[str]]:
    """Ids of faults by their codes, in the order of the codes; a code that cannot be read stands for none."""
    found: dict[FaultCode, list[str]] = {}
    for fault in faults:
        for code in dict.fromkeys(code for row in fault.codes for code in row.read.matches):
            found.setdefault(code, []).append(fault.id)
    return dict(sorted(found.items()))


def _follows_on(fault: Fault, code: FaultCode) -> bool:
    rows = [row.follow_on for row in fault.codes if code in row.read.matches]
    return bool(rows) and all(rows)


def _reported(fault: Fault, code: FaultCode, base: KnowledgeBase) -> Iterator[AppliesTo]:
    """Whom the fault concerns, cut to the machines whose control units can report the code."""
    rows = [row for row in fault.codes if code in row.read.matches] or fault.codes
    for applies_to in fault.applies_to:
        model = base.models.get(applies_to.model)
        for row in rows:
            if model is not None and can_report(row, model):
                yield dataclasses.replace(applies_to, unit=applies_to.unit or row.unit)


def _meanings(faults: Iterable[Fault], code: FaultCode) -> Iterator[str | None]:
    return (row.meaning for fault in faults for row in fault.codes if code in row.read.matches)


def _models(rows: Iterable[AppliesTo], base: KnowledgeBase) -> dict[str, tuple[Years, ...]]:
    """Model id → years of every model that the rows name, in the order of the models' files."""
    ranges: dict[str, list[Years]] = {}
    for row in rows:
        model = base.models.get(row.model)
        held = held_years(row, model) if model else None
        years = held.cut_to(model.years) if model and held else None
        if years is not None:
            ranges.setdefault(row.model, []).append(years)
    return {model_id: tuple(union(ranges[model_id])) for model_id in base.models if model_id in ranges}


def shown_models(entry: Entry, base: KnowledgeBase) -> list[list[str]]:
    """Name and years in words of every model that the entry concerns."""
    return [
        [plain(base.models[model_id].name), ", ".join(show_years(years) for years in ranges)]
        for model_id, ranges in entry.models.items()
    ]


def _names(fault: Fault, base: KnowledgeBase) -> Iterator[str]:
    for model_id in dict.fromkeys(row.model for row in fault.applies_to):
        model = base.models.get(model_id)
        if model:
            yield from (model.name, *model.also_called)


def _texts(**fields: Iterable[str | None]) -> dict[str, tuple[str, ...]]:
    """The fields that have any text, without the texts that are missing."""
    kept = {name: tuple(plain(text) for text in texts if text) for name, texts in fields.items()}
    return {name: texts for name, texts in kept.items() if texts}
