"""A text of an author, cut so that a message can repeat it."""

from __future__ import annotations


def short(text: str) -> str:
    """A text of an author as a message repeats it: at most 60 characters."""
    return text if len(text) <= 60 else f"{text[:59]}…"
