"""Typed values of `checks.yml`."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.model.shared import SharedCheck
from kbtools.reading.rows import Row
from kbtools.reading.typed_check import own
from kbtools.reading.typed_fault import sources


def shared_checks(row: Row, damaged: frozenset[str], unsaid: float) -> Iterator[SharedCheck]:
    """The checks that faults share, in file order.

    Args:
        row: the file.
        damaged: JSON pointers of what could not be read of it.
        unsaid: what a check finds that does not say.
    """
    for each in row.rows("checks"):
        if each.has("id"):
            yield SharedCheck(
                check=own(each, unsaid),
                sources=sources(each),
                look_first_for=each.texts("look_first_for"),
                whole=not any(lost == each.at or lost.startswith(f"{each.at}/") for lost in damaged),
            )
