"""What files said and what was found, kept by content between runs.

Nothing depends on it: a key holds everything that a value was made from (the program, the file's path and bytes, the
day), a value carries its own check sum, and whatever goes wrong with the store only means that the work is done anew.
Values are JSON, never pickles: a file that somebody else put there must not be able to run anything.
"""

from __future__ import annotations

import contextlib
import functools
import hashlib
import json
import os
import platform
import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict
from importlib import metadata
from pathlib import Path
from typing import Any

import platformdirs

from kbtools.diagnostics import Finding, as_finding
from kbtools.edges.shipped import PACKAGE, program_files, shipped
from kbtools.linting.run import Linted
from kbtools.model.vocabulary import Tables
from kbtools.reading.comments import Comment
from kbtools.reading.one_file import Content
from kbtools.reading.places import Document
from kbtools.reading.source import SourceFile
from kbtools.vocabulary.tables import as_json

VARIABLE = "KBTOOLS_CACHE"
"""Environment variable: another folder for the store, or `off`."""
_NAME = "kept.sqlite"
_KEPT_DAYS = 30
"""A value that nobody asked for so long goes."""
_NOTED_DAYS = 7
"""Only after so long it is noted that somebody has asked again: else the first run of each day would write all anew."""
_BATCH = 2_000
"""Values that wait in memory before they are written."""
_WAIT = 2.0
"""Seconds to wait for another run that writes."""
_LIBRARIES = (
    "jsonschema",
    "jsonschema-rs",
    "numpy",
    "phonenumbers",
    "pillow",
    "pystemmer",
    "python-stdnum",
    "pyyaml",
    "rapidfuzz",
)
"""Whose version may change what is found."""

# With row ids: without them a value of more than a kilobyte, as most have, is cut in two, and takes twice as long.
_TABLE = "CREATE TABLE IF NOT EXISTS kept (key BLOB PRIMARY KEY, value BLOB, sum BLOB, day INTEGER)"
_GET_ALL = "SELECT key, value, sum, day FROM kept WHERE key IN ({})"
_ASKED = 500
"""Values asked for at once; older SQLite takes no more than 999."""
_PUT = "INSERT OR REPLACE INTO kept VALUES (?, ?, ?, ?)"


def place() -> Path | None:
    """The folder of the store; None where the user wants none."""
    named = os.environ.get(VARIABLE, "")
    if named == "off":
        return None
    return Path(named) if named else platformdirs.user_cache_path("kbtools", appauthor=False)


@functools.cache
def _running() -> bytes:
    """A digest of our own modules and of what they call; once a run, since modules are loaded once."""
    digest = hashlib.blake2b(platform.python_version().encode(), digest_size=16)
    for name in _LIBRARIES:
        digest.update(f"{name} {metadata.version(name)}\n".encode())
    for path in program_files():
        digest.update(path.relative_to(PACKAGE).as_posix().encode() + b"\0" + path.read_bytes())
    return digest.digest()


def program() -> bytes:
    """A digest of everything but the knowledge base that decides what is found; schemas may be edited while serving."""
    schemas = (path.name.encode() + path.read_bytes() for path in sorted(shipped("schemas").glob("*.json")))
    return _digest(_running(), *schemas)


