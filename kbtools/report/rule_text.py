"""A rule explained on a terminal, and the list of all rules."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

import click

from kbtools.linting.explained import Excerpt, Explained
from kbtools.report.text import place_and_message
from kbtools.rules.families import family_of
from kbtools.rules.rule import Rule
from kbtools.text.terminal import shown


def listed(rules: Iterable[Rule]) -> str:
    """All rules by family: code, severity and title."""
    lines = []
    for family, own in groupby(rules, key=lambda rule: family_of(rule.code)):
        rows = list(own)
        lines += [f"{rows[0].code[:3]} {family}", *(f"  {_head(rule)}" for rule in rows), ""]
    return "\n".join(lines) + "\nkbtools rules CODE explains one of them, such as kbtools rules KB301.\n"


def told(each: Explained, *, colour: bool) -> str:
    """What a rule looks for, why, what a mistake looks like and what is said of it, and how to write it."""
    rule = each.rule
    parts = [click.style(_head(rule), bold=True) if colour else _head(rule)]
    parts += [click.wrap_text(f"{text}", 88) for text in (rule.what, rule.why)]
    if each.bad:
        parts += ["Wrong:", *(_excerpt(excerpt, ">", "red", colour) for excerpt in each.bad)]
        parts += ["What is said of it:"]
        parts += ["\n".join(f"  {line}" for line in place_and_message(finding)) for finding in each.findings]
        parts += ["Right:", *(_excerpt(excerpt, "+", "green", colour) for excerpt in each.good)]
    return "\n\n".join(parts) + "\n"


def _head(rule: Rule) -> str:
    return f"{rule.code} {rule.severity:<7} {rule.title}"


def _excerpt(excerpt: Excerpt, sign: str, fg: str, colour: bool) -> str:
    """The lines with their numbers; those that differ from the other sample with a sign before them."""
    lines = [f"  {shown(excerpt.path)}"]
    for line in excerpt.lines:
        if line.after_gap:
            lines.append("        ...")
        text = f"  {sign if line.differs else ' '} {line.number:>3} | {shown(line.text)}"
        lines.append(click.style(text, fg=fg) if colour and line.differs else text)
    return "\n".join([*lines, *_note(excerpt.note)])


def _note(note: str | None) -> Sequence[str]:
    return () if note is None else (f"    ({note})",)
