"""Writes a home page with the finder and its data, and nothing else: `python -m tests.benchmarks.finder_site KB TO`."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from jinja2 import Environment, FileSystemLoader

from kbtools.browser_data.finder import finder_files
from kbtools.edges.folder import load
from kbtools.edges.rendering import TEMPLATES
from kbtools.site.assets import json_files
from tests.support.places import ROOT

YEAR = 2026


def main() -> None:
    base, folder = map(Path, sys.argv[1:])
    shutil.copytree(ROOT / "site_overrides" / "assets", folder / "assets")
    for name, content in json_files(finder_files(load(base).base, YEAR, ())).items():
        file = folder / "data" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
    template = Environment(loader=FileSystemLoader(TEMPLATES), autoescape=True).get_template("_finder.html")
    finder = template.render(place="home", home_href="./", finder_data="data/")
    styles = "".join(f'<link rel="stylesheet" href="assets/css/{name}.css">' for name in ("tokens", "base", "finder"))
    head = f'<meta charset="utf-8"><title>Finder</title><link rel="icon" href="data:,">{styles}'
    script = '<script type="module" src="assets/js/finder.js"></script>'
    # What the finder needs of the strip below the header of each page.
    strip = "<p><button data-bike-choose data-bike-name></button><button data-bike-drop></button></p>"
    body = f'<header>{finder}</header>{strip}<main id="content"></main>'
    (folder / "index.html").write_text(f"<!doctype html><html><head>{head}{script}</head><body>{body}</body></html>")


if __name__ == "__main__":
    main()