class Cache:
    """A store that is open; one that could not be opened keeps nothing and gives nothing.

    Works as the memory of `kbtools.reading.reader.read` and of `kbtools.replay`.
    """

    def __init__(self, folder: Path | None, day: int) -> None:
        """Open it.

        Args:
            folder: where it lies; made if need be. None: keep nothing.
            day: today as an ordinal, for throwing away what is no longer used.
        """
        self._path = None if folder is None else folder / _NAME
        self._day = day
        self._program = program() if folder is not None else b""
        self._waiting: dict[bytes, bytes] = {}
        self._tables: Tables | None = None
        self._store = self._open()

    def contents(self, files: Sequence[SourceFile]) -> Sequence[Content | None]:
        """What the files said when they were read before."""
        if self._store is None:
            return [None] * len(files)
        keys = [self._file_key(each) for each in files]
        rows = self._get_all(keys)
        return [_content(file, rows.get(key)) for file, key in zip(files, keys, strict=True)]

    def keep(self, file: SourceFile, content: Content) -> None:
        """Keep what a file said."""
        if file.data is None or self._store is None:
            return
        row = {
            "text": content.document.text is not None,
            "data": content.data,
            "damaged": sorted(content.damaged),
            "findings": [asdict(each) for each in content.findings],
            "comments": content.comments,
        }
        self._put(self._file_key(file), row)

    def findings(self, files: Iterable[SourceFile], today: int, touched: Iterable[str] = ()) -> Linted | None:
        """What was found in exactly these files on this day, with these ones edited."""
        row = self._get(self._files_key(files, today, touched))
        if row is None:
            return None
        return Linted(findings=tuple(_findings(row["findings"])), accepted=tuple(_findings(row["accepted"])))

    def keep_findings(
        self, files: Iterable[SourceFile], today: int, found: Linted, touched: Iterable[str] = ()
    ) -> None:
        """Keep what was found in exactly these files on this day, with these ones edited."""
        if self._store is not None:
            row = {name: [asdict(each) for each in getattr(found, name)] for name in ("findings", "accepted")}
            self._put(self._files_key(files, today, touched), row)

    def picture(self, digest: bytes) -> tuple[str, str] | None:
        """What was thought of a picture with this content; both texts are empty where it is good."""
        row = self._get(_digest(self._program, b"picture", digest))
        return None if row is None else (row["problem"], row["hint"])

    def keep_picture(self, digest: bytes, problem: str, hint: str) -> None:
        """Keep what was thought of it."""
        if self._store is not None:
            self._put(_digest(self._program, b"picture", digest), {"problem": problem, "hint": hint})

    def worked_out(self, work: str, asked: bytes) -> Any:
        """What came out of a work when the same was asked; None where it was not kept."""
        row = self._get(_digest(self._program, b"work", work.encode(), asked))
        return None if row is None else row["found"]

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        """Keep what came out of it."""
        if self._store is not None:
            self._put(_digest(self._program, b"work", work.encode(), asked), {"found": found})

    def tables(self, files: Tables) -> Tables:
        """The vocabulary's files as they are read fastest: YAML of that size takes a tenth of a second."""
        if self._store is None:
            return files
        if self._tables is None:
            key = _digest(self._program, b"tables")
            row = self._get(key)
            if row is None:
                row = {"files": [[name, as_json(text)] for name, text in files.files], "unsafe": as_json(files.unsafe)}
                self._put(key, row)
            self._tables = Tables(files=tuple((name, text) for name, text in row["files"]), unsafe=row["unsafe"])
        return self._tables

    def close(self) -> None:
        """Write what waits, throw away what is old."""
        self._write()
        if self._store is None:
            return
        with self._forgiving():
            # To look for what is old takes as long as to read all: once a day is enough.
            if self._store.execute("PRAGMA user_version").fetchone() != (self._day,):
                with self._store:
                    self._store.execute("DELETE FROM kept WHERE day < ?", (self._day - _KEPT_DAYS,))
                    self._store.execute(f"PRAGMA user_version = {int(self._day)}")
            self._store.close()

    def _file_key(self, file: SourceFile) -> bytes:
        return _digest(self._program, b"file", file.path.encode("utf-8"), file.digest)

    def _files_key(self, files: Iterable[SourceFile], today: int, touched: Iterable[str]) -> bytes:
        parts = [self._program, b"findings", today.to_bytes(8, "big"), "\0".join(sorted(touched)).encode("utf-8")]
        for file in sorted(files, key=lambda each: each.path):
            state = b"0" + (file.problem or "").encode() if file.data is None else b"1" + file.digest
            parts += [file.path.encode("utf-8"), state]
        return _digest(*parts)

    def _open(self) -> sqlite3.Connection | None:
        if self._path is None:
            return None
        for _ in range(2):
            try:
                self._path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
                store = sqlite3.connect(self._path, timeout=_WAIT)
                store.execute("PRAGMA synchronous = OFF")
                store.execute(_TABLE)
                store.execute("SELECT key, value, sum, day FROM kept LIMIT 1").fetchall()
            except sqlite3.OperationalError:
                return None
            except sqlite3.DatabaseError:
                # It is no database, or a broken one: begin anew, once.
                with contextlib.suppress(OSError):
                    self._path.unlink()
            except OSError:
                return None
            else:
                return store
        return None

    @contextlib.contextmanager
    def _forgiving(self) -> Iterator[None]:
        """Whatever the store refuses, do without it from here on."""
        try:
            yield
        except sqlite3.Error:
            self._store = None

    def _get(self, key: bytes) -> dict[str, Any] | None:
        if self._store is None:
            return None
        if key in self._waiting:
            return dict(json.loads(self._waiting[key]))
        with self._forgiving():
            row = self._store.execute("SELECT value, sum, day FROM kept WHERE key = ?", (key,)).fetchone()
            if row is not None and isinstance(row[0], bytes) and row[1] == _digest(key, row[0]):
                if abs(row[2] - self._day) > _NOTED_DAYS:
                    self._later(key, row[0])
                value: dict[str, Any] = json.loads(row[0])
                return value
        return None

    def _get_all(self, keys: Sequence[bytes]) -> dict[bytes, dict[str, Any]]:
        """The values of those of the keys that have one, read in one go, which takes a third of the time."""
        found = {key: self._waiting[key] for key in keys if key in self._waiting}
        asked = [key for key in keys if key not in found]
        for some in (asked[at : at + _ASKED] for at in range(0, len(asked), _ASKED)):
            found |= self._stored(some)
        try:
            values = json.loads(b"[" + b",".join(found.values()) + b"]")
        except ValueError:
            return {}
        return dict(zip(found, values, strict=True))

    def _stored(self, keys: Sequence[bytes]) -> dict[bytes, bytes]:
        """Keys to what the store holds whole of them."""
        if self._store is None:
            return {}
        found = {}
        with self._forgiving():
            places = ",".join("?" * len(keys))
            for key, value, own, day in self._store.execute(_GET_ALL.format(places), keys).fetchall():
                if isinstance(value, bytes) and own == _digest(key, value):
                    found[key] = value
                    if abs(day - self._day) > _NOTED_DAYS:
                        self._later(key, value)
        return found

    def _put(self, key: bytes, value: dict[str, Any]) -> None:
        self._later(key, json.dumps(value, separators=(",", ":")).encode())

    def _later(self, key: bytes, value: bytes) -> None:
        self._waiting[key] = value
        if len(self._waiting) >= _BATCH:
            self._write()

    def _write(self) -> None:
        rows = [(key, value, _digest(key, value), self._day) for key, value in self._waiting.items()]
        self._waiting.clear()
        if self._store is not None and rows:
            with self._forgiving(), self._store:
                self._store.executemany(_PUT, rows)


def _content(file: SourceFile, row: Mapping[str, Any] | None) -> Content | None:
    if row is None or file.data is None:
        return None
    return Content(
        document=Document(path=file.path, text=file.data if row["text"] else None),
        data=row["data"],
        damaged=frozenset(row["damaged"]),
        findings=tuple(_findings(row["findings"])),
        comments=tuple(Comment(start, text) for start, text in row["comments"]),
    )


def _findings(rows: Iterable[dict[str, Any]]) -> Iterator[Finding]:
    return map(as_finding, rows)


def _digest(*parts: bytes) -> bytes:
    digest = hashlib.blake2b(digest_size=16)
    for part in parts:
        digest.update(len(part).to_bytes(8, "big") + part)
    return digest.digest()


@contextlib.contextmanager
def opened(folder: Path | None, day: int) -> Iterator[Cache]:
    """A store for the length of a run."""
    cache = Cache(folder, day)
    try:
        yield cache
    finally:
        cache.close()
