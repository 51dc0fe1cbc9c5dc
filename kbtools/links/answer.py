"""What came back when a link was asked, and what that means."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal
from urllib.parse import urlsplit

State = Literal["there", "dead", "unsure"]
"""Somebody who follows the link finds something; nothing; that cannot be told from here."""

_GONE: Final = frozenset({404, 410})
"""Not found, gone (RFC 9110, 15.5.5 and 15.5.11). Other refusals are often meant for programs and not for readers."""
_PHRASES: Final = {
    401: "wants a login",
    403: "forbidden",
    404: "not found",
    410: "gone",
    429: "too many requests",
    500: "the host has an error",
    503: "not available now",
}
"""What the common ones mean (RFC 9110; RFC 6585 for 429)."""
_EXAMPLES: Final = frozenset({"example", "test", "invalid"})
_EXAMPLE_NAMES: Final = frozenset({"example.com", "example.net", "example.org"})
"""Source of both: RFC 2606. Such a name leads to nobody, and is meant to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What came back from a link."""

    state: State
    """What it means."""
    said: str
    """What came back, in words of ours; it may quote an address, which is hostile."""
    day: dt.date
    """When it was asked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What one answer, or silence, means."""

    state: State
    """What it means."""
    said: str
    """What came back, in words."""
    again: bool = False
    """Whether another try may tell more."""
    heard: bool = True
    """Whether anybody answered at all: where nobody does from any host, it is the network that is dead."""


def of_status(status: int, asked: str, reached: str) -> Verdict:
    """What an answer with an HTTP status means (RFC 9110, section 15).

    Args:
        status: of the last answer, after redirects.
        asked: the link.
        reached: where redirects led.
    """
    said = f"{status} {_PHRASES.get(status, '')}".strip()
    if status in _GONE:
        return Verdict(state="dead", said=said)
    if status >= 500 or status in {408, 425, 429}:
        return Verdict(state="unsure", said=said, again=True)
    if status >= 300:
        return Verdict(state="unsure", said=said)
    if _is_front(reached) and not _is_front(asked):
        # What many hosts do with a page that they no longer have.
        return Verdict(state="unsure", said="it leads to the front page of a host")
    return Verdict(state="there", said=said)


def is_reserved(url: str) -> bool:
    """Whether the host's name is one for examples, and leads to nobody."""
    host = (urlsplit(url).hostname or "").rstrip(".")
    return host.rpartition(".")[2] in _EXAMPLES or ".".join(host.split(".")[-2:]) in _EXAMPLE_NAMES


def gone(answers: Mapping[str, Answer]) -> frozenset[str]:
    """The links that died."""
    return frozenset(url for url, answer in answers.items() if answer.state == "dead")


def _is_front(url: str) -> bool:
    parts = urlsplit(url)
    return parts.path in {"", "/"} and not parts.query
