"""What stands above a hand-written page, between two lines of dashes: its title and its description.

The generator has a reader of its own for it, which follows aliases and takes any key. It never sees what stands there:
here it is read like every other file, and the generator is given what is below.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from kbtools.diagnostics import START, Finding
from kbtools.model.base import HandPage
from kbtools.reading.form import form
from kbtools.reading.shape import Shape
from kbtools.reading.source import form_error
from kbtools.reading.tree import Mapping, parse

_OPENING = re.compile(r"---[ \t]*(?:\r\n|\r|\n)")
_CLOSING = re.compile(r"^(?:---|\.\.\.)[ \t]*(?:\r\n|\r|\n|\Z)", re.MULTILINE)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadPage:
    """A hand-written page that was read."""

    page: HandPage
    """What it says."""
    body_at: int
    """Code point at which its Markdown begins."""
    findings: tuple[Finding, ...]
    """What is wrong with its front matter."""


def read_page(path: str, text: str, shape: Shape) -> ReadPage:
    """Read a page's front matter, if it has any.

    Args:
        path: of the page, from the knowledge base's folder.
        text: the whole page.
        shape: which keys may stand there.
    """
    opening = _OPENING.match(text)
    closing = None if opening is None else _CLOSING.search(text, opening.end())
    if opening is None or closing is None:
        return ReadPage(page=HandPage(path=path, text=text, body=text), body_at=0, findings=())
    # An empty line in the place of the dashes: so what is found stands on the lines of the page.
    data, findings = _front(path, f"\n{text[opening.end() : closing.start()]}", shape)
    page = HandPage(
        path=path,
        text=text,
        body=text[closing.end() :],
        title=data.get("title"),
        description=data.get("description"),
    )
    return ReadPage(page=page, body_at=closing.end(), findings=tuple(findings))


def _front(path: str, text: str, shape: Shape) -> tuple[dict[str, str], list[Finding]]:
    root, findings = parse(path, text)
    findings = [each for each in findings if each.rule != "KB111"]
    if root is None:
        return {}, findings
    if not isinstance(root, Mapping):
        message = "A line of dashes at the top begins the title of a page, but no title follows."
        hint = "Write `title: …` between two such lines; a rule at the top is written ***."
        return {}, [*findings, form_error("KB201", path, START, message, hint)]
    formed = form(path, root, shape)
    return formed.data or {}, [*findings, *formed.findings]
