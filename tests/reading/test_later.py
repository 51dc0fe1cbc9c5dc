"""Texts of files that a memory knows are made when they are asked for; links are found at once, however written."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from kbtools.edges import cache
from kbtools.edges.shipped import shapes
from kbtools.index.links import outside_links
from kbtools.reading import later, writings
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples

ENTRY = "faults/charging/lamp-flickers.yml"
SEEN = "why: A flat battery stops the engine."
LINKED = {
    "a plain link": 'why: "See [the list](https://lists.sample.example/a)."',
    "in capitals": 'why: "See [the list](HTTPS://lists.sample.example/a)."',
    "escaped": r'why: "See [the list](\x68ttps://lists.sample.example/a)."',
    "cut by a folded line": 'why: "See [the list](htt\\\n    ps://lists.sample.example/a)."',
}


@pytest.fixture
def memory(tmp_path: Path) -> Iterator[cache.Cache]:
    with cache.opened(tmp_path, date(2026, 6, 1).toordinal()) as opened:
        yield opened


def sources(text: str = SEEN) -> list[SourceFile]:
    assert samples.FILES[ENTRY].count(SEEN) == 1
    files = {**samples.FILES, ENTRY: samples.FILES[ENTRY].replace(SEEN, text)}
    return [SourceFile(path=name, data=content.encode()) for name, content in files.items()]


@pytest.mark.parametrize("text", LINKED.values(), ids=LINKED)
def test_a_link_is_found_in_what_a_memory_knows(memory: cache.Cache, text: str) -> None:
    plain = read(sources(text), shapes())
    found = outside_links(plain.base)
    assert [place.path for url in found if "lists.sample" in url for place in found[url]] == [ENTRY]
    for _ in range(2):
        assert outside_links(read(sources(text), shapes(), memory).base) == found


def test_texts_that_nobody_asks_for_are_not_made(memory: cache.Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[str] = []
    texts_of = writings.file_writings

    def noted(path: str, *more: object) -> object:
        made.append(path)
        return texts_of(path, *more)  # type: ignore[arg-type]

    plain = read(sources(), shapes())
    read(sources(), shapes(), memory)
    monkeypatch.setattr(later, "file_writings", noted)
    again = read(sources(), shapes(), memory).base
    outside_links(again)
    assert ENTRY not in made
    assert list(again.writings.of(lambda path: path == ENTRY)) == [
        each for each in plain.base.writings if each.path == ENTRY
    ]
    assert made.count(ENTRY) == 1
    assert again.writings == plain.base.writings
    assert made.count(ENTRY) == 1


def test_a_memory_that_forgets_costs_time_alone(tmp_path: Path) -> None:
    plain = read(sources(), shapes())
    for _ in range(2):
        with cache.opened(tmp_path, date(2026, 6, 1).toordinal()) as memory:
            again = read(sources(), shapes(), memory).base
    # It is closed by now.
    assert again.writings == plain.base.writings


def test_texts_that_were_let_go_are_not_told_as_none(memory: cache.Cache) -> None:
    read(sources(), shapes(), memory)
    writings = read(sources(), shapes(), memory).base.writings.settled()
    assert list(writings.that_may_link())
    with pytest.raises(LookupError, match="let go"):
        list(writings)
