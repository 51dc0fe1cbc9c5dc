"""A part of the demo built twice for a site below a path, in the second build with another reason on every fault."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from tests.support.part_of_demo import copy_part
from tests.support.places import ROOT
from tests.support.shared import built

BELOW = "/club/lore/"
"""The path of the site's address in `club.yml`."""
OLD_WHY = "An old reason, since until tonight nothing gets hot, loose, slippery or louder than usual."
NEW_WHY = "A new reason, since until tomorrow nothing gets hot, loose, slippery or louder than usual."
_ADDRESS = "https://lore.ostrel-circle.example/\n"


def build_twice(folder: Path) -> None:
    """Make the folders `first` and `second` in a folder."""
    kb = folder / "kb"
    # What a worker fetches in each test grows with it.
    copy_part(kb)
    shutil.copy(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    _replace(folder / "mkdocs.yml", "custom_dir: site_overrides", f"custom_dir: {ROOT / 'site_overrides'}")
    _replace(kb / "club.yml", _ADDRESS, f"https://ostrel-circle.example{BELOW}\n")
    _say_why(kb, OLD_WHY)
    built(kb, folder / "first")
    _say_why(kb, NEW_WHY)
    # This one changes the finder's data too.
    _replace(kb / "faults" / "starting" / "starter-only-clicks.yml", "title: Starter", "title: The starter")
    built(kb, folder / "second")


def _replace(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def _say_why(kb: Path, why: str) -> None:
    changed = 0
    for path in kb.glob("faults/*/*.yml"):
        text = path.read_text("utf-8")
        new = re.sub(r"(?m)^(  why:).*(?:\n    .*)*$", rf"\1 {why}", text, count=1)
        changed += new != text
        path.write_text(new, "utf-8")
    assert changed > 4
