"""The formats that `kbtools check --format` knows. A new one is a module beside this one and a line here."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from kbtools.diagnostics import Finding
from kbtools.report import as_json, text

FORMATS: Mapping[str, Callable[[Sequence[Finding]], str]] = {"text": text.render, "json": as_json.render}
"""Name to the function that renders the findings."""
