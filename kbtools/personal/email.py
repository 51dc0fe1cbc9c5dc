"""E-mail addresses, also written around the corner: `name (at) host (dot) org`."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even

_AT = re.compile(r"@")
_LOCAL = re.compile(r"[\w.+%'-]{0,63}\w$")
_DOMAIN = re.compile(r"\w(?:[\w-]{0,62})(?:\.\w[\w-]{0,62}){0,8}\.[^\W\d_](?:[\w-]{1,62})")
_AROUND = re.compile(
    r"[\[({] ?at ?[\])}] ?[\w-]{1,63}(?: ?[\[({] ?(?:dot|punkt|point) ?[\])}] ?|\.)[^\W\d_]{2,63}", re.IGNORECASE
)
_BEFORE = re.compile(r"[\w.+%'-]{0,63}\w ?$")


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    return "@" in text or "＠" in text or "(" in text or "[" in text or "{" in text or "&" in text


def find(text: str) -> Iterator[Span]:
    """Every e-mail address of a text.

    The two sides of the sign have the shape of RFC 5321 (local part up to 64 characters, labels up to 63), the last
    label is made of letters: `5 A @ 12.6 V` is none. The remote address of a repository (`git@host:path`) is none.
    """
    flat = even(text)
    yield from _plain(flat)
    yield from _around(flat)
    if "&" in text and "@" not in text:
        decoded = html.unescape(text)
        if decoded != text and any(_plain(even(decoded))):
            start = text.index("&")
            yield Span(start, start + 1)


def _plain(text: str) -> Iterator[Span]:
    for match in _AT.finditer(text):
        local = _LOCAL.search(text[max(0, match.start() - 64) : match.start()])
        domain = _DOMAIN.match(text, match.end())
        if local is None or domain is None:
            continue
        remote = local[0] == "git" and text[domain.end() : domain.end() + 1] == ":"
        if not remote:
            yield Span(match.start() - len(local[0]), domain.end())


def _around(text: str) -> Iterator[Span]:
    for match in _AROUND.finditer(text):
        local = _BEFORE.search(text[max(0, match.start() - 65) : match.start()])
        if local is not None:
            yield Span(match.start() - len(local[0]), match.end())
