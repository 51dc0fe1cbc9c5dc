"""Where each open format stands on the site."""

from __future__ import annotations

import datetime as dt
import itertools
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Final

from kbtools.changes.news import News, news
from kbtools.export import (
    cases_csv,
    cases_json,
    causes_csv,
    checks_json,
    codes_json,
    fault_json,
    faults_csv,
    faults_json,
    index_json,
    models_json,
    news_json,
)
from kbtools.export.csv_text import csv_table, rows_in
from kbtools.export.fault_json import reckon
from kbtools.export.json_text import About, Exported, Record, document, json_line, lists
from kbtools.export.kept_texts import case_texts, fault_texts
from kbtools.export.schema_text import Schema, Schemas, list_of, whole
from kbtools.index.answers import Index
from kbtools.model.memory import Memory

API: Final = "api/v1/"
"""Where the data stand. What would break who reads them stands in another place, beside this one."""
INDEX: Final = f"{API}index.json"
LISTS: Final[Mapping[str, Callable[[Index], Iterable[Record]]]] = {
    "codes": codes_json.records,
    "models": models_json.records,
    "checks": checks_json.records,
}
"""Name of a list that is made anew each time → what makes its records."""
SCHEMAS: Final[Mapping[str, Callable[[Schemas], Schema]]] = {
    "faults": faults_json.schema,
    "cases": cases_json.schema,
    "codes": codes_json.schema,
    "models": models_json.schema,
    "checks": checks_json.schema,
}
"""Name of a list → what makes the schema of one record."""


def export_files(
    index: Index, today: dt.date, schemas: Schemas, told: Sequence[News] | None = None, memory: Memory | None = None
) -> dict[str, bytes]:
    """Every open format, by its path from the site's root, in UTF-8.

    Args:
        index: of the knowledge base.
        today: day of the build.
        schemas: of the files, by the names of their files; published beside the data.
        told: what is new, the newest first; None: what the files alone tell.
        memory: knows what is said of entries and cases of which nothing has changed; None: all of it is made.
    """
    entries = {
        fault_json.path(fault.id): document(fault_json.of_published(fault, reckon(fault, index), index))
        for fault in index.published.values()
    }
    shared = dict(files_of_all(index, schemas, news(index) if told is None else told, memory))
    files = {**entries, **shared}
    last = index_file({path: file.about for path, file in files.items()}, index, today)
    return {path: file.content for path, file in {**files, INDEX: last}.items()}


def index_file(files: Mapping[str, About], index: Index, today: dt.date) -> Exported:
    """The list of all files but itself; `today` is the day of the build."""
    return document(index_json.index_record(files, index.club.licence, today))


def files_of_all(
    index: Index, schemas: Schemas, told: Sequence[News], memory: Memory | None
) -> Iterator[tuple[str, Exported]]:
    """Every file but the published entries' own and the list of all; arguments as in `export_files`."""
    return itertools.chain(
        _of_faults(index, memory), _of_cases(index, memory), _of_the_rest(index, told), _schema_files(schemas)
    )


def _of_faults(index: Index, memory: Memory | None) -> Iterator[tuple[str, Exported]]:
    texts = dict(fault_texts(index, memory))
    in_order = [texts[fault_id] for fault_id in index.published]
    gone = [fault_json.of_withdrawn(fault, index) for fault in index.tombstones.values()]
    yield from _listed("faults", [*(each.listed for each in in_order), *map(json_line, gone)])
    yield _table("faults", faults_csv.HEADER, (each.row for each in in_order))
    yield _table("causes", causes_csv.HEADER, (each.causes for each in in_order))
    for record in (*gone, *fault_json.of_renamed(index)):
        yield fault_json.path(str(record["id"])), document(record)


def _of_cases(index: Index, memory: Memory | None) -> Iterator[tuple[str, Exported]]:
    texts = case_texts(index, memory)
    yield from _listed("cases", (each.listed for each in texts))
    yield _table("cases", cases_csv.HEADER, (each.row for each in texts))


def _of_the_rest(index: Index, told: Sequence[News]) -> Iterator[tuple[str, Exported]]:
    for name, records in LISTS.items():
        yield from _listed(name, map(json_line, records(index)))
    yield from _listed("news", map(json_line, news_json.records(index, told)))


def _schema_files(schemas: Schemas) -> Iterator[tuple[str, Exported]]:
    for name, schema in api_schemas(schemas).items():
        yield f"{API}schema/{name}.schema.json", _schema_file(schema)
    for name, schema in schemas.items():
        yield f"schemas/{name}", _schema_file(schema)


def _listed(name: str, lines: Iterable[str]) -> Iterator[tuple[str, Exported]]:
    return ((f"{API}{each}", file) for each, file in lists(f"{name}.json", lines))


def _table(name: str, header: Sequence[str], rows: Iterable[str]) -> tuple[str, Exported]:
    text = csv_table(header, rows)
    return f"{API}{name}.csv", Exported(content=text.encode(), count=rows_in(text))


def api_schemas(schemas: Schemas) -> dict[str, Schema]:
    """The schemas of the open formats by name, each complete in itself."""
    items = {name: schema(schemas) for name, schema in SCHEMAS.items()} | {"news": news_json.schema(schemas)}
    return {
        "index": whole("index", "index.json", index_json.schema()),
        "fault": whole("fault", "faults/<fault>.json", fault_json.schema(schemas)),
        **{name: whole(name, f"{name}.json", list_of(each)) for name, each in items.items()},
    }


def _schema_file(schema: Schema) -> Exported:
    return Exported(content=f"{json.dumps(schema, ensure_ascii=False, indent=2)}\n".encode(), count=1)
