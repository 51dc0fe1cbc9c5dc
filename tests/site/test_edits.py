"""After an edit, whatever it is, a build in the place of the last one gives what a build from nothing gives."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

import pytest

from kbtools.edges import file_system as filesystem
from tests.support.compiled_once import compiled_once
from tests.support.edited_base import Edited, Lying, differing, lying
from tests.support.edits import CHANGES_NOTHING, LOCAL, WIDE, Edit

AT_ONCE = 6
"""Edits that are made before a build where a run takes a sample: each build then stands for so many."""


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Compile no template twice."""
    compiled_once(monkeypatch)


@pytest.fixture
def unharmed(monkeypatch: pytest.MonkeyPatch) -> dict[Path, Lying]:
    """What sites are known to hold: each is held to it at the moment in which another one takes its place."""
    known: dict[Path, Lying] = {}
    exchange = filesystem.exchange

    def looked(new: Path, site: Path) -> bool:
        if site in known:
            assert differing(lying(site), known[site]) == [], "changed before its readers' eyes"
        return exchange(new, site)

    monkeypatch.setattr(filesystem, "exchange", looked)
    return known


@pytest.mark.parametrize("edits", [LOCAL, WIDE], ids=["of few pages", "of many pages"])
def test_what_is_built_after_an_edit_is_what_is_built_from_nothing(
    edits: Mapping[str, Edit], tmp_path: Path, unharmed: dict[Path, Lying], thorough: bool
) -> None:
    base, cache = Edited(tmp_path / "base"), tmp_path / "cache"
    before = unharmed[tmp_path / "site"] = base.built(tmp_path / "site", cache)
    for number, names in enumerate(_in_groups(list(edits), 1 if thorough else AT_ONCE)):
        for name in names:
            edits[name](base)
        after = unharmed[tmp_path / "site"] = base.built(tmp_path / "site", cache)
        nothing = base.built(tmp_path / f"cold-{number}", None)
        assert differing(after, nothing) == [], f"after {names}"
        if not CHANGES_NOTHING.issuperset(names):
            assert _but_for_the_id(after) != _but_for_the_id(before), f"{names} should be seen"
        before = after
    # What a process keeps in its memory is not in another's.
    base.build_elsewhere(tmp_path / "elsewhere")
    assert differing(lying(tmp_path / "elsewhere"), before) == []


def _in_groups(names: list[str], size: int) -> list[list[str]]:
    return [names[start : start + size] for start in range(0, len(names), size)]


def _but_for_the_id(site: Lying) -> dict[str, bytes | str]:
    """What lies in a site, without the id that changes with every byte of the base."""
    page = site["index.html"]
    assert isinstance(page, bytes)
    (build,) = re.findall(rb'<meta name="build" content="([0-9a-f]{12})">', page)
    return {
        name.replace(build.decode(), "ID"): content.replace(build, b"ID") if isinstance(content, bytes) else content
        for name, content in site.items()
    }
