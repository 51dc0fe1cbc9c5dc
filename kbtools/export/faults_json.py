"""`faults.json`: a short record of each published entry, and of each withdrawn one that it is."""

from __future__ import annotations

from kbtools.evidence import runs
from kbtools.export import fault_json
from kbtools.export.json_text import Record
from kbtools.export.schema_text import COUNT, DAY, TEXT, Schema, Schemas, like, record, rows, said, table
from kbtools.index.answers import Index
from kbtools.index.cases import counted_naming
from kbtools.model.fault import Fault
from kbtools.reading.write_fault import plain
from kbtools.wording import addresses


def of_published(fault: Fault, index: Index, old: tuple[str, ...]) -> Record:
    """The record of an entry that is advice; `old` are its former ids."""
    starts = {} if fault.does_not_start is None else {"does_not_start": fault.does_not_start}
    return {
        "id": fault.id,
        "title": fault.title,
        "system": fault.system,
        "machines": runs(index.scopes[fault.id]),
        "codes": list(dict.fromkeys(row.read.text for row in fault.codes)),
        "symptoms": list(fault.symptoms),
        **starts,
        "ride_advice": plain(fault.ride_advice),
        "cases": len(counted_naming(index.base).get(fault.id, ())),
        "reviewed": fault.reviewed.on if fault.reviewed is not None else None,
        "formerly": list(old),
        "address": addresses.fault(fault.id),
        "path": fault_json.path(fault.id),
    }


def schema(schemas: Schemas) -> Schema:
    """Of one record: published, or withdrawn."""
    return {"anyOf": [_published(schemas), fault_json.withdrawn_schema(schemas)]}


def _published(schemas: Schemas) -> Schema:
    run = {"type": "array", "items": {"type": "integer"}, "minItems": 2, "maxItems": 2}
    return record(
        "Published entry",
        {
            "id": said(TEXT, "By which everything names the entry."),
            "title": TEXT,
            "system": said(TEXT, "Id of its system."),
            "machines": table(rows(run), "Id of a model, and the model years concerned: first and last of each run."),
            "codes": rows(TEXT, "Fault codes as the entry writes them; all about them is in its own file."),
            "symptoms": like(schemas, "fault#/properties/symptoms"),
            "does_not_start": like(schemas, "fault#/properties/does_not_start"),
            "ride_advice": like(schemas, "fault#/properties/ride_advice"),
            "cases": said(COUNT, "Case reports that count for its shares."),
            "reviewed": said({**DAY, "type": ["string", "null"]}, "Day of the last review."),
            "formerly": rows(TEXT, "Ids that it had before; none is ever given to another entry."),
            "address": said(TEXT, "Of its page, from the site's root."),
            "path": said(TEXT, "Of its own file, from the site's root."),
        },
        without=["does_not_start"],
    )
