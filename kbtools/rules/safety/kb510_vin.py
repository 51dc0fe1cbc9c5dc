"""KB510: full vehicle identification number."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import vin
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import LINKS, Sought, personal

_SOUGHT = Sought(
    what="A full vehicle identification number",
    hint="Cut the last six characters off, or name the range: `frame numbers up to …`.",
    may_hold=vin.may_hold,
    find=vin.find,
)
# Addresses are full of long words, so only what the check digit proves counts there.
_IN_LINKS = dataclasses.replace(_SOUGHT, find=lambda text: vin.find(text, sure_only=True), kinds=LINKS)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Full numbers in texts, links, comments, pages, names of files and ids of bikes."""
    yield from personal(base, _SOUGHT)
    yield from personal(base, _IN_LINKS)


RULE = Rule(
    code="KB510",
    title="Full vehicle identification number",
    severity="error",
    what=(
        "Seventeen letters and digits without I, O and Q, in one piece or in groups, whose ninth is the check digit "
        "of 49 CFR 565, or that are at least a plausible mixture: outside North America the check digit is optional."
    ),
    why="The full number leads to the owner, and serves to sell a stolen machine under another one's papers.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report on 1M8GDM9AXKP042788"',
        good='title: "Report on frame numbers up to 042788"',
    ),
    alone="any day",
    check=check,
)
