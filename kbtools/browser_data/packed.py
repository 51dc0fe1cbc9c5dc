"""What the browser reads, as it is written: JSON without blanks, in UTF-8."""

from __future__ import annotations

import json


def json_bytes(value: object) -> bytes:
    """A value as compact JSON."""
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()
