"""Code pages: one for each code that an entry has, and the list of all codes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from kbtools.evidence import runs
from kbtools.index.answers import Index
from kbtools.index.checks import first_looks
from kbtools.index.codes import CodeUse, near_codes, ride_level_with
from kbtools.index.scopes import Questions, can_report
from kbtools.model.codes import FaultCode, structure
from kbtools.model.fault import Fault
from kbtools.model.ride_advice import RideLevel, strictest
from kbtools.pages import crumbs
from kbtools.pages.code_plan import FirstStep, code_plan
from kbtools.pages.fault import unit_names
from kbtools.pages.faults import top_of
from kbtools.pages.first_looks import looks_view
from kbtools.pages.lines import Line, Link, line, ride_words
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec, Section
from kbtools.pages.whom import whom, written
from kbtools.wording import addresses
from kbtools.wording.codes import structure_words
from kbtools.wording.labels import count_of, verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class UseView:
    """A fault under a code."""

    line: Line
    """The fault."""
    meaning: str | None
    """Plain text."""
    sets_when: str | None
    """Markdown."""
    follow_on: bool
    """A consequence there: the root code comes first."""
    with_codes: tuple[str, ...]
    """Codes that must be stored too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitUses:
    """The faults under a code as one control unit shows it."""

    unit: str | None
    """Its name; None where the entries name none."""
    uses: tuple[UseView, ...]
    """In the order of the files."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelUses:
    """The faults under a code on one model."""

    model: Link
    """The model."""
    units: tuple[UnitUses, ...]
    """By control unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FormatView:
    """A code at this address, in one of the club's notations."""

    code: FaultCode
    """The code."""
    name: str
    """What the notation is called."""
    per_unit: bool
    """It means nothing without its control unit."""
    structure: tuple[str, ...]
    """What its structure tells, sentences."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeRowView:
    """A code in the list of all codes."""

    link: Link
    """Its page."""
    meanings: tuple[str, ...]
    """What entries call it, plain text."""
    whom: str
    """Which machines can show it, for the page's scripts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeGroup:
    """Codes under a heading."""

    heading: Link
    """A system or a model."""
    rows: tuple[CodeRowView, ...]
    """In the order of their texts."""


def pages(index: Index, begins: Mapping[str, FirstStep | None]) -> Iterator[Planned]:
    """The list of all codes, and the page of each; `begins` has what the plans of faults begin with."""
    yield Planned(address=addresses.CODES, kind="codes", make=partial(_all_codes, index))
    for slug, codes in index.codes_by_slug.items():
        uses = [use for each in codes for use in index.uses_by_code.get(each, ())]
        # Where the plans of all faults that have it are known.
        near = max((top_of(use.fault.id, index), use.fault.id) for use in uses) if uses else ("", "")
        yield Planned(
            address=addresses.code(slug),
            kind="code",
            make=partial(_page, slug, index, begins),
            group=near[0],
            member=near[1],
        )


def _page(slug: str, index: Index, begins: Mapping[str, FirstStep | None]) -> PageSpec:
    codes = index.codes_by_slug[slug]
    own = [use for code in codes for use in index.uses_by_code[code]]
    near_codes = [near for code in codes for near in _near_to(code, index)]
    near = [use for code in near_codes for use in index.uses_by_code[code]]
    faults = {use.fault.id: use.fault for use in (*own, *near)}
    text = codes[0].text
    meanings = list(dict.fromkeys(use.row.meaning for use in own if use.row.meaning))
    models = by_model_and_unit(own, index)
    systems = dict.fromkeys(fault.system for fault in faults.values() if fault.system is not None)
    plan = code_plan(codes, faults.values(), index, begins)
    level = _strictest(codes, faults.values(), index)
    one = index.published[plan.one.id] if plan.one is not None else None
    answer = ride_words(level).answer if one is None else verdict(level, one.does_not_start)
    return PageSpec(
        address=addresses.code(slug),
        kind="code",
        title=f"{text}: {meanings[0]}" if len(meanings) == 1 else text,
        description=f"Fault code {text}: {', '.join(meanings) or 'what it can be'}; "
        f"{count_of(len(faults), 'known fault')} by model and control unit.",
        context={
            "text": text,
            "formats": tuple(_format(code, index) for code in codes),
            "meanings": tuple(meanings),
            "ride": ride_words(level),
            "level": level,
            "answer": answer,
            "several": len(faults) > 1,
            "plan": plan,
            "currency": index.club.currency,
            "looks": looks_view(systems, index),
            "models": models,
            "near": by_model_and_unit(near, index),
            "near_codes": tuple(_link(code) for code in near_codes),
            "systems": tuple(
                Link(address=addresses.system(each), title=index.base.systems[each].name)
                for each in systems
                if each in index.base.systems
            ),
        },
        crumbs=(crumbs.HOME_CRUMB, crumbs.CODES_CRUMB),
        sections=tuple(_sections(near=bool(near), looks=bool(first_looks(index.base, systems)), plan=plan.is_several)),
    )


def _strictest(codes: Sequence[FaultCode], faults: Iterable[Fault], index: Index) -> RideLevel | None:
    """The strictest advice of these faults on a bike with one of these codes."""
    formats = index.club.code_formats
    levels = [ride_level_with(fault, code, formats) for fault in faults for code in codes]
    return strictest([level for level in levels if level is not None])


