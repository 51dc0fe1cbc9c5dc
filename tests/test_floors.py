"""Which room may use which: the drawing of the house in DEVELOPERS.md, held to the code."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.places import ROOT

PACKAGE = ROOT / "kbtools"

FLOORS: tuple[tuple[str, ...], ...] = (
    ("diagnostics", "model", "personal", "text"),
    ("wording",),
    ("vocabulary",),
    ("index",),
    ("reading",),
    ("evidence", "similarity"),
    ("rules",),
    ("checkplan", "links", "merging"),
    ("agenda", "drafting"),
    ("changes", "intake", "linting", "replay"),
    ("browser_data", "export"),
    ("report",),
    ("pages",),
    ("edges",),
    ("site",),
    ("cli",),
)
"""The rooms, from the ground floor up. A room uses its own modules and those of the floors below it, and no others."""

LEVEL = {room: level for level, rooms in enumerate(FLOORS) for room in rooms}
EDGES = LEVEL["edges"]
"""Below this floor nothing knows disk, clock, network, chance, what is shipped, or MkDocs."""
DOORS = {"kbtools", "kbtools.__main__"}
"""The version, and the way in; any other module at the top is a loose one."""

OUTER_MODULES = {
    *("os", "io", "shutil", "tempfile", "glob", "fileinput", "ctypes", "mmap", "sys", "signal", "threading"),
    *("time", "random", "secrets", "uuid", "subprocess", "multiprocessing", "asyncio", "logging", "sqlite3"),
    *(
        "pkgutil",
        "importlib",
        "inspect",
        "socket",
        "ssl",
        "http",
        "ftplib",
        "smtplib",
        "urllib.request",
        "webbrowser",
        "requests",
        "mkdocs",
        "material",
    ),
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


def room_of(module: str) -> str | None:
    """The room that a module is in; None of a loose one."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 and parts[1] in LEVEL else None


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


def problems(module: str, source: str, *, package: bool = False) -> list[str]:
    """What in a module's source goes against the floors."""
    room = room_of(module)
    if room is None:
        return [f"{module} stands loose: give it a room"] if module not in DOORS else []
    tree = ast.parse(source)
    found = []
    for line, name in imports(module, tree, package=package):
        if is_part(name, "kbtools"):
            other = room_of(name)
            # Of the top, only the version is for everybody.
            if other is None and name != "kbtools.__version__":
                found.append(f"{module}:{line} imports {name}, which is in no room")
            elif other is not None and other != room and LEVEL[other] >= LEVEL[room]:
                found.append(f"{module}:{line} ({room}) imports {name}: {other} is not below it")
        elif is_part(name, "mkdocs") and room != "site":
            found.append(f"{module}:{line} imports {name}: only site knows MkDocs")
        elif LEVEL[room] < EDGES and not is_inner(name):
            found.append(f"{module}:{line} ({room}) imports {name}")
    if LEVEL[room] < EDGES:
        found += [f"{module}:{line} ({room}) calls {name}" for line, name in outer_calls(tree)]
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


def test_each_module_keeps_to_its_floor() -> None:
    assert [
        problem
        for module, path in MODULES.items()
        for problem in problems(module, path.read_text("utf-8"), package=path.name == "__init__.py")
    ] == []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("kbtools.model.fault", "from kbtools.reading.tree import Node"),
        ("kbtools.model.fault", "def late():\n    import kbtools.reading.tree"),
        ("kbtools.reading.reader", "from kbtools.linting import run"),
        ("kbtools.reading.reader", "from ..linting import run"),
        ("kbtools.reading.reader", "from ..rules.rule import Rule"),
        ("kbtools.index.answers", "from kbtools.pages import spec"),
        ("kbtools.pages.fault", "from kbtools.edges.folder import load"),
        ("kbtools.rules.references.kb301_model", "from kbtools.edges import clock"),
        ("kbtools.edges.publish", "from kbtools.cli.common import report"),
        ("kbtools.edges.rendering", "import mkdocs.config"),
        ("kbtools.cli.build", "from mkdocs.commands.build import build"),
        ("kbtools.pages.fault", "from mkdocs.structure.files import File"),
        ("kbtools.text.html", "import os.path"),
        ("kbtools.text.html", "from pathlib import Path"),
        ("kbtools.text.html", "import pathlib"),
        ("kbtools.linting.run", "import datetime as dt\nday = dt.date.today()"),
        ("kbtools.linting.run", "from datetime import datetime\nday = datetime.now()"),
        ("kbtools.linting.run", "import time"),
        ("kbtools.index.scopes", "from random import choice"),
        ("kbtools.index.scopes", "import urllib.request"),
        ("kbtools.index.scopes", "text = open('a').read()"),
        ("kbtools.report.text", "print('a')"),
        ("kbtools.evidence.shares", "from kbtools.similarity import engine"),
        ("kbtools.report.plan", "from kbtools.pages.spec import Crumb"),
        ("kbtools.vocabulary.stems", "import pkgutil"),
        ("kbtools.vocabulary.stems", "from importlib.resources import files"),
        ("kbtools.linting.run", "from importlib import import_module"),
        ("kbtools.rules.rule", "from kbtools import brand_new"),
        ("kbtools.brand_new", ""),
    ],
)
def test_what_goes_against_the_floors_is_found(module: str, source: str) -> None:
    assert len(problems(module, source)) == 1


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("kbtools.reading.layout", "from pathlib import PurePosixPath"),
        ("kbtools.index.scopes", "import datetime as dt\nfrom urllib.parse import quote\nday = dt.date(2026, 1, 1)"),
        ("kbtools.site.plugin", "import os\nfrom mkdocs.config import base\nfrom kbtools.linting.run import lint"),
        ("kbtools.report.as_json", "from kbtools.report import text\nfrom kbtools import diagnostics"),
    ],
)
def test_what_keeps_to_the_floors_is_let_be(module: str, source: str) -> None:
    assert problems(module, source) == []


def test_nothing_stands_loose_at_the_top() -> None:
    top = {path.stem for path in PACKAGE.glob("*.py")}
    assert top == {"__init__", "__main__", "diagnostics"}


def test_rooms_are_there_and_no_others() -> None:
    rooms = {path.parent.name for path in PACKAGE.glob("*/__init__.py")} | {"diagnostics"}
    assert rooms | {"export"} == set(LEVEL)


def test_the_drawing_is_this_one() -> None:
    """In DEVELOPERS.md the floors stand from the roof down, one a line, rooms first."""
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    drawing = text.split("```house\n")[1].split("```")[0]
    drawn = [set(re.findall(r"\b([a-z_]+)/|\b(diagnostics)\b", line.split("   ")[0])) for line in drawing.splitlines()]
    floors = [{one or other for one, other in rooms} for rooms in drawn if rooms]
    assert floors == [set(rooms) for rooms in reversed(FLOORS)]
