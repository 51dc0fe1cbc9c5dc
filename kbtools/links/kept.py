"""Answers as a text that is kept from one asking to the next. Whoever can write the file is not trusted with more."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Mapping
from typing import Any, Final, get_args

from kbtools.links.answer import Answer, State

KEPT_DAYS: Final = 400
"""An answer that is older is forgotten: more than a year of monthly askings."""
_LONGEST: Final = 500
"""Characters of what an answer said."""


def as_text(answers: Mapping[str, Answer]) -> str:
    """JSON, by address: `{"https://…": {"state", "said", "day"}}`, one line an address."""
    rows = (
        f"{json.dumps(url)}: {json.dumps({'state': each.state, 'said': each.said, 'day': each.day.isoformat()})}"
        for url, each in sorted(answers.items())
    )
    return "{\n" + ",\n".join(rows) + "\n}\n"


def from_text(text: str, today: dt.date) -> dict[str, Answer]:
    """The answers in such a text that are not too old; what has another form is left out."""
    try:
        rows = json.loads(text)
    except (ValueError, RecursionError):
        return {}
    found = {url: _answer(row) for url, row in rows.items()} if isinstance(rows, dict) else {}
    return {url: each for url, each in found.items() if each is not None and 0 <= (today - each.day).days <= KEPT_DAYS}


def longest_ago_first(urls: Iterable[str], kept: Mapping[str, Answer]) -> list[str]:
    """In which order they are asked: never asked, then asked longest ago; so each has its turn if time is short."""
    return sorted(urls, key=lambda url: (kept[url].day if url in kept else dt.date.min, url))


def _answer(row: Any) -> Answer | None:
    match row:
        case {"state": str(state), "said": str(said), "day": str(day)} if state in get_args(State):
            try:
                return Answer(state=state, said=said[:_LONGEST], day=dt.date.fromisoformat(day))  # type: ignore[arg-type]
            except ValueError:
                return None
    return None