def _sections(*, near: bool, looks: bool, plan: bool) -> Iterator[Section]:
    yield Section(id="ride", title="May I ride it?")
    yield Section(id="likely", title="What it can be")
    if looks:
        yield Section(id="look-first", title="Look at these first")
    if plan:
        yield Section(id="plan", title="One step after the other")
        yield Section(id="workshop-note", title="Note for the workshop")
    yield Section(id="faults", title="By model and control unit")
    if near:
        yield Section(id="near", title="The same code, read more or less closely")
    yield Section(id="meaning", title="What the code itself says")
    yield Section(id="next", title="Read on")


def _near_to(code: FaultCode, index: Index) -> tuple[FaultCode, ...]:
    formats = index.club.code_formats
    return near_codes(code, index.code_families.get(structure(code, formats).base, ()), formats)


def models_of(use: CodeUse, index: Index) -> list[str]:
    """The models that the entry concerns and that have a control unit which can report the code."""
    return [model for model in index.scopes[use.fault.id] if can_report(use.row, index.base.models[model])]


def by_model_and_unit(uses: Iterable[CodeUse], index: Index) -> tuple[ModelUses, ...]:
    """The uses by model, in the order of the models, and by control unit; a use without one comes last."""
    found: dict[str, dict[str | None, list[CodeUse]]] = {}
    for use in uses:
        for model in models_of(use, index):
            found.setdefault(model, {}).setdefault(use.row.unit, []).append(use)
    return tuple(
        ModelUses(
            model=Link(address=addresses.model(model.id), title=model.name),
            units=tuple(
                UnitUses(
                    unit=unit_names(unit, [model.id], index)[0] if unit else None,
                    uses=tuple(_use(each, model.id, index) for each in found[model.id][unit]),
                )
                for unit in sorted(found[model.id], key=lambda unit: (unit is None, unit or ""))
            ),
        )
        for model in index.base.models.values()
        if model.id in found
    )


def _use(use: CodeUse, model: str, index: Index) -> UseView:
    """The use as a row under a model: it concerns the bikes of that model alone."""
    return UseView(
        line=line(use.fault, whom=whom(use.fault, index, model)),
        meaning=use.row.meaning,
        sets_when=use.row.sets_when,
        follow_on=use.row.follow_on,
        with_codes=tuple(each.code.text if each.code is not None else each.text for each in use.row.with_codes),
    )


def _format(code: FaultCode, index: Index) -> FormatView:
    formats = index.club.code_formats
    own = next(each for each in formats if each.id == code.format)
    return FormatView(
        code=code, name=own.name, per_unit=own.per_unit, structure=structure_words(structure(code, formats))
    )


def _all_codes(index: Index) -> PageSpec:
    count = len(index.codes_by_slug)
    systems, models = _by_system(index), _by_model(index)
    return PageSpec(
        address=addresses.CODES,
        kind="codes",
        title="All codes",
        description=f"{count_of(count, 'fault code')} that the entries know, by system and by model.",
        context={"count_of_codes": count, "systems": systems, "models": models, "formats": index.club.code_formats},
        crumbs=(crumbs.HOME_CRUMB,),
        sections=(Section(id="by-system", title="By system"), Section(id="by-model", title="By model")),
    )


def _by_system(index: Index) -> tuple[CodeGroup, ...]:
    groups: dict[str, list[CodeUse]] = {}
    for uses in index.uses_by_code.values():
        for use in uses:
            groups.setdefault(use.fault.system or "", []).append(use)
    return tuple(
        CodeGroup(
            heading=Link(address=addresses.system(system.id), title=system.name), rows=rows_of(groups[system.id], index)
        )
        for system in index.base.systems.values()
        if system.id in groups
    )


def _by_model(index: Index) -> tuple[CodeGroup, ...]:
    groups: dict[str, list[CodeUse]] = {}
    for uses in index.uses_by_code.values():
        for use in uses:
            for model in models_of(use, index):
                groups.setdefault(model, []).append(use)
    return tuple(
        CodeGroup(
            heading=Link(address=addresses.model(model.id), title=model.name), rows=rows_of(groups[model.id], index)
        )
        for model in index.base.models.values()
        if model.id in groups
    )


def rows_of(uses: Sequence[CodeUse], index: Index) -> tuple[CodeRowView, ...]:
    """One row a code, with all that these entries call it."""
    by_code: dict[FaultCode, list[CodeUse]] = {}
    for use in uses:
        by_code.setdefault(use.code, []).append(use)
    return tuple(
        CodeRowView(
            link=_link(code),
            meanings=tuple(dict.fromkeys(use.row.meaning for use in by_code[code] if use.row.meaning)),
            whom=_whom(by_code[code], index),
        )
        for code in sorted(by_code, key=lambda code: (code.text, code.format))
    )


def _whom(uses: Iterable[CodeUse], index: Index) -> str:
    """The machines of all these uses together."""
    years: dict[str, dict[int, Questions]] = {}
    for use in uses:
        for model in models_of(use, index):
            years.setdefault(model, {}).update(index.scopes[use.fault.id][model])
    return written(runs(years))


def _link(code: FaultCode) -> Link:
    return Link(address=addresses.code(code.slug), title=code.text)
