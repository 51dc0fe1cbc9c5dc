"""Records as JSON: one record a line, so that a change is seen where it is, and no file larger than a host may take."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Final

from kbtools.text.terminal import escaped

Record = Mapping[str, object]
"""What becomes an object. Its texts are as the files have them, hostile."""

MOST_BYTES: Final = 4_000_000
"""Of a list; a longer one goes on in another file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What the index says of a file."""

    count: int
    """Records of a list, rows of a table, 1 of anything else."""
    size: int
    """Its bytes."""
    sha256: str
    """Hexadecimal digest of its content."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exported:
    """A file as it is published."""

    content: bytes
    """Its bytes."""
    count: int
    """Records of a list, rows of a table, 1 of anything else."""

    @property
    def about(self) -> About:
        """What the index says of it."""
        return About(count=self.count, size=len(self.content), sha256=sha256(self.content).hexdigest())


def json_line(value: object) -> str:
    """A value as compact JSON; days are `YYYY-MM-DD`. What a terminal or a job's log would obey is an escape."""
    return escaped(json.dumps(value, ensure_ascii=False, separators=(",", ":"), default=_day))


def document(value: object) -> Exported:
    """A file with one thing in it."""
    return Exported(content=f"{json_line(value)}\n".encode(), count=1)


def lists(name: str, lines: Iterable[str], most: int = MOST_BYTES) -> Iterator[tuple[str, Exported]]:
    """The files of a list, with their names: `cases.json`, and where it grows beyond `most` bytes `cases-2.json`, ….

    A line is a record as `json_line` has it. Each file is `{"items": […]}`, and all but the last name the one after
    them under `next`, as it stands beside them.
    """
    stem, _, suffix = name.rpartition(".")
    names = (name if number == 1 else f"{stem}-{number}.{suffix}" for number in range(1, 1_000_000))
    parts = list(_parts(lines, most))
    own = [each for each, _ in zip(names, parts, strict=False)]
    for part, each, after in zip(parts, own, [*own[1:], None], strict=True):
        end = "" if after is None else f',"next":{json_line(after)}'
        text = '{"items":[\n' + ",\n".join(part) + f"\n]{end}}}\n"
        yield each, Exported(content=text.encode(), count=len(part))


def _parts(lines: Iterable[str], most: int) -> Iterator[list[str]]:
    """Lines by the file in which they stand; a list of nothing is a file too."""
    part: list[str] = []
    size = 0
    for line in lines:
        weight = len(line.encode()) + 2
        if part and size + weight > most:
            yield part
            part, size = [], 0
        part.append(line)
        size += weight
    yield part


def _day(value: object) -> str:
    if isinstance(value, dt.date):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} has no place in JSON")
