"""Which module may import which: the table of layers in DEVELOPERS.md, held to the code."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "kbtools"

LAYERS: dict[str, tuple[str, ...]] = {
    "values": ("kbtools", "kbtools.model", "kbtools.diagnostics", "kbtools.text", "kbtools.nearest"),
    "reading": ("kbtools.reading",),
    "computing": (
        *("kbtools.applicability", "kbtools.index", "kbtools.scope", "kbtools.markup", "kbtools.personal"),
        *("kbtools.evidence", "kbtools.costs", "kbtools.checkplan", "kbtools.several_codes", "kbtools.evidence_table"),
        *("kbtools.matching", "kbtools.duplicates"),
    ),
    "publishing": (
        *(
            "kbtools.rules",
            "kbtools.accepting",
            "kbtools.lint",
            "kbtools.finder_index",
            "kbtools.pages",
            "kbtools.report",
        ),
        *("kbtools.export", "kbtools.several_index"),
    ),
    "edges": (
        *("kbtools.repository", "kbtools.locate", "kbtools.clock", "kbtools.filesystem", "kbtools.publish"),
        *("kbtools.rendering", "kbtools.checking", "kbtools.collector", "kbtools.cache", "kbtools.git"),
        "kbtools.explaining",
    ),
    "doors": ("kbtools.site", "kbtools.cli", "kbtools.__main__"),
}
"""From the inside to the outside. A package stands for its modules; `kbtools` itself holds the version only."""

ORDER = tuple(LAYERS)
PURE = ORDER[: ORDER.index("edges")]
"""Layers that know no disk, clock, network, chance or MkDocs."""

OUTER_MODULES = {
    *("os", "io", "shutil", "tempfile", "glob", "fileinput", "ctypes", "mmap", "sys", "signal", "threading"),
    *("time", "random", "secrets", "uuid", "subprocess", "multiprocessing", "asyncio", "logging", "sqlite3"),
    *("socket", "ssl", "http", "ftplib", "smtplib", "urllib.request", "webbrowser", "requests", "mkdocs", "material"),
}
INNER_PATHS = {"PurePath", "PurePosixPath", "PureWindowsPath"}
"""What of `pathlib` only computes with names."""

CLOCK_CALLS = {"now", "utcnow", "today"}
OUTER_CALLS = {"open", "input", "print", "breakpoint"}


def module_of(path: Path) -> str:
    """Dotted name of a file of the package."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {module_of(path): path for path in sorted(PACKAGE.rglob("*.py"))}


def layer_of(module: str) -> str | None:
    """The layer that lists the module or the package it is in."""
    if module == "kbtools":
        return ORDER[0]
    for layer, members in LAYERS.items():
        if any(module == each or module.startswith(f"{each}.") for each in members if each != "kbtools"):
            return layer
    return None


def imports(module: str, tree: ast.AST, *, package: bool = False) -> Iterator[tuple[int, str]]:
    """Line and dotted name of everything imported anywhere in the module, inside functions too.

    `from a import b` gives `a.b`, which is a module, or a name in the module `a`.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = node.module or ""
            if node.level:
                above = module.split(".")[: len(module.split(".")) - node.level + package]
                start = ".".join([*above, start]).rstrip(".")
            yield from ((node.lineno, f"{start}.{alias.name}") for alias in node.names)


def is_part(name: str, of: str) -> bool:
    return name == of or name.startswith(f"{of}.")


def own_module(name: str) -> str:
    """The module of the package that an imported name stands for or in."""
    while name not in MODULES and "." in name:
        name = name.rpartition(".")[0]
    return name


def problems(module: str, source: str, *, package: bool = False) -> list[str]:
    """What in a module's source goes against the layers."""
    layer = layer_of(module)
    if layer is None:
        return [f"{module} belongs to no layer: list it here and in DEVELOPERS.md"]
    tree = ast.parse(source)
    found = []
    for line, name in imports(module, tree, package=package):
        if is_part(name, "kbtools"):
            other = layer_of(own_module(name))
            # An unlisted module is named by its own test.
            if other is not None and ORDER.index(other) > ORDER.index(layer):
                found.append(f"{module}:{line} ({layer}) imports {name} ({other})")
        elif is_part(name, "mkdocs") and not is_part(module, "kbtools.site"):
            found.append(f"{module}:{line} imports {name}: only kbtools.site knows MkDocs")
        elif layer in PURE and not is_inner(name):
            found.append(f"{module}:{line} ({layer}) imports {name}")
    if layer in PURE:
        found += [f"{module}:{line} ({layer}) calls {name}" for line, name in outer_calls(tree)]
    return found


