"""What a repository's log tells of entries and cases: on which day which of them came, and what became of them.

A day is that of the commit by which a change came onto the branch that is published. What stands in the first commit
that is known, of a repository or of the part of it that was fetched, has no day: nobody knows when it came.
"""

from __future__ import annotations

import datetime as dt
import itertools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import Any, Final, NamedTuple

from kbtools.model.fault import NOTICES
from kbtools.reading.limits import MOST_ENTRY_BYTES
from kbtools.reading.tree import Mapping as Node
from kbtools.reading.tree import Scalar, parse
from kbtools.reading.tree import Sequence as Rows

MOST_ENTRIES: Final = 200
"""So many changes of entries are looked into, the latest ones: news are what is new."""
_HEAD: Final = re.compile(r"[0-9a-f]+(?: [0-9a-f]+)*\x02(?P<seconds>-?[0-9]{1,18})")
"""Parents and seconds of a commit; the first one has no parents."""
_ABOUT: Final = re.compile(r":[0-7]{6} [0-7]{6} (?P<before>[0-9a-f]+) (?P<after>[0-9a-f]+) [A-Z][0-9]*")


class Row(NamedTuple):
    """A file in a commit."""

    path: str
    """From the knowledge base's folder."""
    before: str | None
    """Id of its content; None: it was not there."""
    after: str | None
    """Likewise; None: it is gone."""


class Touched(NamedTuple):
    """An entry in a commit."""

    day: dt.date
    """Of the commit, UTC."""
    before: str | None
    """Id of the content of its file; None: there was no entry of that id."""
    after: str | None
    """Likewise."""


class Event(NamedTuple):
    """Something that happened to an entry."""

    day: dt.date
    """Of the commit."""
    kind: str
    """`new`, `reviewed`, `advice`, `withdrawn`, `notice`."""
    id: str
    """The entry's id at that time."""
    was: str
    """Of `advice` the level before."""
    now: str
    """Of `advice` the level since, of `reviewed` the day that the entry names, of `notice` which one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What the log tells."""

    events: tuple[Event, ...] = ()
    """The latest first."""
    came: Mapping[str, dt.date] = field(default_factory=dict)
    """Id of a case → the day on which it came."""


NO_HISTORY: Final = History()
"""Where there is no repository."""


class _Told(NamedTuple):
    """What an entry said at one time."""

    is_advice: bool
    withdrawn: bool
    level: str
    reviewed: str
    notices: frozenset[str]
    old_ids: frozenset[str]


def commits(log: bytes) -> Iterator[tuple[dt.date, list[Row]]]:
    """Day and files of each commit of a log, in its order; without those before which nothing is known.

    `log` is `git log -z --raw --no-abbrev --format=%x01%P%x02%ct`.
    """
    for part in log.decode("utf-8", "backslashreplace").split("\x01")[1:]:
        head, *fields = part.split("\0")
        found = _HEAD.fullmatch(head.strip())
        day = _day(int(found["seconds"])) if found is not None else None
        if day is not None:
            yield day, list(_rows(fields))


def _day(seconds: int) -> dt.date | None:
    """None: whoever made the commit has made its day up, and there is none like it."""
    try:
        return dt.datetime.fromtimestamp(seconds, dt.UTC).date()
    except (OverflowError, OSError, ValueError):
        return None


def _rows(fields: Sequence[str]) -> Iterator[Row]:
    told = [each.strip("\n") for each in fields]
    for about, path in itertools.pairwise(told):
        found = _ABOUT.fullmatch(about)
        if found is not None:
            yield Row(path=path, before=_blob(found["before"]), after=_blob(found["after"]))


def _blob(name: str) -> str | None:
    return None if not name.strip("0") else name


def entries_touched(found: Iterable[tuple[dt.date, Sequence[Row]]]) -> Iterator[tuple[str, Touched]]:
    """The entries of some commits, by id: one that only moves to another folder stays itself."""
    for day, rows in found:
        before = {_id(row.path): row.before for row in rows if _is(row.path, "faults") and row.before is not None}
        after = {_id(row.path): row.after for row in rows if _is(row.path, "faults") and row.after is not None}
        for each in dict.fromkeys([*after, *before]):
            yield each, Touched(day=day, before=before.get(each), after=after.get(each))


