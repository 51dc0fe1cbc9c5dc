"""What a script needs of a fault, beside its plan's data, to plan it together with others (`core/joint-parts.js`).

A fault's page carries it with its plan's data; a plan of several faults fetches their pages. Codes are rows of
`[format, text, base]`, the base being the code without its failure type.
"""

from __future__ import annotations

from kbtools.browser_data.good_ranges import other_ranges
from kbtools.checkplan.beside import word_record, words_of_codes
from kbtools.checkplan.parts import shared_ids
from kbtools.evidence.counting import runs
from kbtools.index.answers import Index
from kbtools.index.cases import counted_by_fault, solved_without_fault
from kbtools.index.together import one_causes
from kbtools.model.case import Case
from kbtools.model.codes import FaultCode, structure
from kbtools.model.fault import CodeRow, Fault
from kbtools.model.years import unbroken

Record = dict[str, object]


def joint_data(fault: Fault, index: Index) -> Record:
    """Plain data for JSON.

    `{"applies", "same", "shared", "good_for", "rows", "cases"}`: `applies` is `{model: [[first year, last year], …]}`,
    `good_for` is `other_ranges`; a row about a code `{"code", "unit", "fits", "with", "follow_on", "word"}`, `fits` the
    machines on which its unit is, null where it names none, `word` its own ride advice or null; `cases` are
    `[cause, [code, …], model or null]`, the counted cases that show codes.
    """
    groups = counted_by_fault(index.base).get(fault.id, {})
    return {
        "applies": spans(fault, index),
        "same": dict(one_causes(index.base).get(fault.id, {})),
        "shared": shared_ids(fault),
        "good_for": other_ranges(fault, index),
        "rows": [_row(row, row.read.code, index) for row in fault.codes if row.read.code is not None],
        "cases": [
            [cause, seen, case.vehicle.model]
            for cause, cases in groups.items()
            for case in cases
            if (seen := _seen(case, index))
        ],
    }


def spans(fault: Fault, index: Index) -> dict[str, list[list[int]]]:
    """The machines that a published fault concerns: `{model: [[first year, last year], …]}`."""
    return {model: [list(run) for run in years] for model, years in runs(index.scopes[fault.id]).items()}


def cases_without_fault_data(index: Index) -> list[Record]:
    """The solved cases about no fault that show codes: `{"id", "bike": [model, year] or null, "codes"}`."""
    return [
        {
            "id": case.id,
            "bike": None if case.vehicle.model is None else [case.vehicle.model, case.vehicle.year],
            "codes": seen,
        }
        for case in solved_without_fault(index.base)
        if (seen := _seen(case, index))
    ]


def _row(row: CodeRow, code: FaultCode, index: Index) -> Record:
    words = [word_record(word) for word in words_of_codes([(code.text, row)])]
    return {
        "code": code_row(code, index),
        "unit": row.unit,
        "fits": None if row.unit is None else _fits(row.unit, index),
        "with": [code_row(each.code, index) if each.code is not None else None for each in row.with_codes],
        "follow_on": row.follow_on,
        "word": words[0] if words else None,
    }


def _fits(unit: str, index: Index) -> Record:
    """The machines on which a control unit is."""
    found: dict[str, list[int]] = {}
    for (model, year), units in index.units_by_model_year.items():
        if any(each.id == unit for each in units):
            found.setdefault(model, []).append(year)
    return {model: [list(run) for run in unbroken(sorted(years))] for model, years in found.items()}


def code_row(code: FaultCode, index: Index) -> list[str]:
    """`[format, text, base]`."""
    return [code.format, code.text, structure(code, index.club.code_formats).base.text]


def _seen(case: Case, index: Index) -> list[list[str]]:
    return [code_row(each.read.code, index) for each in case.codes if each.read.code is not None]