def is_inner(name: str) -> bool:
    if is_part(name, "pathlib"):
        return name.removeprefix("pathlib.") in INNER_PATHS
    return not any(is_part(name, each) for each in OUTER_MODULES)


def outer_calls(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Calls of the clock, and of builtins that reach outside."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            if isinstance(node.func, ast.Name) and node.func.id in OUTER_CALLS:
                yield node.lineno, node.func.id
            elif isinstance(node.func, ast.Attribute) and node.func.attr in CLOCK_CALLS:
                yield node.lineno, ast.unparse(node.func)


@pytest.mark.parametrize("module", MODULES)
def test_a_module_keeps_to_its_layer(module: str) -> None:
    path = MODULES[module]
    assert problems(module, path.read_text("utf-8"), package=path.name == "__init__.py") == []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("kbtools.model.fault", "from kbtools.reading.tree import Node"),
        ("kbtools.model.fault", "def late():\n    import kbtools.reading.tree"),
        ("kbtools.reading.reader", "from kbtools import lint"),
        ("kbtools.reading.reader", "from .. import lint"),
        ("kbtools.reading.reader", "from ..rules.rule import Rule"),
        ("kbtools.index", "from kbtools.pages import addresses"),
        ("kbtools.pages.fault", "from kbtools.repository import load"),
        ("kbtools.rules.kb301_model", "from kbtools import clock"),
        ("kbtools.publish", "from kbtools.cli.common import report"),
        ("kbtools.rendering", "import mkdocs.config"),
        ("kbtools.cli.build", "from mkdocs.commands.build import build"),
        ("kbtools.pages.fault", "from mkdocs.structure.files import File"),
        ("kbtools.text", "import os.path"),
        ("kbtools.text", "from pathlib import Path"),
        ("kbtools.text", "import pathlib"),
        ("kbtools.lint", "import datetime as dt\nday = dt.date.today()"),
        ("kbtools.lint", "from datetime import datetime\nday = datetime.now()"),
        ("kbtools.lint", "import time"),
        ("kbtools.scope", "from random import choice"),
        ("kbtools.scope", "import urllib.request"),
        ("kbtools.scope", "text = open('a').read()"),
        ("kbtools.report.text", "print('a')"),
        ("kbtools.brand_new", ""),
    ],
)
def test_what_goes_against_the_layers_is_found(module: str, source: str) -> None:
    assert len(problems(module, source)) == 1


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("kbtools.reading.layout", "from pathlib import PurePosixPath"),
        ("kbtools.scope", "import datetime as dt\nfrom urllib.parse import quote\nday = dt.date(2026, 1, 1)"),
        ("kbtools.site.plugin", "import os\nfrom mkdocs.config import base\nfrom kbtools.lint import lint"),
        ("kbtools.report.as_json", "from kbtools.report import text\nfrom kbtools import diagnostics"),
    ],
)
def test_what_keeps_to_the_layers_is_let_be(module: str, source: str) -> None:
    assert problems(module, source) == []


def test_the_developers_table_is_this_one() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    rows = re.findall(r"^\| (\w+) \| (`[^|]*) \|", text, re.MULTILINE)
    told = {layer: set(re.findall(r"`([\w./]+)`", modules)) for layer, modules in rows if layer in LAYERS}
    listed = {
        layer: {each.removeprefix("kbtools.") for each in members if each != "kbtools"}
        for layer, members in LAYERS.items()
    }
    assert {layer: {each.rstrip("/") for each in modules} for layer, modules in told.items()} == listed
    assert list(told) == list(LAYERS)
