"""Every place of a knowledge base that names something else by its id, and what there is to be named.

All of it is as written, whatever the state of the entry: an old id is not followed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.index.entries import cases, faults
from kbtools.index.per_base import per_base
from kbtools.model.base import IdKind, KnowledgeBase
from kbtools.model.case import UNLISTED, Case
from kbtools.model.check import Check
from kbtools.model.fault import AppliesTo, Cause, Fault
from kbtools.model.shared import SHARED_PATH


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """One place that names an id."""

    kind: IdKind
    """What it names."""
    id: str
    """The id as written."""
    path: str
    """File in which it stands."""
    pointer: str
    """Where it stands."""


def names(base: KnowledgeBase, kind: IdKind) -> dict[str, tuple[str, ...]]:
    """Id to the names that it goes by, of everything of a kind."""
    if kind == "model":
        return {each.id: (each.name, *each.also_called) for each in base.models.values()}
    if kind == "fault":
        return {each.id: (each.title,) for each in faults(base)}
    if kind in {"case", "caution"}:
        return dict.fromkeys(base.cases if kind == "case" else base.cautions, ())
    if kind == "shared check":
        return {each.id: (each.check.do or each.id,) for each in base.checks.values()}
    named = {"system": base.systems, "component": base.components, "access job": base.access, "tool": base.tools}
    return {each.id: (each.name,) for each in named[kind].values()}  # type: ignore[attr-defined]


def lineage(base: KnowledgeBase, system_id: str) -> tuple[str, ...]:
    """A system and those above it, from itself up; of one that is not there itself alone."""
    system = base.systems.get(system_id)
    above = system.parent if system is not None else None
    return (system_id,) if above is None else (system_id, *lineage(base, above))


@per_base
def references(base: KnowledgeBase) -> Mapping[IdKind, Sequence[Reference]]:
    """Every reference of the knowledge base, by what it names: a rule goes through its own kind only."""
    by_kind: dict[IdKind, list[Reference]] = {}
    for reference in _all(base):
        by_kind.setdefault(reference.kind, []).append(reference)
    return by_kind


@per_base
def references_to_faults(base: KnowledgeBase) -> Sequence[Reference]:
    """Those of `references` that name a fault, in the same order: the others are ten times as many."""
    in_faults = (each for fault in faults(base) for each in _to_faults(fault))
    return [*in_faults, *(each for case in cases(base) for each in _one("fault", case.fault, case.path, "/fault"))]


def references_to_cases(base: KnowledgeBase) -> Iterator[Reference]:
    """Likewise those that name a case."""
    for case in cases(base):
        yield from _one("case", case.follows, case.path, "/follows")


def faults_naming(base: KnowledgeBase, fault_id: str) -> tuple[str, ...]:
    """Ids of the entries that name a fault as related, told apart, their heir, or of a cause of theirs; in order."""
    paths = {each.path for each in references_to_faults(base) if each.id == fault_id}
    paths |= {path for path, _, same in twins(base) if same.partition("/")[0] == fault_id}
    return tuple(sorted(fault.id for fault in faults(base) if fault.path in paths))


def twins(base: KnowledgeBase) -> Iterator[tuple[str, Cause, str]]:
    """Each cause that says which cause of another entry it is the same as: file, cause, `fault/cause` as written."""
    for fault in faults(base):
        for cause in fault.causes:
            if cause.same_as is not None:
                yield fault.path, cause, cause.same_as


def _all(base: KnowledgeBase) -> Iterator[Reference]:
    yield from _of_catalogue(base)
    for shared in base.checks.values():
        yield from _work(shared.check, SHARED_PATH)
        yield from _many("system", shared.look_first_for, SHARED_PATH, f"{shared.at}/look_first_for")
        for row in shared.check.good_for:
            yield from _one("model", row.model, SHARED_PATH, f"{row.at}/model")
        for source in shared.sources:
            yield from _rows(source.applies_to, SHARED_PATH)
    for fault in faults(base):
        yield from _of_fault(fault)
    for case in cases(base):
        yield from _of_case(case)


def _one(kind: IdKind, identity: str | None, path: str, pointer: str) -> Iterator[Reference]:
    if identity is not None:
        yield Reference(kind=kind, id=identity, path=path, pointer=pointer)


def _many(kind: IdKind, ids: Iterable[str], path: str, pointer: str) -> Iterator[Reference]:
    for index, identity in enumerate(ids):
        yield Reference(kind=kind, id=identity, path=path, pointer=f"{pointer}/{index}")


def _of_catalogue(base: KnowledgeBase) -> Iterator[Reference]:
    for system in base.systems.values():
        yield from _many("caution", system.cautions, "systems.yml", f"{system.at}/cautions")
    for component in base.components.values():
        yield from _many("caution", component.cautions, "systems.yml", f"{component.at}/cautions")
        yield from _one("system", component.system, "systems.yml", f"{component.at}/system")
    for job in base.access.values():
        yield from _many("caution", job.cautions, "systems.yml", f"{job.at}/cautions")
        yield from _many("access job", job.needs, "systems.yml", f"{job.at}/needs")
    for model in base.models.values():
        for unit in model.control_units:
            yield from _one("system", unit.system, model.path, f"{unit.at}/system")


def _of_fault(fault: Fault) -> Iterator[Reference]:
    path = fault.path
    yield from _one("system", fault.system, path, "/system")
    yield from _rows(fault.applies_to, path)
    yield from _many("caution", fault.cautions, path, "/cautions")
    for cause in fault.causes:
        yield from _of_cause(cause, path)
    for check in fault.checks:
        if check.use is None:
            yield from _work(check, path)
        else:
            yield from _one("shared check", check.id, path, f"{check.at}/use")
    for source in fault.sources:
        yield from _rows(source.applies_to, path)
    yield from _to_faults(fault)


def _to_faults(fault: Fault) -> Iterator[Reference]:
    path = fault.path
    yield from _many("fault", fault.related, path, "/related")
    for other in fault.distinct_from:
        yield from _one("fault", other.fault, path, f"{other.at}/fault")
    if fault.withdrawn is not None:
        yield from _one("fault", fault.withdrawn.replaced_by, path, f"{fault.withdrawn.at}/replaced_by")


def _of_cause(cause: Cause, path: str) -> Iterator[Reference]:
    yield from _one("component", cause.component, path, f"{cause.at}/component")
    yield from _rows(cause.applies_to, path)
    if cause.fix is not None:
        yield from _many("tool", cause.fix.tools, path, f"{cause.fix.at}/tools")
        yield from _many("access job", cause.fix.access, path, f"{cause.fix.at}/access")
        yield from _many("caution", cause.fix.cautions, path, f"{cause.fix.at}/cautions")


def _work(check: Check, path: str) -> Iterator[Reference]:
    yield from _many("access job", check.access, path, f"{check.at}/access")
    yield from _many("tool", check.tools, path, f"{check.at}/tools")
    yield from _many("caution", check.cautions, path, f"{check.at}/cautions")


def _rows(rows: Iterable[AppliesTo], path: str) -> Iterator[Reference]:
    for row in rows:
        yield from _one("model", row.model, path, f"{row.at}/model")


def _of_case(case: Case) -> Iterator[Reference]:
    yield from _one("model", case.vehicle.model, case.path, "/vehicle/model")
    yield from _one("fault", case.fault, case.path, "/fault")
    yield from _one("case", case.follows, case.path, "/follows")


def cause_references(fault: Fault) -> Iterator[tuple[str, str]]:
    """Each place of a fault that names one of its own causes: id and pointer."""
    lists = [(cause.often_with, f"{cause.at}/often_with") for cause in fault.causes]
    lists += [(check.points_to, f"{check.at}/points_to") for check in fault.checks]
    for reading in (check.reading for check in fault.checks if check.reading is not None):
        lists.append((reading.low_points_to, f"{reading.at}/low_points_to"))
        lists.append((reading.high_points_to, f"{reading.at}/high_points_to"))
    lists += [(source.covers, f"{source.at}/covers") for source in fault.sources]
    for ids, pointer in lists:
        for index, identity in enumerate(ids):
            yield identity, f"{pointer}/{index}"


def cause_references_of_case(case: Case) -> Iterator[tuple[str, str]]:
    """Each place of a case that names a cause of its fault: id and pointer."""
    for tried in case.tried:
        if tried.fix is not None:
            yield tried.fix, f"{tried.at}/fix"
    if case.outcome.cause is not None and case.outcome.cause != UNLISTED:
        yield case.outcome.cause, "/outcome/cause"
    for index, identity in enumerate(case.outcome.also):
        yield identity, f"/outcome/also/{index}"
