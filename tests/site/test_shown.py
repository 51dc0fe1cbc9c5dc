"""Which pages of a real site have changed for a reader, from one build to the next."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbtools.site.serving import rebuild
from kbtools.site.shown import Shown
from tests.support.compiled_once import compiled_once
from tests.support.edited_base import Edited, picture
from tests.support.edits import LOCAL, WIDE


@pytest.fixture
def base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Edited:
    compiled_once(monkeypatch)
    return Edited(tmp_path)


def changed(base: Edited, shown: Shown, monkeypatch: pytest.MonkeyPatch, *, but: dict[str, str]) -> dict[str, str]:
    """Builds, and gives the digests of all pages; those in `but` are what they were before."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", base.day)
    root = base.top / "site"
    assert [each.message for each in rebuild(base.top / "kb", root) if each.severity == "error"] == []
    shown.renew()
    names = (path.relative_to(root).as_posix().removesuffix("index.html") for path in root.rglob("index.html"))
    return {name: now for name in names if (now := shown.standing(name)) != but.get(name)}


def test_only_what_a_reader_would_see_makes_a_page_another(base: Edited, monkeypatch: pytest.MonkeyPatch) -> None:
    shown = Shown(base.top / "site")
    before = changed(base, shown, monkeypatch, but={})
    assert len(before) > 200
    # The next day, and other data for the finder, which every page names.
    WIDE["the day"](base)
    LOCAL["an entry's title"](base)
    after = changed(base, shown, monkeypatch, but=before)
    assert {"faults/lamp-stays-on/", "models/wren-600/2007/", "systems/charging/"} <= after.keys()
    left = {"faults/lever-soft/", "models/wren-400/2003/", "about/", "rules/kb301/", "figures/", "systems/"}
    assert left <= before.keys() - after.keys()
    assert len(after) < len(before) / 4
    before.update(after)
    base.write("kb/pages/posts.png", picture("grey"))
    assert changed(base, shown, monkeypatch, but=before).keys() == {"about/"}
    WIDE["a style of the club's own"](base)
    assert changed(base, shown, monkeypatch, but=before).keys() == before.keys()
