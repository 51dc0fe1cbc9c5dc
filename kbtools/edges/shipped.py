"""What comes with the programs: schemas, tables of the vocabulary, templates, assets, and where their files are.

What stands at the top level of the repository a wheel carries inside the package; an editable install finds it where
it is edited.
"""

from __future__ import annotations

import functools
import json
from pathlib import Path

from kbtools.model.vocabulary import Tables
from kbtools.reading.shape import Schema, Shape, load_shapes

PACKAGE = Path(__file__).parents[1]
"""The folder of the programs."""
_SHIPPED = PACKAGE / "_shipped"


def shipped(name: str) -> Path:
    """The path of `schemas`, `site_overrides` or `mkdocs.yml`.

    Raises:
        FileNotFoundError: the installation is not complete.
    """
    for folder in (_SHIPPED, PACKAGE.parent):
        path = folder / name
        if path.exists():
            return path
    raise FileNotFoundError(f"{name} is not installed with kbtools; install it again")


def templates() -> Path:
    """The folder of the templates of generated pages."""
    return PACKAGE / "templates"


def starter() -> tuple[dict[str, str], dict[str, str]]:
    """What a new club begins with, by the names of the files: its knowledge base, and what stands around it."""
    kb, around = (
        {path.name: path.read_text("utf-8") for path in sorted((PACKAGE / "starter" / name).iterdir())}
        for name in ("kb", "files")
    )
    return kb, around


def program_files() -> list[Path]:
    """All files of the package that decide what it does, in a fixed order: modules, tables, templates."""
    return sorted(path for path in PACKAGE.rglob("*") if path.suffix in {".py", ".yml", ".html"})


def schema_files() -> dict[str, Schema]:
    """The schemas by the names of their files."""
    return {path.name: json.loads(path.read_text("utf-8")) for path in sorted(shipped("schemas").glob("*.json"))}


def shapes() -> dict[str, Shape]:
    """The schemas made ready, by kind of file. Read anew each time: they may have been edited while serving."""
    return load_shapes(schema_files())


@functools.cache
def tables() -> Tables:
    """The vocabulary's files."""
    folder = PACKAGE / "vocabulary" / "data"
    return Tables(
        files=tuple((path.stem, path.read_text("utf-8")) for path in sorted(folder.glob("*.yml"))),
        unsafe=(folder.parent / "work" / "unsafe.yml").read_text("utf-8"),
    )
