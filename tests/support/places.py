"""Where things lie, and how a test has a folder served."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Final

TESTS: Final = Path(__file__).parents[1]
ROOT: Final = TESTS.parent
DEMO: Final = ROOT / "kb"
VECTORS: Final = TESTS / "vectors"

Serve = Callable[..., str]
"""From a folder (and `below="/a/path/"`) to the address at which it is served."""
