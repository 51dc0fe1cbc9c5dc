"""One file by itself: text to usable data, with everything that is wrong with its form."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from kbtools.diagnostics import Finding
from kbtools.model.writing import Writing
from kbtools.reading.comments import Comment
from kbtools.reading.conflicts import conflict_in
from kbtools.reading.crowd import most_bytes
from kbtools.reading.cut_off import cut_off
from kbtools.reading.form import form
from kbtools.reading.front_matter import read_page
from kbtools.reading.layout import Placed
from kbtools.reading.misfiled import misfiled
from kbtools.reading.places import Document
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile, decode, form_error
from kbtools.reading.tree import parse
from kbtools.reading.writings import file_writings
from kbtools.text.bounds import excess, page_excess


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """One file, read by itself: whatever its content alone decides, so that it can be kept until the file changes."""

    document: Document
    """For the places of findings."""
    data: Any
    """Usable plain data, of a hand-written page a `HandPage`; None where there is none."""
    damaged: frozenset[str]
    """JSON pointers of what was lost."""
    findings: tuple[Finding, ...]
    """What is wrong with its form."""
    comments: tuple[Comment, ...] = ()
    """Comments of a YAML file, as far as it can be read."""
    writings: tuple[Writing, ...] | None = None
    """The texts of a YAML file, where it was just read; None: they are to be made of its data."""


def read_file(where: Placed, file: SourceFile, shapes: Mapping[str, Shape]) -> Content:
    """Read one file by itself."""
    text, findings = decode(file, most_bytes(where.kind))
    conflict = None if text is None else conflict_in(file.path, text)
    if conflict is not None:
        return Content(
            document=Document(path=file.path, text=text, is_yaml=False),
            data=None,
            damaged=frozenset({""}),
            findings=(conflict,),
        )
    if where.kind == "page" and text is not None:
        return _page(file.path, text, shapes["page"])
    if where.kind is None or text is None:
        damaged = frozenset({""}) if text is None else frozenset()
        readable = findings if where.kind is not None or file.problem is not None else []
        return Content(
            document=Document(path=file.path, text=text, is_yaml=where.kind not in {"page", None}),
            data=text,
            damaged=damaged,
            findings=tuple(readable),
        )
    comments: list[Comment] = []
    root, findings = parse(file.path, text, comments)
    if where.kind in {"words", "accepted"}:
        findings = [each for each in findings if each.rule != "KB111"]
    findings += cut_off(file.path, text, comments)
    document = Document(path=file.path, text=file.data)
    elsewhere = None if root is None else misfiled(where.kind, file.path, root, shapes)
    if elsewhere is not None:
        # Of the kind that its folder says it would have a mistake in every line.
        findings.append(elsewhere)
    if root is None or elsewhere is not None:
        return Content(
            document=document,
            data=None,
            damaged=frozenset({""}),
            findings=tuple(findings),
            comments=tuple(comments),
        )
    shape = shapes[where.kind]
    formed = form(file.path, root, shape)
    writings = file_writings(file.path, formed.data, shape.texts, comments)
    findings += [*formed.findings, *_heavy(document, writings)]
    return Content(
        document=document,
        data=formed.data,
        damaged=formed.damaged,
        findings=tuple(findings),
        comments=tuple(comments),
        writings=writings,
    )


def _page(path: str, text: str, shape: Shape) -> Content:
    read = read_page(path, text, shape)
    document = Document(path=path, text=text, is_yaml=False)
    findings = list(read.findings)
    heavy = page_excess(read.page.body)
    if heavy is not None:
        mark = document.index(read.body_at + heavy.at)
        findings.append(form_error("KB120", path, mark, heavy.message, heavy.hint))
    return Content(document=document, data=read.page, damaged=frozenset(), findings=tuple(findings))


def _heavy(document: Document, writings: Iterable[Writing]) -> Iterator[Finding]:
    """The texts of an entry that Markdown could not take."""
    for written in writings:
        if written.kind == "comment":
            continue
        for text, pointer in zip(written.texts, written.pointers, strict=True):
            heavy = excess(text)
            if heavy is not None:
                mark = document.value(pointer)
                yield form_error("KB120", document.path, mark, heavy.message, heavy.hint)
