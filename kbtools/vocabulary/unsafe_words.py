"""The words about unsafe work as values: `work/unsafe.yml`, whose first lines say what stands in it."""

from __future__ import annotations

import functools
from typing import Any

import yaml

from kbtools.model.unsafe import NO_UNSAFE_WORDS, Idea, UnsafeRow, UnsafeWords

# Every scalar is the author's characters, so that `no` and `0` need no quotes.
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@functools.lru_cache(maxsize=2)
def unsafe_words(text: str) -> UnsafeWords:
    """What the file says.

    Raises:
        KeyError, TypeError, ValueError: it has not its form.
    """
    if not text:
        return NO_UNSAFE_WORDS
    # No object can come of it: the loader makes lists, mappings and texts.
    told = yaml.load(text, Loader=_LOADER)  # noqa: S506
    return UnsafeWords(
        ideas=tuple(Idea(name=name, phrases=tuple(phrases)) for name, phrases in told["ideas"].items()),
        states=tuple((one, other) for one, other in told["states"]),
        rows=tuple(
            UnsafeRow(
                kind=row["kind"],
                act=tuple(row["act"]),
                state=row.get("state"),
                having=tuple(row.get("having", ())),
                unless=tuple(row.get("unless", ())),
            )
            for row in told["rows"]
        ),
    )
