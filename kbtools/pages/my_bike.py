"""My bike: the machine that the owner's browser remembers, and what it keeps of it for the road."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.answers import Index
from kbtools.pages import crumbs
from kbtools.pages.model import model_rows
from kbtools.pages.spec import PageSpec
from kbtools.wording import addresses


def pages(index: Index) -> Iterator[PageSpec]:
    """One page; what it shows of a bike comes from the browser, and without scripts it leads to the models."""
    yield PageSpec(
        address=addresses.MY_BIKE,
        kind="my-bike",
        title="My bike",
        description="Choose model and year once, and keep what is known about it for places without a network.",
        context={"models": model_rows(index)},
        crumbs=(crumbs.HOME_CRUMB,),
        listed=False,
    )
