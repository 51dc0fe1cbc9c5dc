"""Places of a schema: what explains one, and where a key belongs that stands one step too far out or in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from kbtools.reading.shape import Pointer, Schema


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """Where a key belongs that is not known where it stands."""

    at: tuple[Pointer, ...]
    """What it belongs into; several where it may be any row of a list."""
    hint: str
    """How it is moved there."""


def schema_at(schema: Schema, at: Pointer) -> Schema:
    """The part of a schema that explains a place; empty where it knows none."""
    part: Any = schema
    for step in at:
        part = _whole(schema, part)
        others = part.get("additionalProperties")
        known = part.get("items") if isinstance(step, int) else part.get("properties", {}).get(step, others)
        if not isinstance(known, dict):
            return {}
        part = known
    return _whole(schema, part)


def _whole(root: Schema, part: Any) -> Schema:
    """A part with what it refers to: only what leads back into itself is still a reference."""
    if not isinstance(part, dict):
        return {}
    if "$ref" not in part:
        return part
    target: Any = root
    for step in part["$ref"].removeprefix("#").strip("/").split("/"):
        target = target.get(step, {}) if isinstance(target, dict) else {}
    return {**target, **part} if isinstance(target, dict) else part


def elsewhere(schema: Schema, at: Pointer, key: str) -> Moved | None:
    """Where a key belongs that stands one step too far out or in; None: nowhere near."""
    for inner, part in schema_at(schema, at).get("properties", {}).items():
        if key in part.get("properties", {}):
            return Moved(at=((*at, inner),), hint=f"It belongs under `{inner}`: indent it two spaces further in.")
        rows = part.get("items", {})
        if isinstance(rows, dict) and key in rows.get("properties", {}) and "$ref" not in rows:
            hint = f"It belongs into a row of `{inner}`: indent it further in, as far as the other keys of that row."
            return Moved(at=tuple((*at, inner, row) for row in range(20)), hint=hint)
    for outer in _outer(at):
        if key in schema_at(schema, outer).get("properties", {}):
            beside = next(each for each in at[len(outer) :] if isinstance(each, str))
            hint = f"It belongs one step further out, beside `{beside}`: indent it no further than that key."
            return Moved(at=(outer,), hint=hint)
    return None


def _outer(at: Pointer) -> Iterator[Pointer]:
    """The places around one that hold keys, from within."""
    return (at[:length] for length in range(len(at) - 1, -1, -1) if length == 0 or not _is_list(at, length))


def _is_list(at: Pointer, length: int) -> bool:
    return isinstance(at[length], int)
