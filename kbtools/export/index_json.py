"""`index.json`: all files of the open formats, with their sizes and digests."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Final

from kbtools.export.json_text import About, Record
from kbtools.export.schema_text import COUNT, DAY, TEXT, Schema, record, rows, said

VERSION: Final = 1
"""Within it keys are only added."""


def index_record(files: Mapping[str, About], licence: str, today: dt.date) -> Record:
    """What there is to take.

    Args:
        files: what is said of each.
        licence: SPDX id of the content's licence.
        today: day of the build.
    """
    return {
        "version": VERSION,
        "licence": licence,
        "day": today,
        "files": [
            {"path": path, "count": file.count, "bytes": file.size, "sha256": file.sha256}
            for path, file in sorted(files.items())
        ],
    }


def schema() -> Schema:
    """Of the whole file."""
    file = record(
        "File",
        {
            "path": said(TEXT, "From the site's root."),
            "count": said(COUNT, "Records of a list, rows of a table, 1 of anything else."),
            "bytes": COUNT,
            "sha256": {"type": "string", "pattern": "^[0-9a-f]{64}$"},
        },
    )
    return record(
        "Index",
        {
            "version": {"const": VERSION, "type": "integer", "description": "Within a version keys are only added."},
            "licence": said(TEXT, "SPDX id of the licence of words and data."),
            "day": said(DAY, "On which this was made."),
            "files": rows(file, "All files but this one, by their paths."),
        },
    )
