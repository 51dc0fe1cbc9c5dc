"""KB510: full vehicle identification number."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import cases
from kbtools.model.base import KnowledgeBase
from kbtools.model.writing import TextKind
from kbtools.personal import vin
from kbtools.personal.span import Span, hidden
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, personal

_WHAT = "A full vehicle identification number"
_HINT = "Cut the last six characters off, or name the range: `frame numbers up to …`."
_LINKS: frozenset[TextKind] = frozenset({"link"})


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Full numbers in texts, links, pages, names of files and ids of bikes."""
    yield from personal(base, WITHOUT_LINKS, vin.may_hold, vin.find, (_WHAT, _HINT))
    # Addresses are full of long words, so only what the check digit proves counts there.
    yield from personal(base, _LINKS, vin.may_hold, lambda text: vin.find(text, sure_only=True), (_WHAT, _HINT))
    for case in cases(base):
        for text, pointer in ((case.id, ""), (case.vehicle.bike or "", "/vehicle/bike")):
            for span in _in_id(text):
                message = f"{_WHAT} stands here ({hidden(text, span)})."
                yield Breach(path=case.path, pointer=pointer, message=message, hint="Make an id up: b017.")


def _in_id(text: str) -> Iterator[Span]:
    return vin.find(text) if vin.may_hold(text) else iter(())


RULE = Rule(
    code="KB510",
    title="Full vehicle identification number",
    severity="error",
    what=(
        "Seventeen letters and digits without I, O and Q whose ninth is the check digit of 49 CFR 565, or that are at "
        "least a plausible mixture: outside North America the check digit is optional."
    ),
    why="The full number leads to the owner, and serves to sell a stolen machine under another one's papers.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report on 1M8GDM9AXKP042788"',
        good='title: "Report on frame numbers up to 042788"',
    ),
    check=check,
)
