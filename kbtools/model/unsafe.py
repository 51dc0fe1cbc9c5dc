"""Which words tell that work hurts somebody, as `kbtools/vocabulary/work/unsafe.yml` says it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Idea:
    """A thing, a deed or a state, in all the ways in which it is said."""

    name: str
    """As the rows call it."""
    phrases: tuple[str, ...]
    """Its phrases; the file's first lines say what stands in one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnsafeRow:
    """What makes up one danger: its ideas in one sentence."""

    kind: str
    """The danger."""
    act: tuple[str, ...]
    """Ideas that must be there close together and be asked for, not forbidden."""
    state: str | None
    """How the machine must be meanwhile; None: however it is."""
    having: tuple[str, ...]
    """Further ideas, anywhere in the sentence."""
    unless: tuple[str, ...]
    """Ideas anywhere in the text that make it right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnsafeWords:
    """The whole file."""

    ideas: tuple[Idea, ...] = ()
    """All that the rows name."""
    states: tuple[tuple[str, str], ...] = ()
    """States that exclude each other, such as running and stopped: of two the nearer one holds."""
    rows: tuple[UnsafeRow, ...] = ()
    """All dangers."""


NO_UNSAFE_WORDS = UnsafeWords()
"""For whoever looks for none."""
