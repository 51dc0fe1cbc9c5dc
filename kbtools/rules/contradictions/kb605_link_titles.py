"""KB605: one link, two titles."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from urllib.parse import urlsplit

from kbtools.index.entries import cases, faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.contradictions.wordings import fold
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

_PORTS = {"http": ":80", "https": ":443"}


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Titles that differ from the first one of the same link."""
    first: dict[str, tuple[str, str]] = {}
    for path, pointer, title, url in sorted(_links(base)):
        place, before = first.setdefault(same_link(url), (path, title))
        if fold(before) != fold(title):
            message = f'This link is called "{short(before)}" {"here" if place == path else f"in {place}"} already.'
            hint = "Give it one title in both places, or correct the link."
            yield Breach(path=path, pointer=pointer, message=message, hint=hint)


def _links(base: KnowledgeBase) -> Iterator[tuple[str, str, str, str]]:
    """Path, pointer of the title, title and link of every source that has both."""
    for fault in faults(base):
        for source in fault.sources:
            if source.url is not None and fault.intact(f"{source.at}/title"):
                yield fault.path, f"{source.at}/title", source.title, source.url
    for case in cases(base):
        if case.source is not None and case.source.url is not None and "/source/title" not in case.damaged:
            yield case.path, "/source/title", case.source.title, case.source.url


def same_link(url: str) -> str:
    """A link as two spellings of one address have it in common.

    The scheme, the host's case, the port that goes without saying, a slash at the end and the place in the page do not
    make another page (RFC 3986, 6.2.2 and 6.2.3, where the first and the last two are common practice).
    """
    try:
        parts = urlsplit(url.strip())
        host = parts.netloc.lower().removesuffix(_PORTS.get(parts.scheme.lower(), ""))
    except ValueError:
        return url
    query = f"?{parts.query}" if parts.query else ""
    return f"{host}{parts.path.rstrip('/')}{query}"


RULE = Rule(
    code="KB605",
    title="One link, two titles",
    severity="warning",
    what="Two sources with the same link and different titles, in entries or cases.",
    why="A reader takes it for two sources, and one that counts twice makes an entry look surer than it is.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="  - {kind: first-hand, title: Spring teardown}\n",
        bad=(
            "  - {kind: manual, title: Plugs and rain, url: https://notes.example/plugs, "
            "archived: https://archive.example/plugs}\n"
            "  - {kind: manual, title: Terminals in the wet, url: https://Notes.example/plugs/#2, "
            "archived: https://archive.example/plugs}\n"
        ),
        good=(
            "  - {kind: manual, title: Plugs and rain, url: https://notes.example/plugs, "
            "archived: https://archive.example/plugs}\n"
            "  - {kind: manual, title: Terminals in the wet, url: https://notes.example/terminals, "
            "archived: https://archive.example/terminals}\n"
        ),
    ),
    check=check,
)
