"""What the rules have in common that look at every text: entries, cases, lists and hand-written pages alike."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from kbtools.model.base import KnowledgeBase
from kbtools.model.writing import TextKind, Writing
from kbtools.personal.span import Span, hidden
from kbtools.rules.rule import Breach

EVERYWHERE: frozenset[TextKind] = frozenset({"words", "link", "key", "page"})
WITHOUT_LINKS: frozenset[TextKind] = frozenset({"words", "key", "page"})
NOT_SHOWN: frozenset[TextKind] = frozenset({"comment", "id"})
"""What no page shows as a text, but the repository, an address or a file of the site does."""
LINKS: frozenset[TextKind] = frozenset({"link"})

_PIECE = 30
"""Characters by which a place in a text over several lines is found again in the file."""

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
    """A finding in a text; in a page or a comment, which have no pointers, at the code point `start` of its text."""
    return Breach(
        path=writing.path,
        pointer=writing.pointers[index],
        message=message,
        hint=hint,
        at_key=writing.kind == "key",
        piece="" if writing.starts else writing.texts[index][start : start + _PIECE],
        index=writing.starts[index] + start if writing.starts else None,
    )


def each_once(writing: Writing, spans: Iterable[Span]) -> Iterator[Span]:
    """Of an entry's text the first span, since all of them have its place; of a page and a comment all."""
    for span in spans:
        yield span
        if not writing.starts:
            return


def as_words(text: str) -> str:
    """An id or a file's name as words and numbers: blanks for its hyphens."""
    words = text.replace("-", " ").replace("_", " ")
    # Of other letters a capital may be two.
    return words.upper() if text.isascii() else words


def as_signs(text: str) -> str:
    """An id or a file's name as a plate has it: hyphens and capitals."""
    return text.replace("_", "-").upper() if text.isascii() else text


@dataclass(frozen=True, slots=True, kw_only=True)
class Sought:
    """One kind of what leads to a person, as a rule looks for it."""

    what: str
    """What it is, at the start of a sentence: `A telephone number`."""
    hint: str
    """What to do about it in a text."""
    may_hold: May
    """The quick look of its detector."""
    find: Callable[[str], Iterable[Span]]
    """Its detector."""
    kinds: frozenset[TextKind] = WITHOUT_LINKS | NOT_SHOWN
    """Where it is looked for."""
    spelt: Callable[[str], str] = as_words
    """How an id is read before it is looked at; it must not become longer or shorter."""
    may_hold_in_id: May | None = None
    """A quick look at ids that asks for more than the detector's, since most ids end in numbers; None: the same."""


def personal(base: KnowledgeBase, sought: Sought) -> Iterator[Breach]:
    """Everything of one kind that leads to a person.

    The message shows the beginning only: it stands in public reports.
    """
    texts, ids = sought.kinds - {"id"}, sought.kinds & {"id"}
    for writing, index in suspects(base, texts, sought.may_hold):
        text = writing.texts[index]
        for span in each_once(writing, sought.find(text)):
            message = f"{sought.what} stands here ({hidden(text, span)})."
            yield breach_at(writing, index, span.start, message, sought.hint)
    may_hold = sought.may_hold_in_id or sought.may_hold
    for writing, index in suspects(base, ids, lambda text: may_hold(sought.spelt(text))):
        text = writing.texts[index]
        for span in each_once(writing, sought.find(sought.spelt(text))):
            yield breach_in_id(writing, index, sought.what, hidden(text, span))


def breach_in_id(writing: Writing, index: int, what: str, shown: str) -> Breach:
    """A finding in an id or a file's name: `what` it is, and what of it is `shown`."""
    if writing.pointers[index] == "":
        message, hint = f"{what} stands in the file's name ({shown}).", "Rename the file; its name is public, too."
    else:
        message, hint = f"{what} stands here ({shown}).", "Write what leads to nobody; of an id, make one up: b017."
    return breach_at(writing, index, 0, message, hint)
