"""The page that explains every figure of a fault page, with an example to follow with a pencil."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kbtools.index.answers import Index
from kbtools.index.entries import has_page
from kbtools.model.money import show_money, show_number
from kbtools.pages import crumbs
from kbtools.pages.fault import SAFETY_FILE
from kbtools.pages.replay_view import replay_view
from kbtools.pages.spec import PageSpec, Section
from kbtools.replay import ReplayRow
from kbtools.wording import addresses
from kbtools.wording.labels import count_of_cases

TITLE = "How the figures are made"


def pages(index: Index, replayed: Sequence[ReplayRow] = ()) -> Iterator[PageSpec]:
    """The one page; `replayed` are the counted cases beside the advice that they would have had."""
    club = index.club
    hand_written = has_page(index.base, SAFETY_FILE)
    settings = [
        ("The curators' judgement counts like", count_of_cases(club.prior_strength)),
        (
            "Share of “something that is not listed here”, before any case",
            f"{show_number(100 * club.unlisted_share)} %",
        ),
        ("A case counts from so far ridden since", club.solved_after.shown_in(club.distance_unit).text),
        ("An hour of the owner's own time counts for", show_number(club.own_time_value) + f" {club.currency}"),
        ("An owner takes so many times a workshop's hours", show_number(club.home_time_factor)),
        ("A workshop's hour", show_money(club.labour_rate, club.currency)),
        ("Hours to find an unknown fault", show_number(club.diagnosis_hours)),
        ("Hours to confirm a cause that the owner names", show_number(club.confirm_hours)),
        ("Repair of a cause that is not listed", show_money(club.unlisted_repair, club.currency)),
    ]
    if club.transport is not None:
        settings.append(("Fetching a bike that may not be ridden", show_money(club.transport, club.currency)))
    yield PageSpec(
        address=addresses.FIGURES,
        kind="figures",
        title=TITLE,
        description="What the shares, intervals, costs and plans on this site mean, how they are worked out, and what "
        "they take for granted; with an example to follow with a pencil.",
        context={
            "settings": settings,
            "safety": addresses.SAFETY if hand_written else None,
            "replay": replay_view(replayed, club.currency),
        },
        crumbs=(crumbs.HOME_CRUMB,),
        sections=tuple(Section(id=anchor, title=title) for anchor, title in _SECTIONS),
    )


_SECTIONS = (
    ("example", "An example, with a pencil"),
    ("shares", "How often each cause is the one"),
    ("held", "How often a fix held"),
    ("costs", "What it costs"),
    ("plan", "What to check first"),
    ("several", "Several codes at once"),
    ("replay", "How often it was right"),
    ("settings", "What this club takes"),
    ("limits", "What all of it takes for granted"),
)
