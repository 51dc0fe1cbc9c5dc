"""What a workshop should know that is handed a note or a handbook of this site."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.answers import Index
from kbtools.pages import crumbs
from kbtools.pages.fault import contribute_page
from kbtools.pages.spec import PageSpec, Section
from kbtools.wording import addresses

TITLE = "For mechanics"


def pages(index: Index) -> Iterator[PageSpec]:
    """The one page."""
    club = index.club
    yield PageSpec(
        address=addresses.MECHANICS,
        kind="mechanics",
        title=TITLE,
        description="How to read the note that an owner hands over: what was found on this bike, what comes from "
        "others, how sure the shares are, and what helps the next one.",
        context={
            "club": club.name,
            "ridden": club.solved_after.shown_in(club.distance_unit).text,
            "contribute": contribute_page(index),
        },
        crumbs=(crumbs.HOME_CRUMB,),
        sections=(
            Section(id="note", title="The note in your hand"),
            Section(id="shares", title="What a share says, and what it does not"),
            Section(id="prices", title="Prices and the order of checks"),
            Section(id="answer", title="What helps the next bike"),
        ),
    )
