"""Holds the files of a knowledge base against the limits that are about all of them together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from kbtools.diagnostics import START, Finding
from kbtools.reading.layout import FileKind, Placed
from kbtools.reading.limits import MAX_BYTES, MOST_BYTES_IN_ALL, MOST_ENTRY_BYTES, MOST_FILES, MOST_OF
from kbtools.reading.source import SourceFile, form_error

_HINT = "Nothing was read. Take out what is no part of it, or make two knowledge bases of it."
_HINT_OF_KIND = "This one and those behind it were not read. Take out what is not needed, or make two knowledge bases."


def most_bytes(kind: FileKind | None) -> int:
    """How many bytes a file of a kind may have."""
    return MOST_ENTRY_BYTES if kind in {"model", "fault", "case", "page"} else MAX_BYTES


def gathered(files: Iterable[SourceFile]) -> list[SourceFile]:
    """All files, taken one by one; of too many only so many that one sees it, so that memory is bounded too."""
    taken: list[SourceFile] = []
    size = 0
    for file in files:
        taken.append(file)
        size += len(file.data or b"")
        if len(taken) > MOST_FILES or size > MOST_BYTES_IN_ALL:
            break
    return taken


def overfull(files: Sequence[SourceFile]) -> Finding | None:
    """That there is more than is read at all; it is said of the whole base, since any file may be the one too many."""
    message = None
    if len(files) > MOST_FILES:
        message = f"The knowledge base has more than {MOST_FILES:,} files."
    elif sum(len(each.data or b"") for each in files) > MOST_BYTES_IN_ALL:
        message = f"The files of the knowledge base have more than {MOST_BYTES_IN_ALL:,} bytes in all."
    return None if message is None else form_error("KB121", "club.yml", START, message, _HINT)


Files = list[tuple[Placed, SourceFile]]


def without_crowd(placed: Files) -> tuple[Files, list[Finding], frozenset[FileKind]]:
    """Leave out what is beyond the most files of a kind.

    Returns:
        The files that are left, a finding for each kind at the first file too many, and these kinds.
    """
    counts: Counter[FileKind | None] = Counter()
    left: Files = []
    found: dict[FileKind, Finding] = {}
    for where, file in placed:
        counts[where.kind] += 1
        most, name = MOST_OF.get(where.kind or "", (MOST_FILES, ""))
        if counts[where.kind] <= most:
            left.append((where, file))
        elif where.kind is not None and where.kind not in found:
            message = f"The knowledge base has more than {most:,} {name}."
            found[where.kind] = form_error("KB121", file.path, START, message, _HINT_OF_KIND)
    return left, list(found.values()), frozenset(found)
