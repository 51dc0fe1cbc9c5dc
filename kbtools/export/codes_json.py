"""`codes.json`: each fault code that a published entry has, what its form tells, and the rows about it."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.export.json_text import Record
from kbtools.export.schema_text import TEXT, Schema, Schemas, like, named, or_null, record, rows, said
from kbtools.index.answers import Index
from kbtools.index.codes import CodeUse
from kbtools.model.codes import FaultCode, structure
from kbtools.reading.write_fault import plain
from kbtools.wording import addresses


def records(index: Index) -> Iterator[Record]:
    """By format, then by code."""
    for code in sorted(index.uses_by_code, key=lambda each: (each.format, each.text)):
        yield _record(code, index)


def _record(code: FaultCode, index: Index) -> Record:
    parts = structure(code, index.club.code_formats)
    kind = parts.failure_type
    return {
        "code": code.text,
        "format": code.format,
        "address": addresses.code(code.slug),
        "system": parts.system,
        "controlled_by": parts.controlled_by,
        "failure_type": kind and {"code": kind.code, "meaning": kind.meaning},
        "rows": [_row(use) for use in index.uses_by_code[code]],
    }


def _row(use: CodeUse) -> Record:
    return {"fault": use.fault.id, **plain(use.row)}


def schema(schemas: Schemas) -> Schema:
    """Of one record."""
    text_or_null = {"type": ["string", "null"]}
    row = like(schemas, "fault#/properties/codes/items")
    return record(
        "Fault code",
        {
            "code": said(TEXT, "In its one spelling: P0562, P0562-11, 4-2."),
            "format": said(
                TEXT, "Id of the club's code format. A code of one format is another one than that of another."
            ),
            "address": said(TEXT, "Of its page, from the site's root."),
            "system": said(text_or_null, "powertrain, chassis, body or network, as its first letter says."),
            "controlled_by": said(text_or_null, "standard, maker or reserved: who says what it means."),
            "failure_type": or_null(
                record("Failure type", {"code": TEXT, "meaning": text_or_null}),
                "The last two digits, where it has them.",
            ),
            "rows": rows(
                named(row, "fault", "code", fault=said(TEXT, "Id of the entry.")),
                "What each published entry says of it.",
            ),
        },
    )
