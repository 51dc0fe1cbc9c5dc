"""A part of the demo, for what needs a real base and not a large one: six entries with all that they name."""

from __future__ import annotations

import shutil
from pathlib import Path

from tests.support.demo_pictures import copy_named
from tests.support.hostile_texts import with_all_they_name
from tests.support.places import DEMO

_ENTRIES = (
    *("battery-flat-overnight", "starter-only-clicks", "voltage-sags-when-wet", "abs-lamp-front-sensor"),
    *("front-lever-comes-back", "oil-lamp-while-riding"),
)


def copy_part(kb: Path) -> None:
    """Copy it into a folder that is not there yet, with a home page of its own."""
    for path in with_all_they_name(DEMO, sorted(DEMO.rglob("*.yml")), _ENTRIES):
        target = kb / path.relative_to(DEMO)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, target)
    (kb / "pages").mkdir()
    (kb / "pages" / "index.md").write_text("# Welcome\n", encoding="utf-8")
    copy_named(DEMO, kb)
