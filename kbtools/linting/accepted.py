"""What the club accepts: `accepted.yml` takes findings out at one place each, and is held to what is still needed.

The families KB0 to KB3 cannot be accepted: what cannot be read, has no form or names nothing cannot be published.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from kbtools.diagnostics import Finding
from kbtools.model.catalogue import Accepted
from kbtools.reading.reader import Reading
from kbtools.rules.freshness.kb707_needless_acceptance import RULE as NEEDLESS
from kbtools.rules.references.kb316_accepting_nothing import RULE as NOTHING
from kbtools.rules.references.kb317_not_acceptable import RULE as NEVER
from kbtools.rules.rule import Rule
from kbtools.text.nearest import did_you_mean

_FILE = "accepted.yml"
_FIXED = ("KB0", "KB1", "KB2", "KB3")
"""Families that cannot be accepted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A finding and where a rule has put it."""

    finding: Finding
    """As it is reported."""
    pointer: str | None
    """JSON pointer in its file; None where reading has found it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepting:
    """What comes of `accepted.yml`."""

    left: list[Finding]
    """Findings that stay, those about `accepted.yml` itself among them."""
    taken: list[Finding]
    """Findings that the club accepts."""


def accept(reading: Reading, places: Sequence[Place], rules: Collection[str], broken: Collection[str]) -> Accepting:
    """Take out what the club accepts.

    Args:
        reading: what was read, `accepted.yml` among it.
        places: everything that was found.
        rules: codes of all rules.
        broken: codes of the rules that broke down: what they would have found is not known.
    """
    rows = reading.base.accepted
    if not rows:
        return Accepting(left=[each.finding for each in places], taken=[])
    by_file: dict[tuple[str, str], list[Place]] = {}
    for place in places:
        by_file.setdefault((place.finding.rule, place.finding.path), []).append(place)
    taken: dict[int, Finding] = {}
    left: list[Finding] = []
    judged = _Judged(reading, places, frozenset(rules), frozenset(broken))
    for written in rows:
        row = dataclasses.replace(written, path=_from_base(written.path, reading))
        near = by_file.get((row.rule, row.path), [])
        meant = [] if _never(row.rule) else [each for each in near if _is_at(each, row, reading)]
        fresh = [each for each in meant if id(each) not in taken]
        taken.update((id(each), each.finding) for each in fresh)
        if not fresh:
            others = [each for each in near if id(each) not in taken and each not in meant]
            left += judged.problem(row, others, again=bool(meant))
    left += [each.finding for each in places if id(each) not in taken]
    return Accepting(left=left, taken=list(taken.values()))


def _from_base(path: str, reading: Reading) -> str:
    """A row's path as the base knows it: who copies it from a report has the folders before it as well."""
    parts = path.split("/")
    shorter = ("/".join(parts[start:]) for start in range(len(parts)))
    return next((each for each in shorter if each in reading.documents), path)


def _never(rule: str) -> bool:
    return rule.startswith(_FIXED) or rule == NEEDLESS.code


def _is_at(place: Place, row: Accepted, reading: Reading) -> bool:
    """Whether a finding is where a row says: by its pointer, or by a pointer to the same line and column.

    Who reads a finding sees a line and a column, and several pointers may lead there: to a mapping, to its first key.
    """
    if place.pointer is None:
        return False
    if place.pointer == row.pointer:
        return True
    document = reading.documents.get(row.path)
    if document is None or not document.is_yaml or row.pointer == "" or not document.has(row.pointer):
        return False
    return place.finding.mark in {document.value(row.pointer), document.key(row.pointer)}


class _Judged:
    """Says what is wrong with a row that takes nothing out."""

    def __init__(
        self, reading: Reading, places: Iterable[Place], rules: frozenset[str], broken: frozenset[str]
    ) -> None:
        self._reading = reading
        self._rules = rules
        self._broken = broken
        findings = [each.finding for each in places]
        # What cannot be read or names nothing may be why a rule that looks at several files is silent.
        self._unread = any(each.rule.startswith(("KB1", "KB2")) and each.path != _FILE for each in findings)
        self._loose = {each.path for each in findings if each.rule.startswith("KB3")}

    def problem(self, row: Accepted, others: Sequence[Place], *, again: bool) -> Iterator[Finding]:
        """The finding about a row, if there is any.

        Args:
            row: takes nothing out.
            others: what its rule has found at other places of its file.
            again: an earlier row takes out what it would.
        """
        if row.rule not in self._rules:
            hint = _guess(row.rule, self._rules) or "Take this row out, or write the rule that the finding names."
            yield self._about(NOTHING, row, "rule", f'There is no rule "{row.rule}".', hint)
        elif _never(row.rule):
            hint = "Mend what the rule has found, and take this row out."
            yield self._about(NEVER, row, "rule", f"What {row.rule} finds cannot be accepted.", hint)
        elif row.path not in self._reading.documents:
            hint = (
                _guess(row.path, self._reading.documents) or "Take this row out, or name the file as its path is now."
            )
            yield self._about(NOTHING, row, "path", f'There is no file "{_short(row.path)}".', hint)
        elif again:
            yield self._about(NEEDLESS, row, "", "A row above accepts this finding already.", "Take one of them out.")
        elif self._sure(row):
            yield self._needless(row, others)

    def _sure(self, row: Accepted) -> bool:
        """Whether the rule has nothing to find there, and is not only kept from it by another mistake."""
        return row.rule not in self._broken and not self._unread and row.path not in self._loose

    def _needless(self, row: Accepted, others: Sequence[Place]) -> Finding:
        pointers = [each.pointer for each in others if each.pointer]
        nearest = did_you_mean(row.pointer, pointers) or next(iter(pointers), None)
        hint = "Take this row out."
        if nearest is not None:
            hint = f'Did you mean "{nearest}"? If not, take this row out.'
        elif others:
            hint = "Leave `at` out if the whole file is meant."
        document = self._reading.documents[row.path]
        if row.pointer and document.is_yaml and not document.has(row.pointer):
            message = f'There is nothing at "{_short(row.pointer)}" in {row.path}.'
            return self._about(NEEDLESS, row, "at", message, hint)
        return self._about(NEEDLESS, row, "", f"{row.rule} finds nothing there.", hint)

    def _about(self, rule: Rule, row: Accepted, key: str, message: str, hint: str) -> Finding:
        pointer = f"{row.at}/{key}" if key else row.at
        mark = self._reading.documents[_FILE].value(pointer)
        return Finding(rule=rule.code, severity=rule.severity, path=_FILE, mark=mark, message=message, hint=hint)


def _guess(word: str, names: Iterable[str]) -> str | None:
    guess = did_you_mean(word, names)
    return None if guess is None else f'Did you mean "{guess}"?'


def _short(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:59]}…"
