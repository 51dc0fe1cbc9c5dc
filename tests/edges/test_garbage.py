"""While a site is built Python's collector of circular garbage is held back: so no page may leave a circle behind."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from kbtools.edges.garbage import held_back
from kbtools.edges.rendering import Renderer
from kbtools.index.build import build_index
from kbtools.pages.planned import Planned
from tests.support import factories as make
from tests.support.all_pages import catalogue_of
from tests.support.page_reader import full_base

ONLY_ONE = {"agenda", "coverage", "report", "systems"}
"""Pages of which a site has one, and whose templates may have macros of their own."""


@pytest.fixture
def collected() -> Iterator[None]:
    """Nothing is left over from before, and what is there is left alone."""
    gc.collect()
    gc.freeze()
    try:
        with held_back():
            yield
    finally:
        gc.unfreeze()


def test_no_page_leaves_a_circle_behind(collected: None) -> None:
    planned = catalogue_of(build_index(full_base(), make.TODAY), make.TODAY).pages
    renderer = Renderer({*(page.address for page in planned), "safety/"})
    # Templates are read, and macros made, once.
    for page in planned:
        make.rendered(page.make(), renderer)
    gc.collect()
    left = {page.address: _left_by(page, renderer) for page in planned if page.kind not in ONLY_ONE}
    assert "fault" in {page.kind for page in planned}
    assert {address: number for address, number in left.items() if number} == {}


def _left_by(page: Planned, renderer: Renderer) -> int:
    make.rendered(page.make(), renderer)
    return gc.collect()


def test_what_was_made_meanwhile_is_not_looked_through_at_once() -> None:
    looked: list[int] = []

    def note(phase: str, info: dict[str, int]) -> None:
        looked.append(info["generation"])

    running, often = gc.isenabled(), gc.get_threshold()
    gc.unfreeze()
    gc.collect()
    gc.enable()
    gc.set_threshold(700, 10, 10)
    gc.callbacks.append(note)
    try:
        with held_back():
            made = [[number] for number in range(100_000)]
        more = [[number] for number in range(100)]
    finally:
        gc.callbacks.remove(note)
        gc.set_threshold(*often)
        gc.freeze()
        if not running:
            gc.disable()
    assert (len(made), len(more)) == (100_000, 100)
    assert looked == []
