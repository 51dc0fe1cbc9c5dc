"""What the rules have in common that look at every text: entries, cases, lists and hand-written pages alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.writing import TextKind, Writing
from kbtools.personal.span import Span, hidden
from kbtools.rules.rule import Breach

EVERYWHERE: frozenset[TextKind] = frozenset({"words", "link", "key", "page"})
WITHOUT_LINKS: frozenset[TextKind] = frozenset({"words", "key", "page"})

May = Callable[[str], bool]
"""Whether a text may hold what is looked for: quick, and never wrong with no."""


def suspects(base: KnowledgeBase, kinds: frozenset[TextKind], may_hold: May) -> Iterator[tuple[Writing, int]]:
    """The texts that may hold what is looked for: where they are written, and which one there.

    All texts of a file are asked about at once, with line ends between them, then each of those that may hold it: most
    files have nothing, and one question about a file costs less than sixty about its texts.
    """
    for writing in base.writings:
        if writing.kind in kinds and may_hold("\n".join(writing.texts)):
            for index, text in enumerate(writing.texts):
                if may_hold(text):
                    yield writing, index


def breach_at(writing: Writing, index: int, start: int, message: str, hint: str) -> Breach:
    """A finding in a text; in a page, which has no pointers, at the code point `start` of its text."""
    return Breach(
        path=writing.path,
        pointer=writing.pointers[index],
        message=message,
        hint=hint,
        at_key=writing.kind == "key",
        index=start if writing.kind == "page" else None,
    )


def each_once(writing: Writing, spans: Iterable[Span]) -> Iterator[Span]:
    """Of an entry's text the first span, since all of them have its place; of a page all."""
    for span in spans:
        yield span
        if writing.kind != "page":
            return


def personal(
    base: KnowledgeBase,
    kinds: frozenset[TextKind],
    may_hold: May,
    find: Callable[[str], Iterable[Span]],
    words: tuple[str, str],
) -> Iterator[Breach]:
    """Everything of one kind that leads to a person: `words` are what it is, and what to do about it.

    The message shows the beginning only: it stands in public reports.
    """
    what, hint = words
    for writing, index in suspects(base, kinds, may_hold):
        text = writing.texts[index]
        for span in each_once(writing, find(text)):
            yield breach_at(writing, index, span.start, f"{what} stands here ({hidden(text, span)}).", hint)
