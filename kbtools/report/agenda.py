"""What to do next, for a terminal, as Markdown and as JSON. Every text in it is hostile."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from kbtools.agenda.job import Job
from kbtools.report.changes_markdown import plain
from kbtools.text.terminal import json_text, shown
from kbtools.wording.agenda import JOBS, hours, summary

MOST = 40
"""Jobs that are shown; more than an afternoon's is read by nobody."""
_WIDTH = 100


def render_json(jobs: Sequence[Job]) -> str:
    """A list of `job`, `subject`, `why` and `minutes`, most useful first; all of them."""
    return json_text(
        [{"job": each.job, "subject": each.subject, "why": each.why, "minutes": each.minutes} for each in jobs]
    )


def render_text(jobs: Sequence[Job]) -> str:
    """A line for each job and its reason below."""
    lines = [summary(jobs)]
    for each in jobs[:MOST]:
        lines.append("")
        lines.append(f"{JOBS[each.job]}: {shown(each.subject)} ({hours(each.minutes)})")
        lines += textwrap.wrap(
            shown(each.why), _WIDTH, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False
        )
        lines.append(f"    {shown(each.path)}")
    return "".join(f"{line}\n" for line in [*lines, *_more(jobs)])


def render_markdown(jobs: Sequence[Job]) -> str:
    """A list to tick."""
    lines = ["## What to do next", "", plain(summary(jobs))]
    if jobs:
        lines.append("")
    for each in jobs[:MOST]:
        told = f"{JOBS[each.job]}: {each.subject} ({hours(each.minutes)})"
        lines.append(f"- [ ] **{plain(told)}** {plain(each.why)}")
    return "".join(f"{line}\n" for line in [*lines, *_more(jobs)])


def _more(jobs: Sequence[Job]) -> Iterator[str]:
    if len(jobs) > MOST:
        yield ""
        yield f"And {len(jobs) - MOST} more; kbtools agenda --format json has all."
