"""Who asks: a host that minds being asked must be able to tell whom to write to."""

from __future__ import annotations

import re
from typing import Final

from kbtools.model.catalogue import Club

_UNFIT: Final = re.compile(r"[^ -~]|[()\\]")
"""What a comment of a `User-Agent` cannot have as it is (RFC 9110, 5.6.5)."""
_LONGEST: Final = 200


def user_agent(version: str, club: Club | None) -> str:
    """The `User-Agent`: the program, the club's name, and where it can be reached.

    Args:
        version: of the program.
        club: hostile; None: not known.
    """
    told = ["link check"]
    if club is not None:
        mail = club.reports.email if club.reports is not None else None
        told += [each for each in (club.name, club.site_url or club.repository, mail) if each]
    return f"kbtools/{version} ({'; '.join(_UNFIT.sub('?', each)[:_LONGEST] for each in told)})"
