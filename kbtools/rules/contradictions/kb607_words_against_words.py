"""KB607: words.yml contradicts itself."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping

from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.vocabulary import WordGroup, Words
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short
from kbtools.vocabulary.whole import Sides, Stems, stems_of


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Words that two rows of `words.yml` put on both sides."""
    words = base.words
    yield from _on_two_sides(words)
    yield from _same_and_apart(words)
    yield from _dangerous_and_harmless(words)
    if words.groups:
        yield from _in_two_groups(words, vocabulary(base).sides)


def _on_two_sides(words: Words) -> Iterator[Breach]:
    for axis in words.opposites:
        first: dict[Stems, int] = {}
        for side, phrases in enumerate(axis.sides):
            for number, phrase in enumerate(phrases):
                if first.setdefault(stems_of(phrase), side) != side:
                    message = f'"{short(phrase)}" stands on two sides of "{short(axis.name)}".'
                    hint = "Leave it on the side that it names, and take it out of the other."
                    yield _breach(f"{axis.at}/sides/{side}/{number}", message, hint)


def _same_and_apart(words: Words) -> Iterator[Breach]:
    apart = [(row, {stems_of(each) for each in row.phrases}) for row in words.apart]
    for group in words.groups:
        for _, ways in apart:
            told = [(number, each) for number, each in enumerate(group.phrases) if stems_of(each) in ways]
            if len({stems_of(each) for _, each in told}) > 1:
                number, phrase = told[-1]
                message = f'"{short(phrase)}" and "{short(told[0][1])}" are one here, and `apart` denies it.'
                yield _breach(f"{group.at}/{number}", message, "Take them out of this group, or out of `apart`.")


def _dangerous_and_harmless(words: Words) -> Iterator[Breach]:
    dangers = {stems_of(each) for _, phrases in words.dangers for each in phrases}
    for number, phrase in enumerate(words.harmless):
        if stems_of(phrase) in dangers:
            message = f'"{short(phrase)}" is called harmless here, and a danger under `danger`.'
            yield _breach(f"/harmless/{number}", message, "Take it out of one of the two.")


def _in_two_groups(words: Words, sides: Sides) -> Iterator[Breach]:
    """Groups that share a word are one; that makes opposites the same which no group calls so."""
    joined: dict[Stems, list[WordGroup]] = {}
    for group in words.groups:
        if group.kind not in {"same", "parts"}:
            continue
        for number, phrase in enumerate(group.phrases):
            way = stems_of(phrase)
            for other in joined.get(way, ()):
                clash = _clash(group, other, sides)
                if clash is not None:
                    message = f'"{short(phrase)}" makes this group one with another, and then {clash} are the same.'
                    yield _breach(f"{group.at}/{number}", message, "Take it out of one of the two groups.")
                    break
            joined.setdefault(way, []).append(group)


def _clash(one: WordGroup, other: WordGroup, sides: Sides) -> str | None:
    """Two opposites, quoted, of which each group has one and neither group both."""
    mine, theirs = _named(one, sides), _named(other, sides)
    for axis, told in mine.items():
        against = theirs.get(axis, {})
        if len(told) == 1 and len(against) == 1 and not told.keys() & against.keys():
            return f'"{short(next(iter(told.values())))}" and "{short(next(iter(against.values())))}"'
    return None


def _named(group: WordGroup, sides: Sides) -> Mapping[str, Mapping[int, str]]:
    found: dict[str, dict[int, str]] = {}
    for phrase in group.phrases:
        for axis, side in sides.get(stems_of(phrase), ()):
            found.setdefault(axis, {}).setdefault(side, phrase)
    return found


def _breach(pointer: str, message: str, hint: str) -> Breach:
    return Breach(path="words.yml", pointer=pointer, message=message, hint=hint)


RULE = Rule(
    code="KB607",
    title="words.yml contradicts itself",
    severity="error",
    what=(
        "In `words.yml`: a word on two sides of one row of `opposites`; words that stand in one group and in one row "
        "of `apart`; a word of danger that is called harmless; a word that makes two groups one, so that opposites "
        "become the same."
    ),
    why="What the finder and the comparison of entries then do depends on the order of the rows.",
    sample=Sample(
        path="words.yml",
        instead_of="",
        bad="- [rich, heavy breathing]\n- [lean, heavy breathing]\n",
        good="- [rich, heavy breathing]\n- [lean, short of breath]\n",
    ),
    check=check,
)
