"""What the finder knows: one JSON document that the browser fetches when the finder is first used.

Only published faults are in it. Every text of the knowledge base is hostile, but for unseen characters, which are
written out: the browser shows it as text, never as markup. Addresses count from the site's root.
"""

from __future__ import annotations

import dataclasses
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final

from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Component, Model, System
from kbtools.model.codes import CONTROL_WORDS, CodeFormat, FaultCode, faults_of, formats_record, structure, tables
from kbtools.model.fault import AppliesTo, Fault, RideLevel, strictest
from kbtools.model.years import Years, union
from kbtools.pages import addresses
from kbtools.pages.words import RIDE, show_years
from kbtools.scope import can_report
from kbtools.text import plain

VERSION: Final = 1
"""Rises when a change would make an older `finder.js` misread the document."""

UNKNOWN: Final = "unknown"
"""The ride advice where no entry gives any."""

CONTRIBUTE: Final = "pages/contribute.md"
"""The hand-written page that tells how to contribute, where a club has one."""


def finder_data(base: KnowledgeBase) -> dict[str, object]:
    """Everything that `finder.js` needs, JSON-ready.

    Returns:
        `version`; `formats` and `tables`, what `core/codes.js` reads codes with; `words`, groups that mean the same;
        `rides`, word and look by ride level; `controls`, words by who controls a code; `pages`, addresses
        that an answer may lead on to (null where there is no such page); `entries`, the answers there are.

        An entry has `kind` (fault, code, model, system, component), `address`, `title`, `ride` (a level, `unknown`, or
        null where the question does not arise), `system` (its name or null), `models` (rows of id, name, years in
        words) and `words`, which it is found by: texts by field. A code also has `format` and `faults`: rows of an
        entry's place in the list and whether that fault is only a consequence there, in the order of showing.
    """
    formats = base.club.code_formats if base.club else ()
    faults = [fault for fault in base.faults.values() if fault.published]
    places = {fault.id: place for place, fault in enumerate(faults)}
    return {
        "version": VERSION,
        "formats": [{**row, "name": plain(str(row["name"]))} for row in formats_record(formats)],
        "tables": tables(),
        "words": [[plain(word) for word in group] for group in base.words],
        "rides": _rides(),
        "controls": dict(CONTROL_WORDS),
        "pages": {"codes": addresses.CODES, "contribute": _contribute(base)},
        "entries": [
            *(_fault_entry(fault, base) for fault in faults),
            *_code_entries(faults, places, formats, base),
            *(_model_entry(model) for model in base.models.values()),
            *(_system_entry(system, base) for system in base.systems.values()),
            *(_component_entry(component, base) for component in base.components.values()),
        ],
    }


def _rides() -> dict[str, dict[str, str]]:
    words: dict[str, dict[str, str]] = {
        level or UNKNOWN: {"word": each.word, "look": each.look} for level, each in RIDE.items()
    }
    # Beside a code that no entry has, "Not known" alone would not say what is not known.
    words[UNKNOWN]["word"] = "Not known whether you may ride"
    return words


def _contribute(base: KnowledgeBase) -> str | None:
    return "contribute/" if any(page.path == CONTRIBUTE for page in base.pages) else None


def _fault_entry(fault: Fault, base: KnowledgeBase) -> dict[str, object]:
    system = base.systems.get(fault.system or "")
    components = {cause.component: base.components.get(cause.component or "") for cause in fault.causes}
    return {
        "kind": "fault",
        "address": addresses.fault(fault.id),
        "title": plain(fault.title),
        "ride": fault.ride_advice.level if fault.ride_advice else UNKNOWN,
        "system": plain(system.name) if system else None,
        "models": _models(fault.applies_to, base),
        "words": _texts(
            symptoms=fault.symptoms,
            system=(system.name,) if system else (),
            models=_names(fault, base),
            meanings=(row.meaning for row in fault.codes),
            causes=(cause.summary for cause in fault.causes),
            components=(component.name for component in components.values() if component),
        ),
    }


