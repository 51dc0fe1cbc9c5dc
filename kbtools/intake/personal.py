"""Which findings say that something leads to a person: a report that has one is never filed."""

from __future__ import annotations

from typing import Final

from kbtools.diagnostics import Finding

PERSONAL: Final = frozenset(f"KB{number}" for number in range(508, 519))
"""Rules about what leads to a person; the warnings among them as well, since nobody has looked at a report yet."""


def is_personal(finding: Finding) -> bool:
    """Whether it says that something leads to a person."""
    return finding.rule in PERSONAL
