"""Words and what they mean to each other, as a vocabulary file says it: ours, or a club's `words.yml`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

Group = tuple[str, ...]
"""Words and names of one group, in the order of their row."""

GroupKind = Literal["same", "parts", "slang", "kin"]
"""What a group holds: words that mean the same, names of one part, what people say for it, what is only near."""
GROUP_KINDS: Final[tuple[GroupKind, ...]] = ("same", "parts", "slang", "kin")
"""The keys under which groups stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WordGroup:
    """A group of words and names that may stand for each other."""

    kind: GroupKind
    """What it holds."""
    phrases: Group
    """As they are written."""
    at: str
    """JSON pointer of its row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """Sides that exclude each other."""

    name: str
    """What it is called."""
    sides: tuple[Group, ...]
    """Words and phrases of each side."""
    neither: Group = ()
    """Phrases that name no side, though a word of them would."""
    place: bool = False
    """Whether its sides say where or which, and not how: "no front brake" is about the front all the same."""
    at: str = ""
    """JSON pointer of its row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What one file says."""

    source: str = ""
    """The name of the file without its ending."""
    groups: tuple[WordGroup, ...] = ()
    """Groups of words that may stand for each other."""
    opposites: tuple[Axis, ...] = ()
    """What excludes each other."""
    neither: Group = ()
    """Phrases that name no side of any axis."""
    dangers: tuple[tuple[str, Group], ...] = ()
    """Kind of danger, with words and names of what is dangerous in that way."""
    harmless: Group = ()
    """Words of parts that bear the name of something dangerous and are worked on without opening it."""
    fails: tuple[Group, ...] = ()
    """Ways in which a part fails, each with the words for it."""
    codes: tuple[Group, ...] = ()
    """Words that stand for each other in the meanings of codes, and only there."""
    opposite_codes: tuple[Group, ...] = ()
    """Pairs of words that exclude each other there."""
    apart: tuple[WordGroup, ...] = ()
    """Words that do not mean the same, whatever another file says."""
    without: Group = ()
    """Words about which other files say nothing."""


NO_WORDS: Final = Words()
"""For whoever has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """The vocabulary that comes with the programs, unread: most runs need none of it.

    `kbtools.vocabulary.whole` makes something of it.
    """

    files: tuple[tuple[str, str], ...] = ()
    """Name of each file without its ending, and its text, YAML."""
    unsafe: str = ""
    """The text of `kbtools/vocabulary/work/unsafe.yml`, YAML: `kbtools.vocabulary.unsafe` makes something of it."""


NO_TABLES: Final = Tables()
"""For whoever compares nothing."""
