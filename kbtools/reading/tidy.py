"""A file brought into the canonical form: other lines, the same meaning and the same comments, or nothing at all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping as MappingABC
from typing import Any

from kbtools.reading.annotated import annotated
from kbtools.reading.canonical import canonical, comments_of
from kbtools.reading.comments import Comment
from kbtools.reading.crowd import most_bytes
from kbtools.reading.layout import place_of
from kbtools.reading.shape import Pointer, Shape, to_data
from kbtools.reading.source import SourceFile, decode
from kbtools.reading.tree import parse


class UntidyError(Exception):
    """The file stays as it is; the words say why."""


def tidied(file: SourceFile, shapes: MappingABC[str, Shape]) -> bytes:
    """The content of a file in the canonical form.

    Raises:
        UntidyError: it is no YAML file of a knowledge base, it cannot be read, or its meaning could not be kept.
    """
    where = place_of(file.path)
    if where.kind is None or where.kind not in shapes or where.kind == "page":
        raise UntidyError("it is no YAML file of a knowledge base")
    text, findings = decode(file, most_bytes(where.kind))
    if text is None:
        raise UntidyError(_told(findings))
    shape = shapes[where.kind]
    data, comments = _read(file.path, text, shape)
    if data is None:
        return file.data or b""
    row = annotated(text)
    if Counter(comments_of(row)) != comments:
        raise UntidyError("a comment of it would get lost")
    written = canonical(row, shape.hints)
    if _read(file.path, written, shape) != (data, comments):
        raise UntidyError("it would not mean the same afterwards")
    if canonical(annotated(written), shape.hints) != written:
        raise UntidyError("it has no form that stays")
    return written.encode()


def _read(path: str, text: str, shape: Shape) -> tuple[Any, Counter[str]]:
    """What a text means to the reader, with the kind of each value, and its comments."""
    found: list[Comment] = []
    root, findings = parse(path, text, found)
    if root is None and {each.rule for each in findings} == {"KB111"}:
        return None, Counter()
    if root is None or findings:
        raise UntidyError(_told(findings))
    lost: list[Pointer] = []
    data = to_data(root, shape.hints, (), lost)
    return _with_kinds(data), Counter(f"#{each.text.rstrip()}" for each in found)


def _with_kinds(data: Any) -> Any:
    """So that 1, 1.0 and true are told apart."""
    if isinstance(data, dict):
        return {key: _with_kinds(value) for key, value in data.items()}
    if isinstance(data, list):
        return [_with_kinds(value) for value in data]
    return type(data).__name__, data


def _told(findings: Any) -> str:
    first = findings[0]
    return f"line {first.mark.line}: {first.message.removesuffix('.')}"
