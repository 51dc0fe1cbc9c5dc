"""What looks like the name under which a person writes elsewhere: `@name`, `username name`, `name_77 on the forum`.

A guess, and only ever warned of. The words are common knowledge, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from kbtools.personal.handle_words import (
    AT_SIGN,
    CASE,
    CUE,
    FILE,
    FILE_BY,
    FORUM_LABEL,
    HINTS,
    HOME,
    ID_OF,
    IS,
    LABEL,
    MESSENGER_ID,
    MIXED,
    NOT_ALWAYS_QUOTED,
    ON_FORUM,
    ON_FORUM_AS,
    OTHER_MEANING,
    PLAIN_WORDS,
    PROFILE,
    QUERY,
    QUOTED,
    REDDIT,
    ROLE,
    SAID_TO_BE,
    SOCIAL,
    TAG,
    THREE_SMALL,
)
from kbtools.personal.span import Span, apart, even, has_any


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    return MIXED.search(flat) is not None or has_any(flat.lower(), HINTS)


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like such a name, and profiles in web addresses."""
    if may_hold(text):
        yield from apart(_seen(even(text)))


def _seen(flat: str) -> Iterator[Span]:
    for pattern in (AT_SIGN, REDDIT, TAG, PROFILE, QUERY, SOCIAL):
        yield from _nicks(pattern, flat, lambda _: True)
    for pattern in (HOME, FILE_BY, MESSENGER_ID):
        yield from _nicks(pattern, flat, lambda _: True)
    yield from (
        Span(*each.span("nick")) for each in ID_OF.finditer(flat) if flat.startswith(("bike:", "rider:", "by:"))
    )
    yield from _nicks(LABEL, flat, lambda match: match["word"].lower() not in OTHER_MEANING or "@" in match[0])
    yield from _nicks(QUOTED, flat, lambda match: match["word"].lower() not in NOT_ALWAYS_QUOTED)
    yield from _nicks(ON_FORUM_AS, flat, lambda match: "." in match["nick"] or match["sure"] is not None)
    if MIXED.search(flat) is not None:
        # Without one there is no made-up word, and these see nothing else.
        for pattern in (SAID_TO_BE, FORUM_LABEL, IS):
            yield from _nicks(pattern, flat, lambda _: False)
    yield from _nicks(
        ON_FORUM, flat, lambda match: CUE.search(flat[max(0, match.start() - 16) : match.start()]) is not None
    )


def _nicks(pattern: re.Pattern[str], flat: str, is_sure: Callable[[re.Match[str]], bool]) -> Iterator[Span]:
    """What a pattern sees; where it is not sure, only a made-up word that is no file's name."""
    for match in pattern.finditer(flat):
        nick = match["nick"]
        if _may_be(nick) and (is_sure(match) or (_is_made_up(nick) and FILE.search(nick) is None)):
            yield Span(*match.span("nick"))


def _is_made_up(nick: str) -> bool:
    return MIXED.search(nick) is not None and THREE_SMALL.search(nick) is not None


def _may_be(nick: str) -> bool:
    if ROLE.fullmatch(nick) is not None or CASE.fullmatch(nick) is not None:
        return False
    parts = nick.lower().strip("@0123456789").split("-")
    return parts[0] not in PLAIN_WORDS and parts[-1] not in PLAIN_WORDS
