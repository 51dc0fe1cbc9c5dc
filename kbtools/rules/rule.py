"""What a rule is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from kbtools.diagnostics import Severity
from kbtools.model.base import KnowledgeBase
from kbtools.model.memory import Memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Breach:
    """What a rule found, before it is placed in the file."""

    path: str
    """File of the knowledge base, relative to its folder."""
    pointer: str
    """JSON pointer of the place; empty for the whole file."""
    message: str
    """What is wrong, one sentence."""
    hint: str
    """What to do about it, one sentence."""
    at_key: bool = False
    """The place is the key that the pointer ends in, not its value."""
    beside: str | None = None
    """Another file that it is about as well."""
    piece: str = ""
    """Of a text over several lines: what the finding is about, whose place in it is told."""
    index: int | None = None
    """In a hand-written page, which has no pointers: the place in its text, counted in code points from 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """The rule shown on a file of the sample base (`kbtools.rules.samples`): a piece of it, wrong and right.

    The tests put each into the file; the bad one must give this rule's finding and no other, the good one none.
    """

    path: str
    """File of the sample base, or a new one."""
    instead_of: str
    """The piece of that file in whose place `bad` or `good` is put; empty: the whole file."""
    bad: str | None
    """What the rule finds; None: that the file is not there."""
    good: str
    """How to write it."""
    encoding: str = "utf-8"
    """In which the bad one is saved."""
    good_path: str | None = None
    """Where the good one stands, if the name of the file is what the rule is about."""


Check = Callable[[KnowledgeBase, dt.date], Iterator[Breach]]
"""Given the whole base and the day that counts as today."""

CheckWith = Callable[[KnowledgeBase, dt.date, Memory | None], Iterator[Breach]]
"""The same with a memory, which may know parts of the work."""

Compare = Callable[[KnowledgeBase, KnowledgeBase], Iterator[Breach]]
"""Given the base as it was and as it is; places are those of the latter."""


Alone = Literal["any day", "this day"]
"""When what a rule has found in a file still holds as long as neither the file nor the club's lists change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One thing that is checked."""

    code: str
    """`KB` and three digits; the first is the family."""
    title: str
    """A few words."""
    severity: Severity
    """Whether it stops a build."""
    what: str
    """What it looks for."""
    why: str
    """Whom it would hurt otherwise."""
    sample: Sample | None
    """None where no one text shows it: rules about rules, pictures, changes, and what several cases share."""
    of_sound_files: bool = False
    """What it finds in files that have errors is not told: they will change anyway."""
    alone: Alone | None = None
    """What it finds in a file follows from that file and the club's lists alone; it sees no other entry, case or page.
    On any day (its `today` then says nothing), or on this day. None: it looks at several of them."""
    check: Check | None = None
    """None for the families KB1 and KB2, which arise while reading, and where only `compare` finds something."""
    check_with: CheckWith | None = None
    """As `check`, of a rule whose work is dear; it finds the same whatever the memory knows."""
    compare: Compare | None = None
    """What it finds in a change of the files, which none of the two states shows by itself."""