def case_days(found: Iterable[tuple[dt.date, Sequence[Row]]]) -> dict[str, dt.date]:
    """Id of a case → the day on which its file came; the first, where it came more than once."""
    days: dict[str, dt.date] = {}
    for day, rows in found:
        days |= {_id(row.path): day for row in rows if _is(row.path, "cases") and row.before is None}
    return days


def events(touched: Sequence[tuple[str, Touched]], contents: Mapping[str, bytes]) -> Iterator[Event]:
    """What happened to entries, in the order of the changes.

    Args:
        touched: the changes, by id of the entry.
        contents: of the files, by their ids.
    """
    known = {blob: _told(content) for blob, content in contents.items()}
    gone = {(change.day, each): change.before for each, change in touched if change.after is None}
    for each, change in touched:
        now = known.get(change.after or "")
        if now is None:
            continue
        old = change.before or next((gone[change.day, old] for old in now.old_ids if (change.day, old) in gone), None)
        was = known.get(old or "")
        # What could not be read before tells nothing of what is new.
        if old is None or was is not None:
            yield from _between(each, change.day, was, now)


def _between(entry: str, day: dt.date, was: _Told | None, now: _Told) -> Iterator[Event]:
    if now.withdrawn and not (was is not None and was.withdrawn):
        yield Event(day=day, kind="withdrawn", id=entry, was="", now="")
    if not now.is_advice:
        return
    if was is None or not was.is_advice:
        yield Event(day=day, kind="new", id=entry, was="", now="")
    elif was.level != now.level and was.level and now.level:
        yield Event(day=day, kind="advice", id=entry, was=was.level, now=now.level)
    if was is None or was.reviewed != now.reviewed:
        yield Event(day=day, kind="reviewed", id=entry, was="", now=now.reviewed)
    for each in sorted(now.notices - (was.notices if was is not None else frozenset())):
        yield Event(day=day, kind="notice", id=entry, was="", now=each)


def _told(content: bytes) -> _Told | None:
    if len(content) > MOST_ENTRY_BYTES:
        return None
    try:
        root, _ = parse("", content.decode("utf-8"))
    except UnicodeDecodeError:
        return None
    if not isinstance(root, Node):
        return None
    draft, withdrawn = _text(root, "draft") == "true", "withdrawn" in root.entries
    return _Told(
        is_advice=not draft and not withdrawn,
        withdrawn=withdrawn and not draft,
        level=_text(root, "ride_advice", "level"),
        reviewed=_text(root, "reviewed", "on"),
        notices=frozenset(_notices(root)),
        old_ids=frozenset(each.value for each in _items(root, "formerly") if isinstance(each, Scalar)),
    )


def _notices(root: Node) -> Iterator[str]:
    for row in _items(root, "sources"):
        if isinstance(row, Node) and _text(row, "kind") in NOTICES:
            yield notice_key(_text(row, "kind"), _text(row, "issuer"), _text(row, "number") or _text(row, "title"))


def notice_key(kind: str, issuer: str, name: str) -> str:
    """What tells one recall or bulletin from another."""
    return "\n".join((kind, issuer, name))


def _at(node: object, key: str) -> Any:
    return node.entries[key][1] if isinstance(node, Node) and key in node.entries else None


def _text(node: object, *keys: str) -> str:
    for key in keys:
        node = _at(node, key)
    return node.value if isinstance(node, Scalar) else ""


def _items(node: Node, key: str) -> Sequence[Any]:
    rows = _at(node, key)
    return rows.items if isinstance(rows, Rows) else ()


def _id(path: str) -> str:
    return PurePosixPath(path).stem


def _is(path: str, kind: str) -> bool:
    parts = PurePosixPath(path).parts
    return len(parts) == 3 and parts[0] == kind and path.endswith(".yml")


def as_json(history: History) -> dict[str, Any]:
    """What JSON can hold."""
    return {
        "events": [(each.day.isoformat(), *each[1:]) for each in history.events],
        "came": {each: day.isoformat() for each, day in history.came.items()},
    }


def from_json(kept: Mapping[str, Any]) -> History:
    """The way back."""
    return History(
        events=tuple(Event(dt.date.fromisoformat(day), *rest) for day, *rest in kept["events"]),
        came={each: dt.date.fromisoformat(day) for each, day in kept["came"].items()},
    )
