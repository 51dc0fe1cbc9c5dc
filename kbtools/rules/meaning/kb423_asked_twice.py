"""KB423: a danger that nobody can ask for, or that two rows answer."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short
from kbtools.vocabulary.stems import sequence, telling


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Phrases of `stop_now` without a telling word, and those that are there already, endings and order aside."""
    seen: dict[frozenset[str], str] = {}
    for row in base.stop_now:
        for number, phrase in enumerate(row.asked):
            pointer = f"{row.at}/asked/{number}"
            words = frozenset(telling(sequence(phrase)))
            if not words:
                message = f'"{short(phrase)}" names nothing that a rider could ask for.'
                hint = "Name the lamp, the part or what is felt: oil pressure lamp."
                yield Breach(path="cautions.yml", pointer=pointer, message=message, hint=hint)
            elif words in seen:
                message = f'"{short(phrase)}" is asked for already, as "{short(seen[words])}".'
                hint = "Take it out, or put the two rows together: a rider is told one thing."
                yield Breach(path="cautions.yml", pointer=pointer, message=message, hint=hint)
            else:
                seen[words] = phrase


RULE = Rule(
    code="KB423",
    title="Danger asked for twice",
    severity="error",
    what="A phrase of `stop_now` in cautions.yml that names nothing, or that stands there twice.",
    why="A rider in the saddle would be told two things at once, or the same to every question.",
    sample=Sample(
        path="cautions.yml",
        instead_of="cautions:\n",
        bad="stop_now:\n  - {asked: [oil light], do: Engine off.}\n  - {asked: [oil lights], do: Stop.}\ncautions:\n",
        good="stop_now:\n  - {asked: [oil light], do: Engine off.}\n  - {asked: [smoke], do: Stop.}\ncautions:\n",
    ),
    check=check,
)