def _code_entries(
    faults: Sequence[Fault],
    places: Mapping[str, int],
    formats: Sequence[CodeFormat],
    base: KnowledgeBase,
) -> Iterator[dict[str, object]]:
    by_id = {fault.id: fault for fault in faults}
    by_code = _faults_by_code(faults)
    kin: dict[FaultCode, dict[FaultCode, list[str]]] = defaultdict(dict)
    for code, ids in by_code.items():
        kin[structure(code, formats).base][code] = ids
    for code in by_code:
        found = [by_id[each] for each in faults_of(code, kin[structure(code, formats).base], formats)]
        # Where a fault is the root of the code it comes before those that only have it as a consequence.
        rows = sorted(((places[fault.id], _follows_on(fault, code)) for fault in found), key=lambda row: row[1])
        levels: list[RideLevel] = [fault.ride_advice.level for fault in found if fault.ride_advice]
        yield {
            "kind": "code",
            "address": addresses.code(code.slug),
            "title": plain(code.text),
            "format": code.format,
            "ride": strictest(levels) or UNKNOWN,
            "system": None,
            "models": _models([row for fault in found for row in _reported(fault, code, base)], base),
            "faults": [list(row) for row in rows],
            "words": _texts(meanings=dict.fromkeys(_meanings(found, code))),
        }


def _model_entry(model: Model) -> dict[str, object]:
    return {
        "kind": "model",
        "address": addresses.model(model.id),
        "title": plain(model.name),
        "ride": None,
        "system": None,
        "models": [[model.id, plain(model.name), show_years(model.years)]],
        "words": _texts(names=model.also_called, units=(unit.name for unit in model.control_units)),
    }


def _system_entry(system: System, base: KnowledgeBase) -> dict[str, object]:
    parent = base.systems.get(system.parent or "")
    return {
        "kind": "system",
        "address": addresses.system(system.id),
        "title": plain(system.name),
        "ride": None,
        "system": plain(parent.name) if parent else None,
        "models": [],
        "words": _texts(system=(parent.name,) if parent else ()),
    }


def _component_entry(component: Component, base: KnowledgeBase) -> dict[str, object]:
    system = base.systems.get(component.system or "")
    return {
        "kind": "component",
        "address": addresses.component(component.id),
        "title": plain(component.name),
        "ride": None,
        "system": plain(system.name) if system else None,
        "models": [],
        "words": _texts(system=(system.name,) if system else ()),
    }


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


def _models(rows: Iterable[AppliesTo], base: KnowledgeBase) -> list[list[str]]:
    """Id, name and years in words of every model that the rows name, in the order of the models' files."""
    ranges: dict[str, list[Years]] = {}
    for row in rows:
        years = _fitted(row, base.models.get(row.model))
        if years is not None:
            ranges.setdefault(row.model, []).append(years)
    return [
        [model.id, plain(model.name), ", ".join(show_years(years) for years in union(ranges[model.id]))]
        for model in base.models.values()
        if model.id in ranges
    ]


def _fitted(row: AppliesTo, model: Model | None) -> Years | None:
    """The model's years that the row holds and in which its control unit, if it names one, is fitted; None: none."""
    years = row.years.cut_to(model.years) if model else None
    if model is None or years is None or row.unit is None:
        return years
    unit = model.unit(row.unit)
    return years.cut_to(unit.years) if unit else None


def _names(fault: Fault, base: KnowledgeBase) -> Iterator[str]:
    for model_id in dict.fromkeys(row.model for row in fault.applies_to):
        model = base.models.get(model_id)
        if model:
            yield from (model.name, *model.also_called)


def _texts(**fields: Iterable[str | None]) -> dict[str, list[str]]:
    """The fields that have any text, without the texts that are missing."""
    kept = {name: [plain(text) for text in texts if text] for name, texts in fields.items()}
    return {name: texts for name, texts in kept.items() if texts}
