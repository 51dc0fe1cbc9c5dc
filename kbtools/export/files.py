"""Where each open format stands on the site."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Final

from kbtools.changes.news import News, news
from kbtools.export import (
    cases_json,
    checks_json,
    codes_json,
    fault_json,
    faults_json,
    index_json,
    models_json,
    news_json,
)
from kbtools.export.cases_csv import cases_csv
from kbtools.export.causes_csv import causes_csv
from kbtools.export.csv_text import rows_in
from kbtools.export.fault_json import Reckoned, reckon
from kbtools.export.faults_csv import faults_csv
from kbtools.export.json_text import About, Exported, Record, document, lists
from kbtools.export.schema_text import Schema, Schemas, list_of, whole
from kbtools.index.answers import Index

API: Final = "api/v1/"
"""Where the data stand. What would break who reads them stands in another place, beside this one."""
INDEX: Final = f"{API}index.json"
TABLES: Final[Mapping[str, Callable[[Index], str]]] = {
    "faults.csv": faults_csv,
    "causes.csv": causes_csv,
    "cases.csv": cases_csv,
}
"""Name of a table → what makes its text."""
LISTS: Final[Mapping[str, tuple[Callable[[Index], Iterable[Record]], Callable[[Schemas], Schema]]]] = {
    "faults": (faults_json.records, faults_json.schema),
    "cases": (cases_json.records, cases_json.schema),
    "codes": (codes_json.records, codes_json.schema),
    "models": (models_json.records, models_json.schema),
    "checks": (checks_json.records, checks_json.schema),
}
"""Name of a list → what makes its records, and what makes the schema of one."""


def export_files(
    index: Index,
    today: dt.date,
    schemas: Schemas,
    reckoned: Callable[[str], Reckoned | None] | None = None,
    told: Sequence[News] | None = None,
) -> dict[str, bytes]:
    """Every open format, by its path from the site's root, in UTF-8.

    Args:
        index: of the knowledge base.
        today: day of the build.
        schemas: of the files, by the names of their files; published beside the data.
        reckoned: what is reckoned already of each published fault, by id; None: it is done here.
        told: what is new, the newest first; None: what the files alone tell.
    """
    known = reckoned or (lambda fault_id: reckon(index.published[fault_id], index))
    entries = {
        fault_json.path(fault.id): document(fault_json.of_published(fault, known(fault.id), index))
        for fault in index.published.values()
    }
    files = {**files_of_all(index, schemas, news(index) if told is None else told), **entries}
    last = index_file({path: file.about for path, file in files.items()}, index, today)
    return {path: file.content for path, file in {**files, INDEX: last}.items()}


def index_file(files: Mapping[str, About], index: Index, today: dt.date) -> Exported:
    """The list of all files but itself; `today` is the day of the build."""
    return document(index_json.index_record(files, index.club.licence, today))


def files_of_all(index: Index, schemas: Schemas, told: Sequence[News]) -> dict[str, Exported]:
    """Every file but the published entries' own and the list of all; arguments as in `export_files`."""
    return {**dict(_files(index, schemas)), **dict(_listed("news", news_json.records(index, told)))}


def _files(index: Index, schemas: Schemas) -> Iterator[tuple[str, Exported]]:
    for name, table in TABLES.items():
        text = table(index)
        yield f"{API}{name}", Exported(content=text.encode(), count=rows_in(text))
    for name, (records, _) in LISTS.items():
        yield from _listed(name, records(index))
    for fault in index.tombstones.values():
        yield fault_json.path(fault.id), document(fault_json.of_withdrawn(fault, index))
    for record in fault_json.of_renamed(index):
        yield fault_json.path(str(record["id"])), document(record)
    for name, schema in api_schemas(schemas).items():
        yield f"{API}schema/{name}.schema.json", _schema_file(schema)
    for name, schema in schemas.items():
        yield f"schemas/{name}", _schema_file(schema)


def _listed(name: str, records: Iterable[Record]) -> Iterator[tuple[str, Exported]]:
    return ((f"{API}{each}", file) for each, file in lists(f"{name}.json", records))


def api_schemas(schemas: Schemas) -> dict[str, Schema]:
    """The schemas of the open formats by name, each complete in itself."""
    items = {name: schema(schemas) for name, (_, schema) in LISTS.items()} | {"news": news_json.schema(schemas)}
    return {
        "index": whole("index", "index.json", index_json.schema()),
        "fault": whole("fault", "faults/<fault>.json", fault_json.schema(schemas)),
        **{name: whole(name, f"{name}.json", list_of(each)) for name, each in items.items()},
    }


def _schema_file(schema: Schema) -> Exported:
    return Exported(content=f"{json.dumps(schema, ensure_ascii=False, indent=2)}\n".encode(), count=1)
