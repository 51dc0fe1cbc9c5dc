"""Take it with you: every file of the open formats, each with an example that runs."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from kbtools.export.fault_json import path as fault_path
from kbtools.export.files import API
from kbtools.index.answers import Index
from kbtools.pages import crumbs
from kbtools.pages.spec import PageSpec, Section
from kbtools.wording import addresses

SOMEWHERE: Final = "https://lore.example/"
"""Stands for the site's address where the club has not said it."""
_PLAIN: Final = re.compile(r"[A-Za-z0-9-]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """A file that may be taken."""

    id: str
    """Of its element."""
    path: str
    """From the site's root."""
    href: str
    """Relative address."""
    schema_href: str | None
    """Relative address of its schema; None of a table."""
    what: str
    """What is in it."""
    python: str
    """Three lines of Python that read it."""
    line: str
    """One line for a shell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Names:
    """Names of this base for the examples; they are ids or plain codes, which need no quoting."""

    fault: str
    model: str
    code: str


def pages(index: Index) -> Iterator[PageSpec]:
    """The one page."""
    site = index.club.site_url
    files = tuple(_files(index, site or SOMEWHERE))
    yield PageSpec(
        address=addresses.DATA,
        kind="data",
        title=addresses.DATA_TITLE,
        description="All entries, cases, codes, models and test values as JSON and CSV, with schemas and examples.",
        context={
            "files": files,
            "feed": addresses.FEED,
            "licence": index.club.licence,
            "somewhere": None if site else SOMEWHERE,
            "schemas": tuple(f"{each}.schema.json" for each in ("fault", "case", "model", "checks", "common")),
        },
        crumbs=(crumbs.HOME_CRUMB,),
        sections=(
            Section(id="promise", title="What stays as it is"),
            Section(id="files", title="The files"),
            Section(id="schemas", title="What an entry's file may say"),
        ),
    )


def _files(index: Index, site: str) -> Iterator[Offered]:
    names = _names(index)
    for name, what, printed, asked in _JSON:
        path = fault_path(names.fault) if name == "fault" else f"{API}{name}.json"
        key = "" if name in {"fault", "index"} else '["items"]'
        shown, jq = (text.replace("MODEL", names.model).replace("CODE", names.code) for text in (printed, asked))
        yield Offered(
            id=f"{name}-json",
            path=path,
            href=f"../{path}",
            schema_href=f"../{API}schema/{name}.schema.json",
            what=what,
            python="import json, urllib.request\n"
            f"{name} = json.load(urllib.request.urlopen({json.dumps(site + path)})){key}\n"
            f"print({shown})",
            line=f"curl -s {shlex.quote(site + path)} | jq -r {shlex.quote(jq)}",
        )
    for name, what, column in _CSV:
        path = f"{API}{name}.csv"
        yield Offered(
            id=f"{name}-csv",
            path=path,
            href=f"../{path}",
            schema_href=None,
            what=what,
            python="import csv, io, urllib.request\n"
            f"text = urllib.request.urlopen({json.dumps(site + path)}).read().decode()\n"
            f'print([row["{column}"] for row in csv.DictReader(io.StringIO(text))])',
            line=f"curl -s {shlex.quote(site + path)} | head -3",
        )


def _names(index: Index) -> _Names:
    codes = (code.text for code in index.uses_by_code)
    return _Names(
        fault=next(iter(index.published), "some-fault"),
        model=next(iter(index.base.models), "some-model"),
        code=next((each for each in codes if _PLAIN.fullmatch(each)), "P0562"),
    )


_JSON: Final = (
    (
        "index",
        "Every file with its size, the number of its records and its SHA-256: what has changed since the last time.",
        'sum(file["bytes"] for file in index["files"]), "bytes"',
        "[.files[].bytes] | add",
    ),
    (
        "faults",
        "Each entry in short: title, machines, codes, symptoms, ride advice. Withdrawn ones say that they are.",
        '[fault["title"] for fault in faults if "MODEL" in fault.get("machines", {})]',
        '.items[] | select(.machines["MODEL"]) | .title',
    ),
    (
        "fault",
        "One entry whole, with how often each cause is the one, and the plan for an owner of whom nothing is known.",
        '[(cause["id"], round(cause["share"], 2)) for cause in fault["shares"]]',
        ".shares[] | [.id, .share]",
    ),
    (
        "cases",
        "Each case report: what was seen, tried and found, and whether it counts. Nothing in it leads to a person.",
        '{case["outcome"]["state"]: case["id"] for case in cases}',
        "[.items[].outcome.state] | group_by(.) | map({(.[0]): length}) | add",
    ),
    (
        "codes",
        "Each fault code, what its form tells, and what each entry says of it.",
        '[row["fault"] for code in codes if code["code"] == "CODE" for row in code["rows"]]',
        '.items[] | select(.code == "CODE") | .rows[].fault',
    ),
    (
        "models",
        "Each model with its years and control units.",
        '{model["id"]: model["model_years"] for model in models}',
        ".items[] | {id, model_years}",
    ),
    (
        "checks",
        "The checks that several entries share, and the test values of each model year.",
        '[(check["id"], value["good"]) for check in checks for value in check["test_values"]]',
        '.items[] | select(any(.test_values[]; .model == "MODEL")) | .id',
    ),
    (
        "news",
        "What is new: ride advice that changed, recalls, entries and cases, the newest first. The feeds say the same.",
        '[item["title"] for item in news]',
        '.items[] | .on + " " + .title',
    ),
)
"""Name, what is in it, what the third line of Python prints, what `jq` is asked."""

_CSV: Final = (
    ("faults", "A row each entry, for a spreadsheet.", "title"),
    ("causes", "A row each cause, with its share, prices and hours.", "cause"),
    ("cases", "A row each case report.", "state"),
)
"""Name, what is in it, a column."""
