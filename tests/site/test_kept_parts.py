"""What a build makes besides pages, with a memory and without: the same bytes, whatever was edited or is remembered."""

from __future__ import annotations

import base64
import json
import struct
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from kbtools.browser_data.finder import finder_files
from kbtools.browser_data.several_codes import several_files
from kbtools.edges import cache
from kbtools.edges.checking import check
from kbtools.edges.shipped import schema_files
from kbtools.export.files import export_files
from kbtools.index.build import build_index
from kbtools.model.base import KnowledgeBase
from kbtools.model.memory import Memory
from kbtools.replay import replay
from kbtools.rules import samples
from kbtools.site.assets import json_files
from tests.support.checked_samples import CASE, FAULT, MODEL, TODAY, read_files
from tests.support.sample_base import in_folder

EDITS: Mapping[str, tuple[str, str, str]] = {
    "nothing": ("words.yml", "", ""),
    "nothing again": ("words.yml", "", ""),
    "a text": (FAULT, "title: Charge", "title: Sometimes charge"),
    "a code": (FAULT, "codes:", "codes:\n  - {code: P0563, meaning: Voltage too high}"),
    "a case": (CASE, "after: 900 km", "after: 300 km"),
    "words": ("words.yml", "# words", "- [sometimes, fitfully]"),
    "a model": (MODEL, "name: Wren", "name: Old wren"),
    "a model's years": (MODEL, "years: 2003-2012", "years: 2003-2011"),
    "the club": ("club.yml", "prior_strength: 4", "prior_strength: 7"),
    "a new entry": ("faults/charging/horn-quiet.yml", "", samples.FILES[FAULT].replace("flickers", "glows")),
}
"""What is edited → the file, what stands there, and what then does; the edits stand one on the other."""


def made(base: KnowledgeBase, memory: Memory | None) -> dict[str, bytes]:
    """All files but pages, and what the figures are drawn from."""
    index = build_index(base, TODAY)
    return {
        **{f"finder/{name}": file for name, file in finder_files(base, TODAY.year, (), memory).items()},
        **{f"several/{name}": file for name, file in json_files(several_files(index)).items()},
        **export_files(index, TODAY, schema_files(), memory=memory),
        "replay": repr(replay(index, memory)).encode(),
    }


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return in_folder(tmp_path, monkeypatch, {**samples.FILES, "words.yml": "# words\n"}) / "kb"


def test_whatever_is_edited_a_memory_changes_no_byte(folder: Path, tmp_path: Path) -> None:
    seen: list[dict[str, bytes]] = []
    for what, (path, old, new) in EDITS.items():
        file = folder / path
        text = file.read_text("utf-8") if file.exists() else ""
        assert old in text
        file.write_text(text.replace(old, new, 1) if old else text + new, "utf-8")
        base = check(folder, TODAY, tmp_path / "read").base
        plain = made(base, None)
        with cache.opened(tmp_path / "kept", TODAY.toordinal()) as memory:
            assert made(base, memory) == plain, what
        assert (plain in seen) == (what == "nothing again"), what
        seen.append(plain)


class Odd:
    """A memory that answers everything with the same nonsense."""

    def __init__(self, nonsense: Any) -> None:
        self._nonsense = nonsense

    def worked_out(self, work: str, asked: bytes) -> Any:
        return json.loads(json.dumps(self._nonsense))

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        """Keep nothing."""


def packed(numbers: list[int]) -> str:
    return base64.b64encode(struct.pack(f"<{len(numbers)}i", *numbers)).decode()


NO_TEXTS = {"texts": [], "lengths": packed([]), "numbers": packed([])}
NONSENSE: Mapping[str, Any] = {
    "a text": "x",
    "a number": 7,
    "nothing": [],
    "rows of nothing": [[], [], []],
    "texts": ["a", "b"],
    "too few texts": [["a"]],
    "numbers for texts": [[1, 2, 3, 4]],
    "advice of no shares": [[[3, [], [], 1, 2, 3]]],
    "advice of texts": [[[0, ["a"], ["b"], "c", "d", "e"]]],
    "no keys": {},
    "ways of texts": {"near": [["a", False, {"b": "c"}]], **NO_TEXTS},
    "weights beyond all": {"near": [[["a"], False, {"b": 40.0}]], **NO_TEXTS},
    "one way twice": {"near": [[["a"], False, {"b": 0.5}], [["a"], False, {"b": 0.4}]], **NO_TEXTS},
}

TEXT = "Charge lamp flickers in the rain"
NUMBERS: Mapping[str, tuple[list[str], list[str], list[int], list[int]]] = {
    "a word that is not there": (["a"], [TEXT], [1], [1]),
    "a word below the first": (["a"], [TEXT], [1], [-1]),
    "a text longer than all words": (["a"], [TEXT], [2], [0]),
    "more words than the texts have": (["a"], [TEXT], [1], [0, 0]),
    "a text of less than nothing": (["a"], [TEXT, "b"], [2, -1], [0]),
    "a text twice": (["a"], [TEXT, TEXT], [1, 1], [0, 0]),
    "a word twice": (["a", "a"], [TEXT], [1], [1]),
    "fewer lengths than texts": (["a"], [TEXT, "b"], [1], [0]),
}
"""Words or phrases, texts, of each text how many, and which, that never were worked out of texts."""


def kept_rows() -> Mapping[str, Any]:
    """Rows of what texts are cut into and of which phrases they lead to, in one, since each reads its own part."""

    def row(words: list[str], texts: list[Any], lengths: Any, numbers: Any) -> dict[str, Any]:
        near = [[[word], False, {"b": 0.5}] for word in words]
        return {"words": words, "near": near, "texts": texts, "lengths": lengths, "numbers": numbers}

    one = packed([0])
    return {
        **{
            what: row(words, texts, packed(many), packed(which))
            for what, (words, texts, many, which) in NUMBERS.items()
        },
        "numbers cut off": row(["a"], [TEXT], packed([1]), one[:-3]),
        "half a number": row(["a"], [TEXT], packed([1]), "AAA="),
        "no numbers": row(["a"], [TEXT], packed([1]), [0]),
        "numbers that are no letters": row(["a"], [TEXT], "\u00e4", one),
        "texts that are none": row(["a"], [[TEXT]], packed([1]), one),
    }


@pytest.mark.parametrize("nonsense", kept_rows().values(), ids=kept_rows())
def test_of_texts_nothing_is_believed_that_cannot_be(nonsense: Any) -> None:
    base = read_files(samples.FILES).base
    assert TEXT in {fault.title for fault in base.faults.values()}
    assert finder_files(base, TODAY.year, (), Odd(nonsense)) == finder_files(base, TODAY.year, ())


def test_nonsense_that_is_remembered_is_worked_out_anew() -> None:
    base = read_files(samples.FILES).base
    plain = made(base, None)
    assert base.digests
    assert [what for what, nonsense in NONSENSE.items() if made(base, Odd(nonsense)) != plain] == []
