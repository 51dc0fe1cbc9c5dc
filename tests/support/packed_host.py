"""A static host that packs texts with gzip, as hosts do, and remembers what was asked for."""

from __future__ import annotations

import gzip
import urllib.parse
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http import HTTPStatus
from pathlib import Path
from typing import Any

from tests.support.site_server import StaticHost, host_running

PACKED = frozenset({".html", ".css", ".js", ".json", ".svg", ".xml"})
"""Endings of what hosts pack."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One answer that went out."""

    path: str
    """Of the file, relative to the site's folder."""
    raw: int
    """Bytes of it."""
    sent: int
    """Bytes that went out for it, without its headers."""


@dataclass(slots=True, kw_only=True)
class PackedSite:
    """A folder as it is served, its files packed once."""

    folder: Path
    """The site."""
    answers: list[Answer] = field(default_factory=list)
    """What went out, in order; whoever measures a load empties it before."""
    _packed: dict[Path, tuple[int, bytes]] = field(default_factory=dict)

    def packed(self, file: Path) -> tuple[int, bytes]:
        """Bytes of a file, and what is sent for it."""
        if file not in self._packed:
            raw = file.read_bytes()
            self._packed[file] = (len(raw), gzip.compress(raw, 9) if file.suffix in PACKED else raw)
        return self._packed[file]


class _PackedHost(StaticHost):
    def __init__(self, *args: Any, site: PackedSite, **rest: Any) -> None:
        self._site = site
        super().__init__(*args, folder=site.folder, **rest)

    def do_GET(self) -> None:  # noqa: N802
        _, file = self._meant(urllib.parse.urlsplit(self.path).path)
        if not file.is_file():
            self._missing()
            return
        raw, body = self._site.packed(file)
        path = file.relative_to(self._site.folder).as_posix()
        self._site.answers.append(Answer(path=path, raw=raw, sent=len(body)))
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", self.guess_type(str(file)))
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "max-age=600")
        if file.suffix in PACKED:
            self.send_header("Content-Encoding", "gzip")
        self.end_headers()
        self.wfile.write(body)


@contextmanager
def packed(site: PackedSite) -> Iterator[str]:
    """Serve the site while the block runs; gives its address, which ends in a slash."""

    def handler(*args: Any, **rest: Any) -> _PackedHost:
        return _PackedHost(*args, site=site, below="/", **rest)

    with host_running(handler, "/") as address:
        yield address
