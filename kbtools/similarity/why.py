"""What carried a pair, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

_NAMES: Final = {
    "title": "title",
    "words": "words",
    "causes": "causes",
    "symptoms": "symptoms",
    "components": "components",
    "work": "fixes and checks",
    "codes": "codes",
    "applies_to": "machines",
    "system": "system",
    "bike": "bike",
    "vehicle": "model and year",
    "seen": "day",
    "odometer": "odometer",
    "fault": "fault",
    "cause": "cause",
}
"""Fields as they are told, the most telling first."""
_AGAINST: Final = {
    "opposites": "opposite words",
    "units": "another control unit",
    "failure": "another way of failing",
    "numbers": "other numbers",
    "denials": "one denies what the other says",
}
"""Fields that can only speak against a pair, as they are told where they do."""


def carried(fields: Mapping[str, float]) -> str:
    """How alike two entries are field by field: `causes 81 %, words 60 %, codes 100 %; but opposite words`."""
    alike = [f"{name} {round(100 * fields[key])} %" for key, name in _NAMES.items() if fields.get(key, 0.0) >= 0.005]
    against = [name for key, name in _AGAINST.items() if fields.get(key, 1.0) < 1.0]
    return ", ".join(alike) + (f"; but {' and '.join(against)}" if against else "")
