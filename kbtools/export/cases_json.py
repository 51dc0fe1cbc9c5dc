"""`cases.json`: each case report with the keys of its file, and its id."""

from __future__ import annotations

from kbtools.export.json_text import Record
from kbtools.export.schema_text import TEXT, Schema, Schemas, like, named, said
from kbtools.index.answers import Index
from kbtools.model.case import Case
from kbtools.reading.write_fault import case_as_data

_OF_A_FAULT = ("cause", "also")
"""What of an outcome names parts of a fault."""


def record(case: Case, index: Index, *, counts: bool) -> Record:
    """What names an entry that is not published is left out; `counts` as evidence of the entry that it names."""
    data = case_as_data(case)
    fault = index.entry(case.fault) if case.fault is not None else None
    if fault is not None:
        data["fault"] = fault.id
    elif case.fault is not None:
        data = {key: value for key, value in data.items() if key not in {"fault", "tried"}}
        data["outcome"] = {key: value for key, value in data["outcome"].items() if key not in _OF_A_FAULT}
    return {"id": case.id, **data, "counted": counts and fault is not None and fault.id in index.published}


def schema(schemas: Schemas) -> Schema:
    """Of one record."""
    return named(
        like(schemas, "case"),
        "id",
        "counted",
        id=said(TEXT, "Of the case."),
        counted={
            "type": "boolean",
            "description": "Whether it counts for the shares of its fault: solved, and verified or ridden far enough.",
        },
    )
