"""Each format of a small base, held to a file that was read through: what stands where, and how it is written."""

from __future__ import annotations

import datetime as dt
import json

import pytest

from kbtools.changes.news import news
from kbtools.edges.shipped import schema_files
from kbtools.export.atom import feeds
from kbtools.export.files import export_files
from tests.support import factories as make
from tests.support.places import TESTS

SNAPSHOTS = TESTS / "snapshots" / "export"
BASE = make.base(
    make.fault(
        "lamp-flickers",
        codes=(make.code("P0562", meaning="System voltage low"), make.code("4-2", follow_on=True)),
        symptoms=("Lamp flickers",),
        formerly=("lamp-flutters",),
        checks=(make.check(points_to=("worn",)),),
    ),
    make.fault("gone", withdrawn=make.withdrawn(replaced_by="lamp-flickers")),
    make.fault("not-yet", draft=True),
    models=[make.model("bittern-900", "2003-2006", also_called=("B9",))],
    cases=[
        make.case("bittern-900-0001", "lamp-flutters", outcome={"state": "solved", "cause": "worn", "note": "Held."})
    ],
    club=make.club(site_url="https://lore.example/"),
)
COMPUTED = ("shares", "plan")
"""What is held to the command line and to hand calculations elsewhere."""


def made() -> dict[str, str]:
    index = make.index(BASE)
    told = news(index)
    files = export_files(index, dt.date(2026, 6, 1), schema_files(), told=told)
    files |= dict(feeds(index, told))
    # The line ends of tables are held elsewhere; an editor would change them in a snapshot.
    return {path.removeprefix("api/v1/"): content.decode().replace("\r\n", "\n") for path, content in files.items()}


@pytest.mark.parametrize("path", sorted(each.relative_to(SNAPSHOTS).as_posix() for each in SNAPSHOTS.rglob("*.*")))
def test_every_format_has_its_snapshot(path: str) -> None:
    text = made()[path]
    expected = (SNAPSHOTS / path).read_text("utf-8")
    if path.startswith("faults/"):
        found = json.loads(text)
        assert {key: value for key, value in found.items() if key not in COMPUTED} == json.loads(expected)
    else:
        assert text == expected


def test_no_format_is_without_one() -> None:
    """But for the list of all files, whose digests are held elsewhere, tables with shares, and schemas."""
    there = {path for path in made() if not path.startswith(("schema", "index.json", "causes.csv", "systems/"))}
    assert there == {each.relative_to(SNAPSHOTS).as_posix() for each in SNAPSHOTS.rglob("*.*")}
