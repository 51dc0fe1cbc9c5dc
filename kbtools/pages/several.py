"""The page about several codes at once. A script fills it in the browser; without one it leads to the list of codes."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.answers import Index
from kbtools.pages import crumbs
from kbtools.pages.spec import PageSpec
from kbtools.wording import addresses

TITLE = "Several codes at once"


def pages(index: Index) -> Iterator[PageSpec]:
    """The one page. Its template is given `several_data` and `home_href`, addresses, by whoever renders it."""
    yield PageSpec(
        address=addresses.SEVERAL,
        kind="several",
        title=TITLE,
        description="Enter all fault codes that a reader or a lamp shows: which one part would explain them all, which "
        "known faults have them, and whether the bike may be ridden.",
        context={"formats": index.club.code_formats, "currency": index.club.currency},
        crumbs=(crumbs.HOME_CRUMB, crumbs.CODES_CRUMB),
    )
