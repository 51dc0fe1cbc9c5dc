"""KB530: picture that nobody has looked at."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.pictures import of_entries
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Pictures in `pictures/` that no row names; only a row can say who looked at them."""
    if not base.whole:
        # The row that names it may be what could not be read.
        return
    looked_at = of_entries(base)
    for picture in base.pictures:
        if picture.path.startswith("pictures/") and picture.path not in looked_at:
            hint = (
                "Name it under `pictures` of a check, a component or an access job, with `checked_by`, or take it out."
            )
            message = "Nothing names this picture, so nobody says that he has looked at it."
            yield Breach(path=picture.path, pointer="", message=message, hint=hint)


RULE = Rule(
    code="KB530",
    title="Picture that nobody has looked at",
    severity="error",
    what="A file in pictures/ that no check, component or access job names, each of which says who looked at it.",
    why="Photographs show faces, number plates and house numbers, and whose they are.",
    sample=None,
    check=check,
)
