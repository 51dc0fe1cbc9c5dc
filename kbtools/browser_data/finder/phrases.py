"""Phrases as single terms, as `core/asked.js` has them: both are held to `tests/vectors/finder_words.json`.

Words in a row are written together, so that `side stand` is found by `sidestand`. Two and three words that stand near
each other are one term in whatever order they stand, since owners order them as they like: `clutch+slip` is in "the
clutch keeps slipping". And a short clause that an entry has by itself is one term, so that whoever asks just that finds
it first: `=not+start`.
"""

from __future__ import annotations

import re
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from typing import Final

from kbtools.browser_data.finder.terms import NOT, STOP_WORDS, stem, words_of

LONGEST_PHRASE: Final = 4
"""Telling words of a phrase whose words stand in a row; the browser looks up no longer runs."""
LONGEST_LOOSE: Final = 3
"""Telling words of a phrase whose words stand in whatever order, and with others between them."""
GAP: Final = 1
"""How many others in a text of an entry; an owner's sentence is longer, there `asked.js` has two."""
_CLAUSE: Final = re.compile(r"[,;:.!?()]")


def telling(text: str) -> list[str]:
    """The terms of a text without those that say nothing, in their order."""
    return [stem(word) for word in words_of(text) if word not in STOP_WORDS]


def together(terms: Iterable[str]) -> str:
    """Words in whatever order as one term; no word has the sign between them."""
    return "+".join(sorted(set(terms)))


def loose(text: str, beside: Mapping[str, Container[str]] | None = None) -> Iterator[str]:
    """Every two and three telling words of a clause that stand near each other, as one term.

    Args:
        text: of an entry.
        beside: of each word those that it is wanted together with; None: any two.
    """
    for clause in _CLAUSE.split(text):
        yield from near_each_other(telling(clause), GAP, beside)


def near_each_other(
    terms: Sequence[str], gap: int, beside: Mapping[str, Container[str]] | None = None
) -> Iterator[str]:
    """Every two and three words with at most so many others between them, as one term.

    What is denied stays so: a negation between them is never left out, and one of them never comes last, for it says
    something of what follows.
    """
    every = frozenset(terms)
    for one, first in enumerate(terms):
        wanted = every if beside is None else beside.get(first, ())
        for two in range(one + 1, min(len(terms), one + 2 + gap)) if wanted else ():
            if terms[two] not in wanted:
                continue
            yield from _taken(terms, (one, two))
            for three in range(two + 1, min(len(terms), one + 3 + gap)):
                if terms[three] in wanted:
                    yield from _taken(terms, (one, two, three))


def _taken(terms: Sequence[str], places: tuple[int, ...]) -> Iterator[str]:
    first, last = places[0], places[-1]
    left = [terms[at] for at in range(first, last) if at not in places]
    words = {terms[at] for at in places}
    if len(words) == len(places) and terms[last] != NOT and NOT not in left:
        yield together(words)


def whole_clauses(text: str) -> Iterator[str]:
    """Each clause of a text that is short enough to be all that somebody asks, as one term."""
    for clause in _CLAUSE.split(text):
        words = set(telling(clause))
        if 1 <= len(words) <= LONGEST_PHRASE:
            yield f"={together(words)}"
