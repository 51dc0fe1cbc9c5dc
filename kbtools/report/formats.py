"""The formats that `kbtools check --format` knows. A new one is a module beside this one and a line here."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from kbtools.diagnostics import Finding
from kbtools.report import as_json, github, sarif, text
from kbtools.report.context import ReportContext

FORMATS: Mapping[str, Callable[[Sequence[Finding], ReportContext], str]] = {
    "text": text.render,
    "json": as_json.render,
    "github": github.render,
    "sarif": sarif.render,
}
"""Name to the function that renders the findings."""
