"""`models.json`: each model with the keys of its file, its id and its model years."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.export.json_text import Record
from kbtools.export.schema_text import TEXT, Schema, Schemas, like, named, rows, said
from kbtools.index.answers import Index
from kbtools.reading.write_fault import model_as_data
from kbtools.wording import addresses


def records(index: Index) -> Iterator[Record]:
    """In the order of the files."""
    for model in index.base.models.values():
        yield {
            "id": model.id,
            **model_as_data(model),
            "model_years": list(index.years[model.id]),
            "address": addresses.model(model.id),
        }


def schema(schemas: Schemas) -> Schema:
    """Of one record."""
    return named(
        like(schemas, "model"),
        "id",
        "model_years",
        "address",
        id=said(TEXT, "By which everything names the model."),
        model_years=rows({"type": "integer"}, "Each year in which it was built; one still built has next year's too."),
        address=said(TEXT, "Of its page, from the site's root."),
    )
