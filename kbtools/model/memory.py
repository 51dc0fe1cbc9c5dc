"""What the pure rooms see of a store that lasts from run to run; an edge hands one in, or None."""

from __future__ import annotations

from typing import Any, Protocol


class Memory(Protocol):
    """Remembers what was worked out, by the name of the work and all that it was worked out from.

    The programs themselves need not be named: another version of them remembers nothing of this one.
    """

    def worked_out(self, work: str, asked: bytes) -> Any:
        """JSON, as it was kept; None where it was not."""

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        """Keep what JSON can hold."""
