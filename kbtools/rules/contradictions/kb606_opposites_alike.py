"""KB606: opposites in one group of words."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator

from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.vocabulary import WordGroup
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short
from kbtools.vocabulary.whole import Sides, stems_of


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Groups of `words.yml` of which two words name different sides of one row of opposites; each once."""
    if not base.words.groups:
        return
    sides = vocabulary(base).sides
    for group in base.words.groups:
        yield from itertools.islice(_of_group(group, sides), 1)


def _of_group(group: WordGroup, sides: Sides) -> Iterator[Breach]:
    named: dict[str, tuple[int, str]] = {}
    for number, phrase in enumerate(group.phrases):
        told = sides.get(stems_of(phrase), ())
        axes = [axis for axis, _ in told]
        for axis, side in told:
            # What stands on both sides itself is KB607's.
            if axes.count(axis) == 1:
                first = named.setdefault(axis, (side, phrase))
                if first[0] != side:
                    yield _breach(f"{group.at}/{number}", phrase, first[1], axis)


def _breach(pointer: str, phrase: str, first: str, axis: str) -> Breach:
    return Breach(
        path="words.yml",
        pointer=pointer,
        message=f'"{short(phrase)}" stands in one group with its opposite "{short(first)}" ({short(axis)}).',
        hint=f"Take one of them out; if they are no opposites here, add `without: [{short(first)}]`.",
    )


RULE = Rule(
    code="KB606",
    title="Opposites in one group",
    severity="error",
    what=(
        "In `words.yml`: a group that holds words of two sides of a row of opposites, the club's own or of those that "
        "come with the programs, such as high and low. What `without` names is no side of the latter."
    ),
    why="Two entries that say the contrary would be taken for one, and the finder would lead to the wrong one.",
    sample=Sample(path="words.yml", instead_of="", bad="- [rich, lean]\n", good="- [lean, thin]\n"),
    check=check,
)
