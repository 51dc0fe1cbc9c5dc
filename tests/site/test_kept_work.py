"""What a build keeps for the next one: the same site comes out, and what has not changed is not worked out again."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from PIL import Image

from kbtools.browser_data.finder.kin import KinOf
from kbtools.cli import main
from kbtools.edges import pictures, rulebook
from kbtools.similarity import unsorted
from tests.support.sample_base import in_folder

DEAR = [
    (KinOf, "_worked_out"),
    (unsorted, "_compared"),
    (pictures, "_saved"),
    (rulebook, "carried_out"),
]
"""Where a build's dearest work is done: words that are near, cases without a fault, pictures, samples of the rules."""
UNKNOWN = """\
vehicle: {model: wren-400, year: 2007, odometer: 61200 km}
seen: 2026-03-02
symptoms: [Mirror hums]
outcome: {state: open}
source: {kind: first-hand, title: Member report}
"""


@pytest.fixture
def base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sample base with a case that names no fault and a drawing on its home page."""
    folder = in_folder(tmp_path, monkeypatch)
    monkeypatch.setenv("KBTOOLS_CACHE", str(tmp_path / "kept"))
    drawing = io.BytesIO()
    Image.new("RGB", (40, 30), "red").save(drawing, "PNG")
    (folder / "kb" / "pages").mkdir(exist_ok=True)
    (folder / "kb" / "pages" / "plug.png").write_bytes(drawing.getvalue())
    (folder / "kb" / "pages" / "index.md").write_text("# Welcome\n\n![The plug](plug.png)\n", "utf-8")
    (folder / "kb" / "cases" / "2026").mkdir(parents=True, exist_ok=True)
    (folder / "kb" / "cases" / "2026" / "wren-400-0099.yml").write_text(UNKNOWN, "utf-8")
    return folder


@pytest.fixture(autouse=True)
def new_process() -> Iterator[None]:
    """What a process keeps in memory stands in no other one."""
    rulebook._SAMPLES.clear()
    yield
    rulebook._SAMPLES.clear()


def built(folder: Path) -> dict[str, bytes]:
    rulebook._SAMPLES.clear()
    done = CliRunner().invoke(main, ["build", "--kb", "kb", "--site-dir", "site"])
    assert done.exit_code == 0, done.output
    return {str(each.relative_to(folder)): each.read_bytes() for each in folder.glob("site/**/*") if each.is_file()}


def test_the_next_build_works_out_nothing_that_has_not_changed(base: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = built(base)
    calls: list[str] = []

    def noted(name: str, own: Callable[..., Any]) -> Callable[..., Any]:
        def work(*args: Any) -> Any:
            calls.append(name)
            return own(*args)

        return work

    for place, name in DEAR:
        monkeypatch.setattr(place, name, noted(name, getattr(place, name)))
    assert built(base) == first
    assert calls == []
    # What the club says of words changes what every text is near to, and nothing about pictures and samples.
    (base / "kb" / "words.yml").write_text("- [flickers, stutters]\n", "utf-8")
    changed = built(base)
    assert {*calls} == {"_worked_out", "_compared"}
    assert changed != first
    monkeypatch.setenv("KBTOOLS_CACHE", "off")
    assert built(base) == changed
