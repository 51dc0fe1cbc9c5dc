"""Report how it ended: the form in which an owner tells the club what became of a fault."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.answers import Index
from kbtools.index.entries import has_page
from kbtools.model.catalogue import Club
from kbtools.pages import crumbs
from kbtools.pages.spec import PageSpec
from kbtools.wording import addresses

TITLE = "Report how it ended"


def pages(index: Index) -> Iterator[PageSpec]:
    """The one page. Which fault it is about is in its address, and what the entry says comes from the entry's page."""
    yield PageSpec(
        address=addresses.REPORT,
        kind="report",
        title=TITLE,
        description="Tell the club how a fault ended: a minute of yours, and the next one with that lamp knows more.",
        context={
            "club": index.club,
            "report_data": club_data(index.club),
            "contribute": addresses.CONTRIBUTE if has_page(index.base, "pages/contribute.md") else None,
        },
        crumbs=(crumbs.HOME_CRUMB,),
    )


def club_data(club: Club) -> dict[str, object]:
    """What the script needs to know of the club, JSON-ready; `solved_after` in kilometres."""
    places = club.reports
    return {
        "unit": club.distance_unit,
        "currency": club.currency,
        "solved_after": club.solved_after.km,
        "solved_after_text": club.solved_after.text,
        "countries": list(club.phone_countries),
        "email": None if places is None else places.email,
        "issues": None if places is None else places.issues,
    }
