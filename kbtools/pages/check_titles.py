"""What a check is called: what is done in it, in as few words as say it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Final

from kbtools.model.check import Check
from kbtools.text import html as text

_LONGEST: Final = 64
_FEWEST: Final = 5
"""Words of a sentence that says what is done."""
_SENTENCE_END: Final = re.compile(r"(?<=[.!?;])\s")


def check_titles(checks: Iterable[Check]) -> Mapping[str, str]:
    """Id of each check → its title, plain text; no two alike."""
    titles: dict[str, str] = {}
    for place, check in enumerate(checks, start=1):
        title = short_title(check.do) if check.do else ""
        title = title or f"Check {place}"
        alike = sum(each == title or each.startswith(f"{title} (") for each in titles.values())
        titles[check.id] = f"{title} ({alike + 1})" if alike else title
    return titles


def short_title(markdown: str) -> str:
    """The first sentence that says what is done, cut between two words if it is long; plain text, no full stop."""
    whole = " ".join(text.inline(markdown).striptags().split())
    sentences = [each.rstrip(".;:! ") for each in _SENTENCE_END.split(whole)]
    first = next((each for each in sentences if _does(each)), sentences[0])
    if len(first) <= _LONGEST:
        return first
    head = first[:_LONGEST]
    return f"{head.rsplit(' ', 1)[0].rstrip(',;:')} …"


def _does(sentence: str) -> bool:
    """`Key off` and `Gear in, rear brake held` say how the bike stands, and not what is done."""
    clauses = [len(each.split()) for each in sentence.split(", ")]
    return sum(clauses) >= _FEWEST and max(clauses) >= _FEWEST - 1
