"""A live server whose build costs nothing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.live_desk import Desk, running


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    """One that runs, and has built once."""
    with running(Desk(tmp_path)) as desk:
        yield desk
