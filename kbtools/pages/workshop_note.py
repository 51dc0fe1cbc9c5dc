"""The note for the workshop: what it wants to know before it names a price, filled in as far as an entry can."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from kbtools.pages.views import CheckView
from kbtools.text import html as text

_LONGEST: Final = 110
_SENTENCE_END: Final = re.compile(r"(?<=[.!?])\s")


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLine:
    """A check with room for what came out."""

    id: str
    """Of the check."""
    title: str
    """What is done, in few words."""
    task: str
    """How what is to be done begins, plain text."""
    good: str
    """What a good bike shows, plain text; empty: the entry does not say."""
    before_riding: bool
    """To be done in any case before the bike is ridden again."""


def check_lines(checks: Iterable[CheckView]) -> tuple[CheckLine, ...]:
    """The checks in the order of the page."""
    return tuple(
        CheckLine(
            id=check.id,
            title=check.anchor.title,
            task=beginning(check.do) if check.do is not None else "",
            good=check.good or (beginning(check.expect) if check.expect is not None else ""),
            before_riding=check.before_riding,
        )
        for check in checks
    )


def beginning(markdown: str) -> str:
    """The first sentence of a text, cut at a blank where it is long; plain text without its mark at the end."""
    whole = " ".join(text.inline(markdown).striptags().split())
    first = _SENTENCE_END.split(whole, maxsplit=1)[0].rstrip(".;:")
    if len(first) <= _LONGEST:
        return first
    return f"{first[:_LONGEST].rsplit(' ', 1)[0]} …"
