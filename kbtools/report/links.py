"""What came back from the links: for a terminal, at the lines of a pull request, as an issue, and as JSON."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.diagnostics import Mark
from kbtools.links.answer import Answer
from kbtools.report.changes_markdown import plain
from kbtools.report.github import command
from kbtools.text.terminal import json_text, shown

MOST: Final = 100
"""Rows of an issue; more fits into none."""
_STATES: Final = {"dead": "dead", "unsure": "not sure", "there": "there"}

_SEVERITIES: Final = {"dead": "error", "unsure": "warning"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """Where a link stands."""

    path: str
    """File, from the current directory."""
    mark: Mark
    """Line and column."""
    archived: bool
    """Whether it stands there as an archived copy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One link."""

    url: str
    """Hostile."""
    answer: Answer | None
    """None: it was not asked this time."""
    reserved: bool
    """Whether its host's name is one for examples, which nobody asks."""
    stands: tuple[Stand, ...]
    """Where it stands, at least one."""

    @property
    def state(self) -> str:
        """What came of it."""
        return "not-asked" if self.answer is None else self.answer.state


def render_text(rows: Sequence[Row]) -> str:
    """A line for each place of a link that is not there, the dead ones first, and how many there are."""
    lines = []
    for row, answer in _missing(rows):
        for stand in row.stands:
            place = f"{shown(stand.path)}:{stand.mark.line}:{stand.mark.column}"
            lines.append(f"{place}: {_STATES[answer.state]}: {shown(row.url)} ({shown(answer.said)})")
    return "".join(f"{line}\n" for line in [*lines, *([""] if lines else []), summary(rows)])


def render_github(rows: Sequence[Row]) -> str:
    """A command for each place of a link that is not there, and how many there are."""
    lines = [
        command(
            "error" if answer.state == "dead" else "warning", stand.path, stand.mark, _title(row), _told(row, answer)
        )
        for row, answer in _missing(rows)
        for stand in row.stands
    ]
    return "".join(f"{line}\n" for line in [*lines, summary(rows)])


def render_json(rows: Sequence[Row]) -> str:
    """A list of all links: `url`, `state` (there, dead, unsure, not-asked), `said`, `day`, `places`."""
    return json_text(
        [
            {
                "url": row.url,
                "state": row.state,
                "said": None if row.answer is None else row.answer.said,
                "day": None if row.answer is None else row.answer.day.isoformat(),
                "places": [
                    {
                        "path": each.path,
                        "line": each.mark.line,
                        "column": each.mark.column,
                        "archived": each.archived,
                    }
                    for each in row.stands
                ],
            }
            for row in rows
        ]
    )


def render_issue(rows: Sequence[Row]) -> str:
    """What died, as the body of an issue; empty where nothing did."""
    dead = [(row, answer) for row, answer in _missing(rows) if answer.state == "dead"]
    if not dead:
        return ""
    lines = [
        "These links lead nowhere any more. For each: name an archived copy (`archived`), or another source.",
        "",
    ]
    for row, answer in dead[:MOST]:
        stands = ", ".join(f"{plain(each.path)} line {each.mark.line}" for each in row.stands)
        lines.append(f"- [ ] {_title(row)} {plain(row.url)} ({plain(answer.said)}): {stands}")
    if len(dead) > MOST:
        lines += ["", f"And {len(dead) - MOST} more; `kbtools links` lists them."]
    return "".join(f"{line}\n" for line in [*lines, "", plain(summary(rows))])


def summary(rows: Sequence[Row]) -> str:
    """How many there are, in a sentence or three."""
    counted = Counter(row.state for row in rows)
    asked = sum(counted[state] for state in _STATES)
    said = [f"{_links(asked)} asked: {counted['there']} there, {counted['dead']} dead, {counted['unsure']} not sure."]
    reserved = sum(row.reserved for row in rows)
    if reserved:
        said.append(f"{reserved} not asked, since the names of their hosts are reserved for examples.")
    late = counted["not-asked"] - reserved
    if late:
        said.append(f"{late} not asked, since the time was over; they come first next time.")
    return " ".join(said)


def _missing(rows: Sequence[Row]) -> Iterator[tuple[Row, Answer]]:
    for state in ("dead", "unsure"):
        yield from ((row, row.answer) for row in rows if row.answer is not None and row.answer.state == state)


def _title(row: Row) -> str:
    return "Archived copy" if all(each.archived for each in row.stands) else "Link"


def _told(row: Row, answer: Answer) -> str:
    return f"{shown(row.url)}: {shown(answer.said)}."


def _links(count: int) -> str:
    return "1 link" if count == 1 else f"{count} links"
