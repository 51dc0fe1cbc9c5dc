"""Rule pages: what is checked in an entry, why, and a mistake beside its mending; and the list of all rules."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby

from kbtools.linting.explained import Explained
from kbtools.pages import crumbs
from kbtools.pages.lines import Link
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec, Section
from kbtools.report.text import place_and_message
from kbtools.rules.families import family_of
from kbtools.rules.rule import Rule
from kbtools.wording import addresses
from kbtools.wording.labels import count_of

_CONSEQUENCE = {
    "error": "An error: nothing is published until it is mended.",
    "warning": "A warning: the site is published all the same.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleRow:
    """A rule in a list."""

    link: Link
    """Its page, by its title."""
    code: str
    """Such as KB402."""
    severity: str
    """`error` or `warning`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleGroup:
    """The rules of a family."""

    code: str
    """What their codes begin with, such as KB4."""
    title: str
    """What the family is about."""
    rows: tuple[RuleRow, ...]
    """Its rules, by code."""


Ask = Callable[[], Sequence[Explained]]
"""Asks for all rules."""


def pages(ask: Ask) -> Iterator[Planned]:
    """The list of all rules, and the page of each; no rules, no pages."""
    if ask():
        yield Planned(address=addresses.RULES, kind="rules", make=lambda: _all_rules([each.rule for each in ask()]))
    for place, each in enumerate(ask()):
        yield Planned(address=addresses.rule(each.rule.code), kind="rule", make=partial(_at, place, ask))


def _at(place: int, ask: Ask) -> PageSpec:
    rules = ask()
    around = [None, *(each.rule for each in rules), None]
    return _page(rules[place], around[place], around[place + 2])


def _page(each: Explained, before: Rule | None, after: Rule | None) -> PageSpec:
    rule = each.rule
    sections = (Section(id="wrong", title="Wrong"), Section(id="right", title="Right")) if each.bad else ()
    return PageSpec(
        address=addresses.rule(rule.code),
        kind="rule",
        title=f"{rule.code}: {rule.title}",
        description=f"{rule.what} {rule.why}",
        context={
            "rule": rule,
            "family": family_of(rule.code),
            "consequence": _CONSEQUENCE[rule.severity],
            "bad": each.bad,
            "good": each.good,
            "said": tuple(place_and_message(finding) for finding in each.findings),
            "before": None if before is None else _row(before),
            "after": None if after is None else _row(after),
        },
        crumbs=(crumbs.HOME_CRUMB, crumbs.RULES_CRUMB),
        sections=sections,
    )


def _all_rules(rules: Sequence[Rule]) -> PageSpec:
    groups = []
    for family, own in groupby(rules, key=lambda rule: family_of(rule.code)):
        rows = tuple(_row(rule) for rule in own)
        groups.append(RuleGroup(code=rows[0].code[:3], title=family, rows=rows))
    return PageSpec(
        address=addresses.RULES,
        kind="rules",
        title=crumbs.RULES_CRUMB.title,
        description=f"{count_of(len(rules), 'rule')} that every entry and every case is held to, and why.",
        context={"groups": tuple(groups), "rules": len(rules)},
        crumbs=(crumbs.HOME_CRUMB,),
        sections=tuple(Section(id=group.code.lower(), title=group.title) for group in groups),
    )


def _row(rule: Rule) -> RuleRow:
    link = Link(address=addresses.rule(rule.code), title=rule.title)
    return RuleRow(link=link, code=rule.code, severity=rule.severity)
