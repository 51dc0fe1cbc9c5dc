"""What a change does to the published advice as Markdown, for the page of a proposal. Every text in it is hostile."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

from kbtools.changes.compare import Change, Compared
from kbtools.report.changes import SMALL, by_weight, counted, reasons, rows, signs, unread
from kbtools.text.terminal import shown

_ACTS = re.compile(r"[\\`*_{}\[\]()#.!|~:@/]|^[-+]")
"""What Markdown and the hosts of repositories act upon: marks, links, mentions, numbers of issues."""
MOST = 60
"""Faults shown with all that changes; a page that says more is read by nobody, and hosts cut it off."""


def render(compared: Compared, currency: str) -> str:
    """A heading, what counts, milder advice first, and a table for each fault."""
    return "\n".join(_lines(compared, currency)) + "\n"


def plain(text: str) -> str:
    """A text of an author, of which nothing acts: it reads as it was written."""
    return _ACTS.sub(lambda mark: f"&#{ord(mark[0])};", html.escape(shown(" ".join(text.split()))))


def _lines(compared: Compared, currency: str) -> Iterator[str]:
    yield "## What this does to the published advice"
    yield ""
    yield plain(counted(compared.changes))
    if compared.club_keys:
        yield ""
        yield f"club.yml: {plain(', '.join(compared.club_keys))}"
    for sentence in unread(compared):
        yield ""
        yield plain(sentence)
    large, small = by_weight(compared.changes)
    for change in large[:MOST]:
        yield from _change(change, currency)
    left = len(large) - MOST
    if left > 0:
        yield ""
        yield f"And {left} more; `kbtools changes` lists them."
    for why, faults in small.items():
        yield ""
        yield f"{SMALL} because of {plain(why)}: {plain(', '.join(faults))}"


def _change(change: Change, currency: str) -> Iterator[str]:
    kind = "**milder**" if change.milder else {"changed": "", "new": "new", "gone": "no longer advice"}[change.state]
    yield ""
    yield f"### {plain(change.title)}{f' ({kind})' if kind else ''}"
    yield ""
    told = list(rows(change, currency))
    if told:
        yield "| | before | now |"
        yield "|---|---|---|"
        yield from (f"| {plain(name)} | {plain(old)} | {plain(new)} |" for name, old, new in told)
        yield ""
    gone, come = signs(change)
    yield from (f"- No longer said: {plain(each)}" for each in gone)
    yield from (f"- Said now: {plain(each)}" for each in come)
    if gone or come:
        yield ""
    yield f"{plain(change.fault)}, because of {plain(reasons(change))}"
