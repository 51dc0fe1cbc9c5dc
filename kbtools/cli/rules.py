"""`kbtools rules`: what is checked, and why."""

from __future__ import annotations

from typing import Any

import click

from kbtools.cli.common import day
from kbtools.cli.output import misuse, say, stream, wants_colour
from kbtools.edges import cache
from kbtools.edges.rulebook import explained_rules, rulebook
from kbtools.rules.families import family_of
from kbtools.rules.rule import Rule
from kbtools.text.nearest import did_you_mean
from kbtools.text.terminal import json_text


@click.command()
@click.argument("codes", nargs=-1, metavar="[KBnnn]…")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
# Every command takes it; the rules are the same for all knowledge bases.
@click.option("--kb", expose_value=False, hidden=True)
def rules(codes: tuple[str, ...], form: str) -> None:
    """List what is checked, or explain a rule: what, why, and how to write it."""
    today = day()
    # The other commands do without it.
    from kbtools.report import rule_text  # noqa: PLC0415

    wanted = [_rule(code) for code in codes]
    if form == "json":
        records = [_record(rule) for rule in wanted or rulebook().rules]
        say(json_text(records))
    elif wanted:
        with cache.opened(cache.place(), today.toordinal()) as memory:
            known = {each.rule.code: each for each in explained_rules(memory)}
        colour = wants_colour(stream())
        say("\n".join(rule_text.told(known[rule.code], colour=colour) for rule in wanted), colour=colour, fit=True)
    else:
        say(rule_text.listed(rulebook().rules), fit=True)


def _rule(code: str) -> Rule:
    """The rule that the user means.

    Raises:
        click.UsageError: there is no such rule.
    """
    known = {rule.code: rule for rule in rulebook().rules}
    typed = code.strip().upper()
    rule = known.get(typed) or known.get(f"KB{typed}")
    if rule is not None:
        return rule
    guess = did_you_mean(typed, known)
    hint = f"Did you mean {guess}?" if guess else "kbtools rules lists them all."
    raise misuse(f'There is no rule "{code}". {hint}')


def _record(rule: Rule) -> dict[str, Any]:
    return {
        "rule": rule.code,
        "family": family_of(rule.code),
        "severity": rule.severity,
        "title": rule.title,
        "what": rule.what,
        "why": rule.why,
    }
