"""What the finder can answer with: one entry for each published fault, code, model, system and component.

Every text of the knowledge base is hostile, but for unseen characters, which are written out: the browser shows it as
text, never as markup. Addresses count from the site's root.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from kbtools.index.cases import cases_naming
from kbtools.index.codes import families, faults_by_code, faults_of, only_follows, ride_level_with
from kbtools.index.components import named_components
from kbtools.index.entries import published
from kbtools.index.scopes import built_years, can_report
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.catalogue import Component, Model, System
from kbtools.model.check import Check
from kbtools.model.codes import CodeFormat, FaultCode, structure
from kbtools.model.fault import AppliesTo, Fault
from kbtools.model.ride_advice import RideLevel, strictest
from kbtools.model.years import Years, union
from kbtools.text.html import plain
from kbtools.wording import addresses
from kbtools.wording.labels import show_years

EntryKind = Literal["fault", "code", "model", "system", "component", "values"]

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
    lenders: Mapping[str, tuple[str, ...]] = dataclasses.field(default_factory=dict)
    """Of a fault: texts that only lend it words: what those who had it wrote, what is advised and done."""
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
    cases = cases_naming(base)
    faults = sorted(published(base).values(), key=lambda fault: (-len(cases.get(fault.id, ())), fault.id))
    return (
        *(_fault_entry(fault, base, cases.get(fault.id, ())) for fault in faults),
        *_code_entries(faults, formats, base),
        *(_model_entry(model) for model in base.models.values()),
        *(_values_entry(model, base) for model in base.models.values() if _measured(base)),
        *(_system_entry(system, base) for system in base.systems.values()),
        *(_component_entry(component, base) for component in named_components(base).values()),
    )


def _fault_entry(fault: Fault, base: KnowledgeBase, cases: Sequence[Case]) -> Entry:
    system = base.systems.get(fault.system or "")
    reported = dict.fromkeys(text for case in cases for text in case.symptoms)
    components = {cause.component: base.components.get(cause.component or "") for cause in fault.causes}
    return Entry(
        kind="fault",
        address=addresses.fault(fault.id),
        title=plain(fault.title),
        ride=fault.ride_advice.level if fault.ride_advice else UNKNOWN,
        system=plain(system.name) if system else None,
        models=_models(fault.applies_to, base),
        codes=tuple(dict.fromkeys(plain(code.text) for row in fault.codes for code in row.read.matches)),
        cases=len(cases),
        fields=_texts(
            symptoms=fault.symptoms,
            system=(system.name,) if system else (),
            models=_names(fault, base),
            meanings=dict.fromkeys(row.meaning for row in fault.codes),
            causes=(cause.summary for cause in fault.causes),
            components=(component.name for component in components.values() if component),
            reported=(text for text in reported if text not in fault.symptoms),
            signs=_signs(fault),
            checks=_checks(fault),
        ),
        lenders=_texts(
            notes=(case.outcome.note for case in cases),
            conditions=(each for case in cases for each in case.conditions),
            advice=_advice(fault),
            work=_work(fault),
        ),
    )


def _signs(fault: Fault) -> Iterator[str | None]:
    """What else an owner may notice: signs at which to stop, and conditions under which codes set."""
    yield from (fault.ride_advice.stop_if if fault.ride_advice else ())
    yield from dict.fromkeys(row.sets_when for row in fault.codes)


def _advice(fault: Fault) -> Iterator[str | None]:
    """Why to ride or not, and what tells it from other faults."""
    yield fault.ride_advice.why if fault.ride_advice else None
    yield from (row.because for row in fault.distinct_from)
    yield from (row.only_if for row in fault.applies_to)
    for cause in fault.causes:
        yield cause.only_if
        yield cause.ride_advice.why if cause.ride_advice else None


def _work(fault: Fault) -> Iterator[str | None]:
    for cause in fault.causes:
        if cause.fix:
            yield cause.fix.summary
            yield from (part.name for part in cause.fix.parts)
            if cause.fix.verify:
                yield from (cause.fix.verify.do, cause.fix.verify.expect)


def _checks(fault: Fault) -> Iterator[str | None]:
    for check in fault.checks:
        yield from (check.do, check.expect)
        if check.reading:
            yield from (check.reading.place, check.reading.when)


def _code_entries(faults: Sequence[Fault], formats: Sequence[CodeFormat], base: KnowledgeBase) -> Iterator[Entry]:
    by_id = {fault.id: fault for fault in faults}
    places = {fault.id: place for place, fault in enumerate(faults)}
    known = {code: sorted(ids, key=places.__getitem__) for code, ids in sorted(faults_by_code(base).items())}
    kin = families(known, formats)
    for code in known:
        family = kin[structure(code, formats).base]
        found = [by_id[each] for each in faults_of(code, {each: known[each] for each in family}, formats)]
        # Where a fault is the root of the code it comes before those that only have it as a consequence.
        rows = sorted(((places[fault.id], only_follows(fault, code)) for fault in found), key=lambda row: row[1])
        with_code = (ride_level_with(fault, code, formats) for fault in found)
        levels: list[RideLevel] = [level for level in with_code if level is not None]
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


def _measured(base: KnowledgeBase) -> list[Check]:
    """The shared checks that have a test value."""
    checks = (each.check for each in base.checks.values())
    return [check for check in checks if check.reading is not None and check.reading.good is not None]


def _values_entry(model: Model, base: KnowledgeBase) -> Entry:
    """The test values of a model; the ids of the checks are what people call them, `charging-voltage`."""
    checks = _measured(base)
    readings = [check.reading for check in checks if check.reading is not None]
    return Entry(
        kind="values",
        address=addresses.values(model.id),
        title=f"Test values: {plain(model.name)}",
        models={model.id: (model.years,)},
        fields=_texts(
            models=(model.name, *model.also_called),
            values=(check.id.replace("-", " ") for check in checks),
            checks=(text for reading in readings for text in (reading.place, reading.when)),
        ),
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


def _reported(fault: Fault, code: FaultCode, base: KnowledgeBase) -> Iterator[AppliesTo]:
    """Whom the fault concerns, cut to the machines whose control units can report the code."""
    rows = [row for row in fault.codes if code in row.read.matches] or fault.codes
    for applies_to in fault.applies_to:
        model = base.models.get(applies_to.model)
        for row in rows:
            if model is not None and can_report(row, model):
                same = row.unit is None or applies_to.unit is not None
                yield applies_to if same else dataclasses.replace(applies_to, unit=row.unit)


def _meanings(faults: Iterable[Fault], code: FaultCode) -> Iterator[str | None]:
    return (row.meaning for fault in faults for row in fault.codes if code in row.read.matches)


def _models(rows: Iterable[AppliesTo], base: KnowledgeBase) -> dict[str, tuple[Years, ...]]:
    """Model id → years of every model that the rows name, in the order of the models' files."""
    ranges: dict[str, list[Years]] = {}
    for row in rows:
        model = base.models.get(row.model)
        years = built_years(row, model) if model is not None else None
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
    kept = {name: tuple(map(plain, filter(None, texts))) for name, texts in fields.items()}
    return {name: texts for name, texts in kept.items() if texts}
