"""The home page: the finder, what the club wrote by hand, and the ways in for who would rather look around."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.answers import Index
from kbtools.index.entries import has_page
from kbtools.pages.model import model_rows
from kbtools.pages.spec import PageSpec
from kbtools.pages.system import nodes
from kbtools.wording import addresses

HOME_FILE = "pages/index.md"
"""The hand-written page that stands under the finder."""


def pages(index: Index) -> Iterator[PageSpec]:
    """The home page. Its template is given `hand_written`, finished HTML, by whoever renders it."""
    club = index.club
    models = model_rows(index)
    has_text = has_page(index.base, HOME_FILE)
    yield PageSpec(
        address=addresses.HOME,
        kind="home",
        title=club.name,
        description=f"{club.name}: look up a fault code or a symptom, whether the bike may be ridden, what it usually "
        "is, what to check first and what it costs.",
        context={
            "models": models,
            "systems": nodes(index),
            "faults": len(index.published),
            "codes": len(index.codes_by_slug),
            "cases": sum(map(len, index.cases_by_fault.values())),
        },
        edit_path=HOME_FILE if has_text else None,
    )
