"""The site's own styles and scripts, below one folder whose name says their content.

A browser that has the page of one build and the script of another shows nonsense; so the address changes with the
content, and old pages keep their old assets or none.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from pathlib import Path

import rcssmin
import rjsmin

from kbtools.browser_data.packed import json_bytes
from kbtools.reading.layout import is_passed_over

SOURCE = "assets"
"""Folder of the assets in `site_overrides/`, and of their addresses."""


def asset_files(overrides: Iterable[Path]) -> dict[str, Path]:
    """Name below `assets/` to the file, in the order of names; a later folder's file takes the place of an earlier's.

    So a club that has a style or script of its own in its `custom_dir` changes that one and keeps the others.
    """
    found = {
        path.relative_to(folder / SOURCE).as_posix(): path
        for folder in overrides
        for path in (folder / SOURCE).rglob("*")
        if path.is_file() and not is_passed_over(path.relative_to(folder).as_posix())
    }
    return dict(sorted(found.items()))


def fingerprint(files: dict[str, Path]) -> str:
    """Twelve hexadecimal digits that change when any name or content changes."""
    # What is published of a file follows from these as well.
    digest = hashlib.sha256(f"{rjsmin.__version__} {rcssmin.__version__}\0".encode())
    for name, path in files.items():
        content = path.read_bytes()
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()[:12]


def packed(name: str, path: Path) -> bytes | None:
    """What is published of a script or style: the same without its comments, which weigh as much as its code.

    None: the file as it is.
    """
    pack = {".js": rjsmin.jsmin, ".css": rcssmin.cssmin}.get(Path(name).suffix)
    return None if pack is None else pack(path.read_text(encoding="utf-8")).encode()


def json_files(files: Mapping[str, object]) -> dict[str, bytes]:
    """Name to content, as compact JSON; bytes are that already."""
    return {name: content if isinstance(content, bytes) else json_bytes(content) for name, content in files.items()}


def data_folder(of: str, files: Mapping[str, bytes]) -> str:
    """The folder of such data, from the site's root; its name changes with any of their names and contents."""
    digest = hashlib.sha256()
    for name, content in sorted(files.items()):
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
    return f"data/{of}-{digest.hexdigest()[:12]}/"
