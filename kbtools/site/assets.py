"""The site's own styles and scripts, below one folder whose name says their content.

A browser that has the page of one build and the script of another shows nonsense; so the address changes with the
content, and old pages keep their old assets or none.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

SOURCE = "assets"
"""Folder of the assets in `site_overrides/`, and of their addresses."""


def asset_files(overrides: Path) -> dict[str, Path]:
    """Name below `assets/` to the file, in the order of names."""
    top = overrides / SOURCE
    return {path.relative_to(top).as_posix(): path for path in sorted(top.rglob("*")) if path.is_file()}


def fingerprint(files: dict[str, Path]) -> str:
    """Twelve hexadecimal digits that change when any name or content changes."""
    digest = hashlib.sha256()
    for name, path in files.items():
        content = path.read_bytes()
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()[:12]


def data_name(content: bytes) -> str:
    """The address of the finder's data, which changes with its content."""
    return f"data/finder-{hashlib.sha256(content).hexdigest()[:12]}.json"
