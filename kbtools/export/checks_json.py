"""`checks.json`: the checks that several faults share, and what a sound machine of each model year shows there."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from kbtools.export.json_text import Record
from kbtools.export.schema_text import TEXT, Schema, Schemas, like, named, record, rows, said
from kbtools.index.answers import Index
from kbtools.index.checks import exception_for, good_on, uses
from kbtools.model.check import Check
from kbtools.model.money import Range
from kbtools.model.years import unbroken
from kbtools.reading.write_fault import shared_as_data


def records(index: Index) -> Iterator[Record]:
    """In the order of the file."""
    using = uses(index.base)
    for shared in index.base.checks.values():
        found = (fault.id for fault, _ in using.get(shared.id, ()) if fault.id in index.published)
        yield {
            **shared_as_data(shared),
            "used_by": list(dict.fromkeys(found)),
            "test_values": list(_values(shared.check, index)),
        }


def _values(check: Check, index: Index) -> Iterator[Record]:
    """The good range of each model year, years of one range together."""
    if check.reading is None:
        return
    for model, years in index.years.items():
        told = [(year, good_on(check, model, year), exception_for(check, model, year)) for year in years]
        for (good, row), group in itertools.groupby(told, key=lambda each: each[1:]):
            if good is not None:
                because = {} if row is None or row.because is None else {"because": row.because}
                for first, last in unbroken(year for year, *_ in group):
                    yield {"model": model, "first": first, "last": last, "good": _ends(good), **because}


def _ends(good: Range) -> list[float]:
    return [good.low, good.high]


def schema(schemas: Schemas) -> Schema:
    """Of one record."""
    values = record(
        "Test value",
        {
            "model": said(TEXT, "Id of the model."),
            "first": {"type": "integer", "description": "First model year."},
            "last": {"type": "integer", "description": "Last model year, included."},
            "good": {
                "type": "array",
                "items": {"type": "number"},
                "minItems": 2,
                "maxItems": 2,
                "description": "Low and high, both good, in the unit of the reading.",
            },
            "because": said(TEXT, "Why it differs from other machines, Markdown."),
        },
        without=["because"],
    )
    return named(
        like(schemas, "checks#/properties/checks/items"),
        "id",
        "used_by",
        "test_values",
        used_by=rows(TEXT, "Ids of the published entries that use it."),
        test_values=rows(values, "What a sound machine shows; empty where nothing is measured."),
    )
