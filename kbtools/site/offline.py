"""What the site needs to work without a network: a service worker that knows its build, and lists of its files.

A build has an id that every page carries. The service worker keeps files and pages of its own build only, so that a
telephone never shows half of one build and half of another.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Final

from kbtools.edges.pictures import SMALL_WIDTH
from kbtools.reading.layout import is_passed_over
from kbtools.wording.addresses import WORKER

PARTS: Final = tuple(f"js/offline-{part}.js" for part in ("worker", "answers", "files", "pages", "bike"))
"""Its script's parts among the assets, in their order; the build's own constants are put in front. One file in the end,
since a browser looks at that one alone for a new build."""

MOST_KEPT: Final = 12_000_000
"""Bytes of finder data, unpacked, that are kept unasked. Of a larger base only what was used is kept, and what concerns
my bike once the owner asks for it."""


_Row = tuple[str, int, str]
"""A file's address, its bytes, and the first digits of its SHA-256."""


def build_id(folders: Iterable[Path], *more: str) -> str:
    """Twelve hexadecimal digits that change with the name or content of any file in the folders.

    Args:
        folders: programs and templates that make the site; one that is not there counts as empty.
        more: whatever else changes the site: the digest of the knowledge base, the day.
    """
    digest = hashlib.sha256("\0".join(more).encode())
    for folder in folders:
        for path in sorted(folder.rglob("*")):
            if path.is_file() and not _of_no_account(path, folder):
                content = path.read_bytes()
                digest.update(f"\0{path.relative_to(folder).as_posix()}\0{len(content)}\0".encode())
                digest.update(content)
    return digest.hexdigest()[:12]


def _of_no_account(path: Path, folder: Path) -> bool:
    """What is hidden, compiled or left behind by an editor makes no other site."""
    parts = path.relative_to(folder).parts
    return "__pycache__" in parts or is_passed_over("/".join(parts))


def write(  # noqa: PLR0913, PLR0917 (a build's id, day and folders, and who tells of its pages)
    site: Path,
    build: str,
    folders: Mapping[str, str],
    contents: Mapping[str, Mapping[str, bytes]],
    concerned: Callable[[Mapping[str, int]], Sequence[int]],
    today: str,
) -> None:
    """Write the service worker and the lists of the build's files into a finished site.

    Args:
        site: the folder of the site.
        build: the build's id.
        folders: `assets`, `data` and `several`, the addresses of the folders whose names say their content.
        contents: what is in some of these folders, by the file's name, where that is known.
        concerned: gives, by the bytes of the pictures that are kept, those of the pages that a machine may concern with
            what they show, in the order of the finder's entries.
        today: day of the build.
    """
    files: list[_Row] = []
    for name, folder in folders.items():
        files += _lying(site, folder) if name not in contents else _known(folder, contents[name])
    shown = [_row(site, path) for path in _narrow(site / "pictures")]
    files += shown
    pictures = {path: size for path, size, _ in shown}
    sizes = list(concerned(pictures))
    listing = site / "build" / f"{build}.json"
    listing.parent.mkdir(exist_ok=True)
    listing.write_text(_json({"id": build, "files": files}), encoding="utf-8")
    (site / "build" / f"{build}-sizes.json").write_text(_json(sizes), encoding="utf-8")
    known = {"id": build, **folders, "made": today, "most": MOST_KEPT}
    parts = [(site / folders["assets"] / part).read_text(encoding="utf-8") for part in PARTS]
    (site / WORKER).write_text("\n".join([f"const BUILD = {_json(known)};", *parts]), encoding="utf-8")


def _lying(site: Path, folder: str) -> Iterator[_Row]:
    return (_row(site, path) for path in sorted((site / folder).rglob("*")) if path.is_file())


def _known(folder: str, contents: Mapping[str, bytes]) -> Iterator[_Row]:
    """As of files that lie there, in their order."""
    return (_told(f"{folder}{name}", contents[name]) for name in sorted(contents, key=lambda each: each.split("/")))


def _row(site: Path, path: Path) -> _Row:
    return _told(path.relative_to(site).as_posix(), path.read_bytes())


def _told(address: str, content: bytes) -> _Row:
    return address, len(content), hashlib.sha256(content).hexdigest()[:16]


def _narrow(folder: Path) -> list[Path]:
    """One of each picture of an entry, in its narrowest width: that is what is kept."""
    found = {path.name: path for path in folder.glob("*") if path.is_file()}
    found.update({path.name: path for path in (folder / str(SMALL_WIDTH)).glob("*")})
    return [found[name] for name in sorted(found)]


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=True, separators=(",", ":"))
