"""How the live server finds a file and answers a request: nothing of it knows what is built or watched."""

from __future__ import annotations

import mimetypes
import posixpath
import urllib.parse
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse

HTML = "text/html; charset=utf-8"
_TYPES = {
    ".css": "text/css",
    ".gz": "application/gzip",
    ".js": "text/javascript",
    ".json": "application/json",
    ".mjs": "text/javascript",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
}
"""Types that browsers insist on and that some systems' tables get wrong."""


def locate(root: Path, name: str) -> Path | None:
    """The file or folder below `root` that an address's path, already decoded, names; None where there is none.

    Never one outside `root`, whatever the path holds and wherever links lead.
    """
    base = root.resolve()
    plain = posixpath.normpath(f"/{name}").lstrip("/")
    try:
        found = (base / plain).resolve()
        return found if found.is_relative_to(base) and found.exists() else None
    except (OSError, RuntimeError, ValueError):  # too long, a ring of links, a null character
        return None


def content_type(path: Path) -> str:
    """By the name; text is UTF-8."""
    suffix = path.suffix.lower()
    kind = _TYPES.get(suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return f"{kind}; charset=utf-8" if kind.startswith("text/") else kind


def headers(kind: str, length: int) -> list[tuple[str, str]]:
    """Of an answer that no browser may keep."""
    return [("Content-Type", kind), ("Content-Length", str(length)), ("Cache-Control", "no-store")]


def answer(start_response: StartResponse, status: str, kind: str, body: bytes) -> Iterable[bytes]:
    """A whole answer at once."""
    start_response(status, headers(kind, len(body)))
    return [body]


def redirect(start_response: StartResponse, path: str, query: str = "") -> Iterable[bytes]:
    """Lead to another path of this host, with the question that was asked."""
    location = urllib.parse.quote(path) + (f"?{query}" if query else "")
    start_response("302 Found", [("Location", location), ("Content-Length", "0"), ("Cache-Control", "no-store")])
    return []
