"""The words about unsafe work as values: `work/unsafe.yml`, whose first lines say what stands in it."""

from __future__ import annotations

import functools

from kbtools.model.unsafe import NO_UNSAFE_WORDS, Idea, UnsafeRow, UnsafeWords
from kbtools.vocabulary.tables import plain_data


@functools.lru_cache(maxsize=2)
def unsafe_words(text: str) -> UnsafeWords:
    """What the file says.

    Raises:
        KeyError, TypeError, ValueError: it has not its form.
    """
    if not text:
        return NO_UNSAFE_WORDS
    told = plain_data(text)
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
