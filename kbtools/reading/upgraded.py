"""A base of an older format in the newer one: what the files say stays, and what needs judgement is left alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any, Final

from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Check
from kbtools.reading.annotated import Group, Leaf, Row, annotated
from kbtools.reading.canonical import canonical, comments_of
from kbtools.reading.layout import place_of
from kbtools.reading.reader import read
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile, decode
from kbtools.reading.tree import parse

NEWEST: Final = 2
"""The format of the files that these programs read and write."""


class NewerError(Exception):
    """The base is of a format that these programs do not know; the words say which."""


class KeptError(Exception):
    """Nothing is changed; the words say which file stands against it, and why."""


def upgraded(files: Iterable[SourceFile], shapes: Mapping[str, Shape]) -> dict[str, bytes]:
    """What the files of a base are in the newest format, by path: those alone that change.

    From 1 to 2: a check that says no `finds` was taken to find every such cause, and is taken to find nine of ten. So
    `finds: 1` is written where nothing stood, and nothing that is published changes.

    Raises:
        NewerError: the base is of a later format.
        KeptError: a file cannot be read, or would not mean the same afterwards.
    """
    before = list(files)
    club = next((file for file in before if file.path == "club.yml"), None)
    if club is None:
        raise KeptError("There is no club.yml, which says of what format the files are.")
    root = _opened(club)
    if format_of(root) >= NEWEST:
        return {}
    changed = {club.path: _written(club, _with_format(root), shapes)}
    for file in before:
        kind = place_of(file.path).kind
        if kind in {"fault", "checks"}:
            top = _opened(file)
            if _say_finds(top, shared=kind == "checks"):
                changed[file.path] = _written(file, top, shapes)
    after = [SourceFile(path=each.path, data=changed.get(each.path, each.data)) for each in before]
    old, new = read(before, shapes).base, read(after, shapes).base
    meant = _said(new)
    strange = sorted(path for path, said in _said(old).items() if meant.get(path) != said)
    if strange:
        raise KeptError(f"{strange[0]} would not mean the same afterwards.")
    return changed


def format_of(root: Row) -> int:
    """The format that a club.yml names; 1 where it names none.

    Raises:
        NewerError: it is a later one than these programs know.
        KeptError: it is no number.
    """
    row = _row_of(root, "format")
    if row is None:
        return 1
    said = row.value.value if isinstance(row.value, Leaf) else ""
    if not said.isascii() or not said.isdigit() or len(said) > 9 or int(said) == 0:
        raise KeptError("What club.yml names as its format is no number.")
    if int(said) > NEWEST:
        raise NewerError(
            f"These files are of format {said}, and this version knows formats up to {NEWEST}. Install a newer one."
        )
    return int(said)


def _opened(file: SourceFile) -> Row:
    text, findings = decode(file)
    if text is not None:
        root, findings = parse(file.path, text, [])
        if root is not None and not findings:
            row = annotated(text)
            if isinstance(row.value, Group) and row.value.mapping:
                return row
    why = f"line {findings[0].mark.line}: {findings[0].message}" if findings else "there are no keys in it."
    raise KeptError(f"{file.path} cannot be read: {why}")


def _with_format(root: Row) -> Row:
    row = _row_of(root, "format")
    if row is not None:
        row.value = Leaf(value=str(NEWEST), plain=True)
    elif isinstance(root.value, Group):
        _add(root.value, "format", str(NEWEST), above=root)
    return root


def _say_finds(root: Row, *, shared: bool) -> bool:
    """Write `finds: 1` into each check that says none, and say whether there was one.

    A row with `use` has the figure of the shared check, which gets it itself.
    """
    rows = _row_of(root, "checks")
    found = False
    for check in rows.value.rows if rows is not None and isinstance(rows.value, Group) else ():
        used = not shared and _row_of(check, "use") is not None
        if isinstance(check.value, Group) and check.value.mapping and not used and _row_of(check, "finds") is None:
            _add(check.value, "finds", "1", above=check)
            found = True
    return found


def _row_of(row: Row, key: str) -> Row | None:
    rows = row.value.rows if isinstance(row.value, Group) and row.value.mapping else ()
    return next((each for each in rows if each.key == key), None)


def _add(group: Group, key: str, value: str, above: Row) -> None:
    group.rows.append(Row(key=key, value=Leaf(value=value, plain=True), group=group, above=above))


def _written(file: SourceFile, root: Row, shapes: Mapping[str, Shape]) -> bytes:
    """The text, if it has every comment."""
    comments = Counter(comments_of(annotated(decode(file)[0] or "")))
    text = canonical(root, shapes[str(place_of(file.path).kind)].hints)
    if Counter(comments_of(annotated(text))) != comments:
        raise KeptError(f"A comment of {file.path} would get lost.")
    return text.encode()


def _said(base: KnowledgeBase) -> dict[str, Any]:
    """What the files say, as the rest of the programs see it, by path; but whether a figure was written or meant."""
    said: dict[str, Any] = {
        each.path: replace(each, checks=tuple(map(_without_said, each.checks))) for each in base.faults.values()
    }
    said["checks.yml"] = [replace(each, check=_without_said(each.check)) for each in base.checks.values()]
    said["club.yml"] = None if base.club is None else replace(base.club, format=NEWEST)
    return said


def _without_said(check: Check) -> Check:
    return replace(check, finds_said=False)
