"""Where each open format stands on the site."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from kbtools.export.cases_csv import cases_csv
from kbtools.export.causes_csv import causes_csv
from kbtools.export.faults_csv import faults_csv
from kbtools.index.answers import Index

FILES: Final[Mapping[str, Callable[[Index], str]]] = {
    "api/v1/faults.csv": faults_csv,
    "api/v1/causes.csv": causes_csv,
    "api/v1/cases.csv": cases_csv,
}
"""Path from the site's root → what makes its text."""


def export_files(index: Index) -> dict[str, bytes]:
    """Every open format, by its path from the site's root, in UTF-8."""
    return {path: make(index).encode() for path, make in FILES.items()}
