"""What a schema promises, as paths: to tell what was taken away or changed from what was only added."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

Shape = dict[str, str]
"""Path of a value → its types, a star behind what is always there: `items[].id` → `string*`."""


def shape(schema: Mapping[str, Any]) -> Shape:
    """Every key that a schema names, with the types that may stand there."""
    found: dict[str, set[str]] = {}
    for path, kind in _walk(schema, "", needed=True, root=schema, within=()):
        found.setdefault(path, set()).add(kind)
    # A key that several shapes of a record have is always there if each of them says so.
    return {path: _one(kinds) for path, kinds in sorted(found.items())}


def _one(kinds: set[str]) -> str:
    bare = sorted({each.rstrip("*") for each in kinds})
    return " | ".join(bare) + ("*" if all(each.endswith("*") for each in kinds) else "")


def _walk(
    schema: Mapping[str, Any], path: str, *, needed: bool, root: Mapping[str, Any], within: tuple[str, ...]
) -> Iterator[tuple[str, str]]:
    reference = schema.get("$ref")
    if reference is not None:
        if reference in within:
            yield path, f"as {reference}"
            return
        part: Any = root
        for step in reference.removeprefix("#/").split("/"):
            part = part[step]
        yield from _walk(part, path, needed=needed, root=root, within=(*within, reference))
        return
    for each in schema.get("anyOf", ()):
        yield from _walk(each, path, needed=needed and len(schema["anyOf"]) == 1, root=root, within=within)
    kinds = schema.get("type", ())
    if kinds:
        text = " | ".join(sorted(kinds)) if isinstance(kinds, list) else kinds
        yield path, f"{text}{'*' if needed else ''}"
    for key, value in schema.get("properties", {}).items():
        yield from _walk(value, f"{path}.{key}", needed=key in schema.get("required", ()), root=root, within=within)
    if isinstance(schema.get("items"), dict):
        yield from _walk(schema["items"], f"{path}[]", needed=True, root=root, within=within)
    if isinstance(schema.get("additionalProperties"), dict):
        yield from _walk(schema["additionalProperties"], f"{path}{{}}", needed=True, root=root, within=within)


def breaches(before: Shape, now: Shape) -> list[str]:
    """What a reader of the old shape would miss: keys that are gone or may be missing now, and other types."""
    found = []
    for path, kind in before.items():
        new = now.get(path)
        if new is None:
            found.append(f"{path} is gone")
        elif new.rstrip("*") != kind.rstrip("*"):
            found.append(f"{path} was {kind}, and is {new}")
        elif kind.endswith("*") and not new.endswith("*"):
            found.append(f"{path} may be missing now")
    return found
