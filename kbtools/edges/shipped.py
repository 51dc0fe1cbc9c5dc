"""Where the files are that are shipped with the package but stand at the top level of the repository.

A wheel carries them inside the package; an editable install finds them where they are edited.
"""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).parents[1]
_SHIPPED = _PACKAGE / "_shipped"


def shipped(name: str) -> Path:
    """The path of `schemas`, `site_overrides` or `mkdocs.yml`.

    Raises:
        FileNotFoundError: the installation is not complete.
    """
    for folder in (_SHIPPED, _PACKAGE.parent):
        path = folder / name
        if path.exists():
            return path
    raise FileNotFoundError(f"{name} is not installed with kbtools; install it again")


def templates() -> Path:
    """The folder of the templates of generated pages."""
    return _PACKAGE / "templates"


def program_files() -> list[Path]:
    """All files of the package that decide what it does, in a fixed order: modules, tables, templates."""
    return sorted(path for path in _PACKAGE.rglob("*") if path.suffix in {".py", ".txt", ".html"})
