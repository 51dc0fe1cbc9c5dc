"""`news.json`: what the feeds say, for programs and for my bike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from kbtools.changes.news import KINDS, News, concerned
from kbtools.export import news_words
from kbtools.export.json_text import Record
from kbtools.export.schema_text import DAY, TEXT, Schema, Schemas, like, or_null, record, rows, said, table
from kbtools.export.tag_ids import tag
from kbtools.index.answers import Index
from kbtools.model.years import unbroken
from kbtools.text.html import plain

MOST: Final = 100
"""News in the file."""


def records(index: Index, news: Sequence[News]) -> Iterator[Record]:
    """The newest first."""
    for item in news[:MOST]:
        yield {
            "id": tag(item.key, index.club.site_url, index.club.name),
            "on": item.on,
            "kind": item.kind,
            "title": plain(news_words.title(item, index)),
            "fault": item.fault.id if item.fault is not None else None,
            "case": item.case.id if item.case is not None else None,
            "level": item.now,
            "was": item.was,
            "machines": {model: list(unbroken(years)) for model, years in concerned(item, index).items()},
            "address": news_words.address(item),
        }


def schema(schemas: Schemas) -> Schema:
    """Of one record."""
    level = like(schemas, "common#/$defs/ride-level")
    id_or_null = {"type": ["string", "null"]}
    run = {"type": "array", "items": {"type": "integer"}, "minItems": 2, "maxItems": 2}
    return record(
        "News",
        {
            "id": said(TEXT, "As in the feeds; it stays for ever."),
            "on": said(DAY, "On which it came, where the log tells; else the day that the file names."),
            "kind": {"type": "string", "enum": list(KINDS), "description": "notice: a recall or bulletin."},
            "title": said(TEXT, "One line of plain text."),
            "fault": said(id_or_null, "Id of the entry."),
            "case": said(id_or_null, "Id of the case."),
            "level": or_null(level, "Of advice: what it is since."),
            "was": or_null(level, "Of advice: what it was before."),
            "machines": table(rows(run), "Id of a model, and its model years: first and last of each run."),
            "address": said(TEXT, "Of the page that tells more, from the site's root."),
        },
    )
