"""A picture that an entry shows."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A file in `pictures/` that somebody has looked at."""

    file: str
    """Its name in `pictures/`."""
    of: str
    """What it shows, Markdown: for who cannot see it."""
    credit: str | None
    """Role of who took it, plain text."""
    checked_by: str
    """Role of who looked at it for faces, number plates and house numbers, plain text."""
    at: str
    """JSON pointer of its row."""

    @property
    def path(self) -> str:
        """The file, from the knowledge base's folder, and from the site's root."""
        return f"pictures/{self.file}"
