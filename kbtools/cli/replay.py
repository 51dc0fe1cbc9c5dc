"""`kbtools replay`: how often the advice was right."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import checked, day, kb_option, report
from kbtools.cli.output import say
from kbtools.edges import cache
from kbtools.index.build import build_index
from kbtools.text.terminal import json_text


@click.command(name="replay")
@kb_option
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def replay_command(folder: Path, form: str) -> None:
    r"""Hold each counted case against the advice that the cases seen before it give.

    \b
    share      how likely its cause was called, of the causes of its fault
    place      of its cause among them, 1 the likeliest
    fault      how likely the plan for its codes called its fault
    plan, over, likeliest
               what the plan, handing over at once and going after the
               likeliest cause first would have cost with that cause, on
               average over what the checks may show, for an owner of whom
               nothing is known
    paid       parts and labour, as the case says

    Then, over all of them, two scores and how often what was called came true. The curators knew some of these bikes
    when they wrote the entries: it is no test on unknown ones.
    """
    # They load scipy, and the other commands do without it.
    from kbtools.replay import replay, replay_record  # noqa: PLC0415
    from kbtools.report.replay import render  # noqa: PLC0415

    result = checked(folder)
    if result.base.club is None:
        report(result, folder)
        raise SystemExit(1)
    index = build_index(result.base, day())
    with cache.opened(cache.place(), day().toordinal()) as memory:
        rows = replay(index, memory)
    say(json_text(replay_record(rows)) if form == "json" else render(rows, index.club.currency))
