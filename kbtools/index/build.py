"""Builds the index of a knowledge base in one pass, and says whom an entry concerns.

Rows that name what does not exist are left out; saying so is the business of the rules.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

from kbtools.index.answers import CauseUse, Index, Listed, ModelYear, Notice, Relation, RelationKind
from kbtools.index.cases import cases_by_fault, newest_first
from kbtools.index.codes import families, uses_by_code
from kbtools.index.entries import published, tombstones
from kbtools.index.heirs import renamed, replaced_by, stands_for
from kbtools.index.scopes import Questions, Scope, Scopes, applies, covered_rows, model_years, questions, row_holds
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.catalogue import Component, ControlUnit, System
from kbtools.model.fault import NOTICES, Fault

__all__ = [
    "CauseUse",
    "Index",
    "Listed",
    "ModelYear",
    "Notice",
    "Relation",
    "RelationKind",
    "applies",
    "build_index",
    "model_years",
    "questions",
    "row_holds",
]

K = TypeVar("K")
V = TypeVar("V")


def build_index(base: KnowledgeBase, today: dt.date) -> Index:
    """Index a knowledge base; `today` decides how far a model goes that is still built."""
    faults = tuple(published(base).values())
    years = {model.id: model_years(model, today.year) for model in base.models.values()}
    shared = Scopes(base.models, years)
    scopes = {fault.id: shared.of(fault.applies_to) for fault in faults}
    paths = _paths(base.systems)
    codes = sorted(uses_by_code(base), key=lambda code: (code.format, code.text))
    return Index(
        base=base,
        published=published(base),
        tombstones=tombstones(base),
        renamed=renamed(base),
        stands_for=stands_for(base),
        years=years,
        scopes=scopes,
        faults_by_model_year=_grouped(_listed(faults, scopes)),
        faults_by_model=_grouped((model, fault) for fault in faults for model in scopes[fault.id]),
        faults_by_system=_grouped(
            (system.id, fault) for fault in faults for system in paths.get(fault.system or "", ())
        ),
        faults_of_system=_grouped((fault.system, fault) for fault in faults if fault.system is not None),
        causes_by_component=_grouped(_cause_uses(faults)),
        uses_by_code=uses_by_code(base),
        codes_by_slug=_grouped((code.slug, code) for code in codes),
        code_families=families(codes, base.club.code_formats if base.club is not None else None),
        notices_by_model_year=_grouped(_notices(faults, shared)),
        units_by_model_year=_grouped(_units(base, years)),
        cases_by_fault=cases_by_fault(base),
        cases_by_model_year=_grouped(_cases_by_model_year(newest_first(base), years)),
        relations=_relations(base),
        children=_grouped((system.parent, system) for system in base.systems.values()),
        paths=paths,
        components_by_system=_grouped(_components(base)),
    )


def _grouped(pairs: Iterable[tuple[K, V]]) -> Mapping[K, tuple[V, ...]]:
    groups: defaultdict[K, list[V]] = defaultdict(list)
    for key, value in pairs:
        groups[key].append(value)
    return {key: tuple(values) for key, values in groups.items()}


def _paths(systems: Mapping[str, System]) -> Mapping[str, tuple[System, ...]]:
    """Parents come before children, so a parent's path is there when its child asks."""
    paths: dict[str, tuple[System, ...]] = {}
    for system in systems.values():
        paths[system.id] = (*paths.get(system.parent or "", ()), system)
    return paths


def _listed(faults: Sequence[Fault], scopes: Mapping[str, Scope]) -> Iterator[tuple[ModelYear, Listed]]:
    for fault in faults:
        # Years mostly ask the same: one value serves all of them.
        known: dict[Questions, Listed] = {}
        for model, by_year in scopes[fault.id].items():
            for year, asked in by_year.items():
                if asked not in known:
                    known[asked] = Listed(fault=fault, questions=asked)
                yield (model, year), known[asked]


def _cause_uses(faults: Sequence[Fault]) -> Iterator[tuple[str, CauseUse]]:
    for fault in faults:
        for cause in fault.causes:
            if cause.component is not None:
                yield cause.component, CauseUse(fault=fault, cause=cause)


def _notices(faults: Sequence[Fault], shared: Scopes) -> Iterator[tuple[ModelYear, Notice]]:
    for kind in NOTICES:
        for fault in faults:
            for source in fault.sources:
                if source.kind != kind:
                    continue
                for model, by_year in shared.of(covered_rows(source, fault)).items():
                    for year, asked in by_year.items():
                        yield (model, year), Notice(fault=fault, source=source, questions=asked)


def _units(base: KnowledgeBase, years: Mapping[str, tuple[int, ...]]) -> Iterator[tuple[ModelYear, ControlUnit]]:
    for model in base.models.values():
        for unit in model.control_units:
            for year in years[model.id]:
                if unit.years.holds(year):
                    yield (model.id, year), unit


def _cases_by_model_year(
    cases: Iterable[Case], years: Mapping[str, tuple[int, ...]]
) -> Iterator[tuple[ModelYear, Case]]:
    for case in cases:
        model, year = case.vehicle.model, case.vehicle.year
        if model is not None and year is not None and year in years.get(model, ()):
            yield (model, year), case


def _components(base: KnowledgeBase) -> Iterator[tuple[str, Component]]:
    for component in base.components.values():
        if component.system is not None:
            yield component.system, component


def _relations(base: KnowledgeBase) -> Mapping[str, tuple[Relation, ...]]:
    """Every relation from both of its ends. Where two entries name each other, neither is said twice to be related."""
    advice = published(base)
    found: defaultdict[str, dict[tuple[str, RelationKind], Relation]] = defaultdict(dict)

    def add(of: Fault, other: Fault, kind: RelationKind, because: str | None = None) -> None:
        found[of.id].setdefault((other.id, kind), Relation(fault=other, kind=kind, because=because))

    def named(fault_id: str | None) -> Fault | None:
        return advice.get(renamed(base).get(fault_id, fault_id)) if fault_id is not None else None

    for fault in advice.values():
        for each in fault.related:
            other = named(each)
            if other is not None and other.id != fault.id:
                add(fault, other, "related")
                add(other, fault, "named-by")
        for row in fault.distinct_from:
            other = named(row.fault)
            if other is not None and other.id != fault.id:
                add(fault, other, "not-this", row.because)
                add(other, fault, "not-that", row.because)
    for old in tombstones(base).values():
        heir = named(replaced_by(base).get(old.id))
        if heir is not None:
            add(heir, old, "replaces")
    return {fault_id: _without_doubles(rows) for fault_id, rows in found.items()}


def _without_doubles(rows: Mapping[tuple[str, RelationKind], Relation]) -> tuple[Relation, ...]:
    doubled = {"named-by": "related", "not-that": "not-this"}
    return tuple(row for (other, kind), row in rows.items() if (other, doubled.get(kind)) not in rows)
