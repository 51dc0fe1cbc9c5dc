"""Rules whose findings in a file follow from that file and the club's lists alone: asked again only of what changed.

Such a rule is never given more: the base that it sees holds the lists (club, systems, models, checks, cautions, words)
and of entries, cases and pages only those that are to be looked at. So what is kept for a file cannot come from one
that is not looked at, and where the file and the lists are what they were, its findings are too.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict
from typing import Any, Final

from kbtools.diagnostics import as_finding
from kbtools.index.narrowed import lists_digest, narrowed, second_ones, stands_alone
from kbtools.linting.one_rule import MOST_BREACHES, Found, Ran, carried_out, in_documents
from kbtools.model.memory import Memory
from kbtools.model.pool import Pool, key
from kbtools.model.second import Second, by_itself
from kbtools.reading.reader import Reading
from kbtools.rules.rule import Alone, Rule

MUCH: Final = 1_000
"""So many files to look at are worth a second process."""
_NO_DAY: Final = dt.date.min
"""What a rule is given in the place of today that does not ask for it: one that did would be told nonsense."""


@contextmanager
def by_file(
    reading: Reading,
    rules: Sequence[Rule],
    today: dt.date,
    memory: Memory | None = None,
    second: Second = by_itself,
) -> Iterator[Callable[[], Mapping[str, Ran]]]:
    """Begin with those of the rules that look at one file at a time, and give what tells what they find, by code.

    Args:
        reading: what was read.
        rules: any.
        today: the day from which the next one is the future.
        memory: asked for the files first.
        second: has the files looked at meanwhile, if they are many.
    """
    days: Mapping[Alone, dt.date] = {"any day": _NO_DAY, "this day": today}
    of_days = [(when, [rule for rule in rules if rule.alone == when], day) for when, day in days.items()]
    parts = [_Files(reading, own, day, memory, when) for when, own, day in of_days if own]
    begin = second if sum(len(each.fresh) for each in parts) >= MUCH else by_itself
    with begin(lambda: [each.look() for each in parts]) as looked:
        yield lambda: _together(each.found(ran) for each, ran in zip(parts, looked(), strict=True))


def _together(found: Iterable[Mapping[str, Ran]]) -> Mapping[str, Ran]:
    return {code: ran for each in found for code, ran in each.items()}


class _Files:
    """The files as some rules look at them."""

    def __init__(
        self, reading: Reading, rules: Sequence[Rule], day: dt.date, memory: Memory | None, when: Alone
    ) -> None:
        self._reading, self._rules, self._day = reading, rules, day
        self._memory = memory
        self._paths = [path for path in reading.base.digests if stands_alone(path)]
        self._lists = lists_digest(reading.base)
        self._pool = Pool(memory, f"findings by file, {when}", self._lists)
        self._keys = self._named() if memory is not None else {}
        self.fresh: Sequence[str] = [path for path in self._paths if self._keys.get(path, b"") not in self._pool]
        """Those of which nothing is known."""

    def look(self) -> Mapping[str, Ran]:
        """What the rules find in the fresh ones and in the lists; needs no memory."""
        return self._look_at(self.fresh)

    def found(self, ran: Mapping[str, Ran]) -> Mapping[str, Ran]:
        """What the rules find in all of them, by code; `ran` is what `look` gave."""
        if len(self.fresh) == len(self._paths):
            whole = ran
        elif any(each.broke for each in ran.values()):
            whole = ran = self._look_at(self._paths)
        else:
            whole = self._joined(ran, self.fresh)
            if any(len(each.found) > MOST_BREACHES for each in whole.values()):
                whole = ran = self._look_at(self._paths)
        # Of a rule that broke nobody knows what it would have found where.
        if self._memory is not None and not any(each.broke for each in ran.values()):
            self._keep(ran, self.fresh)
        return whole

    def _look_at(self, paths: Collection[str]) -> Mapping[str, Ran]:
        base = narrowed(self._reading.base, frozenset(paths))
        place = in_documents(self._reading.documents)
        return {rule.code: carried_out(rule, base, self._day, place) for rule in self._rules}

    def _joined(self, ran: Mapping[str, Ran], fresh: Iterable[str]) -> Mapping[str, Ran]:
        """What is known of the other files, with what was found now in these and in the lists."""
        new = frozenset(fresh)
        rows: defaultdict[str, list[Found]] = defaultdict(list)
        for path in self._paths:
            if path not in new:
                for code, kept in (self._pool.get(self._keys[path]) or {}).items():
                    rows[code] += map(_found, kept)
        return {
            code: Ran(found=tuple(sorted((*each.found, *rows[code]), key=lambda found: found.finding.path)))
            for code, each in ran.items()
        }

    def _keep(self, ran: Mapping[str, Ran], fresh: Iterable[str]) -> None:
        rows: defaultdict[str, dict[str, list[Any]]] = defaultdict(dict)
        for code, each in ran.items():
            for found in each.found:
                rows[found.finding.path].setdefault(code, []).append(_row(found))
        for path in fresh:
            self._pool.put(self._keys[path], rows.get(path))
        self._pool.keep()

    def _named(self) -> Mapping[str, bytes]:
        """Path of a file → digest of all that its findings follow from."""
        base, documents = self._reading.base, self._reading.documents
        second = second_ones(base)
        codes = " ".join(rule.code for rule in self._rules)
        common = key(self._lists, codes.encode(), self._day.isoformat().encode())
        return {
            path: key(common, path.encode(), base.digests[path], _state(path, reading_of=documents, second=second))
            for path in self._paths
        }


def _state(path: str, *, reading_of: Mapping[str, Any], second: Collection[str]) -> bytes:
    """Whether it could be read, and whether another file has its id."""
    document = reading_of.get(path)
    return bytes([document is not None and document.text is None, path in second])


def _row(found: Found) -> list[Any]:
    return [asdict(found.finding), found.pointer, found.beside]


def _found(row: Sequence[Any]) -> Found:
    return Found(finding=as_finding(row[0]), pointer=row[1], beside=row[2])
