"""A page asks for the modules that it runs, for all of them at once, and for no other."""

from __future__ import annotations

import re
from functools import cache
from types import SimpleNamespace

import pytest
from jinja2 import Environment, FileSystemLoader

from kbtools.edges.rendering import TEMPLATES
from tests.support.places import ROOT

OVERRIDES = ROOT / "site_overrides"
SCRIPTS = OVERRIDES / "assets" / "js"
KINDS = [*sorted(page.stem for page in TEMPLATES.glob("[a-z]*.html")), "hand", "404"]
IMPORTS = re.compile(r"""^(?:import|export)\b[^;(]*?"(\.{1,2}/[^"]+)";""", re.MULTILINE)
LATER = re.compile(r"""\bimport\("(\.{1,2}/[^"]+)"\)""")


def resolved(name: str, found: list[str]) -> set[str]:
    folder = (SCRIPTS / name).parent
    return {(folder / each).resolve().relative_to(SCRIPTS).as_posix().removesuffix(".js") for each in found}


@cache
def source(name: str) -> str:
    return (SCRIPTS / f"{name}.js").read_text(encoding="utf-8")


def whole(names: set[str]) -> set[str]:
    """The modules, and all that they import before they run."""
    found: set[str] = set()
    left = set(names)
    while left:
        name = left.pop()
        found.add(name)
        left |= resolved(name, IMPORTS.findall(source(name))) - found
    return found


def asked(kind: str) -> tuple[set[str], list[str], list[str]]:
    """Of a page kind: modules that begin something, those asked for before, those that are named for later."""
    environment = Environment(loader=FileSystemLoader(OVERRIDES), autoescape=True)
    shell = SimpleNamespace(kind=kind, asset=lambda name: name)
    text = environment.get_template("partials/scripts.html").render(shell=shell)
    begun = re.findall(r'<script type="module" src="js/([^"]+)\.js"', text)
    before = re.findall(r'<link rel="modulepreload" href="js/([^"]+)\.js">', text)
    later = re.findall(r'data-later="([^"]+)"', text)
    return set(begun), before, [name for names in later for name in names.split()]


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_asks_at_once_for_what_it_runs_and_for_nothing_else(kind: str) -> None:
    begun, before, _ = asked(kind)
    # The home page is there for its finder, which begins without a press.
    finding = resolved("finder", LATER.findall(source("finder"))) if kind == "home" else set()
    assert sorted(before) == sorted(whole(begun | finding) - begun)


def test_what_a_press_needs_is_asked_for_at_once_too() -> None:
    finding = resolved("finder", LATER.findall(source("finder")))
    assert whole(finding) - whole({"finder", "strip"}) == finding
    begun, _, later = asked("code")
    assert sorted(later) == sorted(whole({"code-joint"}) - whole(begun))
