"""Sentences about dangerous work, and about the same work done right, with what the rules of KB5 say of each.

`choose.yml` and `further.yml` are there to choose words on. `kept.yml` was never looked at while words were chosen, so
what is measured on it is what a new entry meets: whoever adds words looks at the first two only.

`python -m tests.rules.danger` measures all three.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal

import yaml

from kbtools.edges.rulebook import rulebook
from kbtools.linting.run import Rulebook
from kbtools.rules import samples
from tests.support.checked_samples import FAULT, findings
from tests.support.yaml_files import SAFE

HERE: Final = Path(__file__).parent
FIRST, LAST = "KB551", "KB561"
"""Codes of the rules about unsafe work."""
Place = Literal["do", "fix", "why"]
PLACES: Final[tuple[Place, ...]] = ("do", "fix", "why")
"""Where a sentence is put: a check's `do`, a fix's summary, the reason of the ride advice."""
_PIECES: Final = {
    "do": "Pull the plug and look for green terminals.",
    "fix": "Cut back and crimp new terminals.",
    "why": "A flat battery stops the engine.",
}
"""What stands there in the sample entry."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """A sentence of a set."""

    kind: str
    """The danger, or the one that it might be mistaken for."""
    text: str
    """As a volunteer wrote it."""
    unsafe: bool
    """Whether a mechanic would never sign it."""


def sentences(name: str) -> Iterator[Sentence]:
    """The sentences of a set."""
    told = yaml.load((HERE / f"{name}.yml").read_text("utf-8"), Loader=SAFE)
    for key in ("unsafe", "safe"):
        for row in told[key]:
            yield Sentence(kind=row["kind"], text=row["text"], unsafe=key == "unsafe")


def said(sentence: Sentence, place: Place) -> list[str]:
    """The codes of the rules about unsafe work that say something of the sentence in a place of the sample entry."""
    entry = samples.FILES[FAULT].replace(_PIECES[place], json.dumps(sentence.text))
    return sorted({each.rule for each in findings({**samples.FILES, FAULT: entry}, book=_book())})


def _book() -> Rulebook:
    whole = rulebook()
    return Rulebook(rules=tuple(rule for rule in whole.rules if FIRST <= rule.code <= LAST), broken=whole.broken)
