"""The schemas of the open formats, each complete in itself, made from those of the files where the shape is the same.

A file's schema guides its author; that of an open format tells a reader what may stand there. So it has no conditions,
forbids no further keys (some may be added), and says text where a file may also write a number.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

Schema = dict[str, Any]
Schemas = Mapping[str, Schema]
"""The schemas of the files by the names of their files."""

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"

TEXT: Final[Schema] = {"type": "string"}
NUMBER: Final[Schema] = {"type": "number"}
COUNT: Final[Schema] = {"type": "integer", "minimum": 0}
DAY: Final[Schema] = {"type": "string", "format": "date"}

_ALONE: Final = frozenset({"if", "then", "else", "allOf", "dependentSchemas", "not", "$defs", "$id", "$schema", "$ref"})
"""What of a file's schema is not taken over: conditions for authors, and what is resolved."""
_RAW: Final = frozenset({"examples", "enum", "const", "default", "required", "type"})
"""Keys whose values are no schemas."""


def like(schemas: Schemas, pointer: str) -> Schema:
    """A part of a file's schema as a reader's, everything that it names put in.

    Args:
        schemas: of the files.
        pointer: `case`, or below it: `common#/$defs/ride-level`.
    """
    name, _, path = pointer.partition("#")
    file = f"{name}.schema.json"
    return _read(_at(schemas[file], path), file, schemas)


def _read(part: Schema, file: str, schemas: Schemas) -> Schema:
    found: Schema = {}
    if "$ref" in part:
        name, _, path = part["$ref"].partition("#")
        found = _read(_at(schemas[name or file], path), name or file, schemas)
    for key, value in part.items():
        if key in _ALONE or key.startswith(("x-", "patternError", "markdownEnum")):
            continue
        if key == "additionalProperties" and value is False:
            continue
        if key in _RAW or not isinstance(value, dict):
            found[key] = value
        elif key == "properties":
            found[key] = {**found.get(key, {}), **{name: _read(each, file, schemas) for name, each in value.items()}}
        else:
            found[key] = _read(value, file, schemas)
    return {**found, "type": "string"} if part.get("x-plain") == "text" else found


def _at(schema: Schema, path: str) -> Schema:
    for step in path.strip("/").split("/") if path.strip("/") else ():
        schema = schema[step]
    return schema


def named(schema: Schema, *required: str, **keys: Schema) -> Schema:
    """A schema with further keys, the first ones; `required` beside what it requires already."""
    return {
        **schema,
        "properties": {**keys, **schema.get("properties", {})},
        "required": [*required, *(each for each in schema.get("required", ()) if each not in required)],
    }


def both(one: Schema, other: Schema) -> Schema:
    """A schema with what another one says of the same value besides."""
    found = {**one, **other}
    if "items" in one and "items" in other:
        found["items"] = both(one["items"], other["items"])
    if "properties" in one or "properties" in other:
        mine, theirs = one.get("properties", {}), other.get("properties", {})
        found["properties"] = {key: both(value, theirs.get(key, {})) for key, value in {**theirs, **mine}.items()}
    if "required" in one or "required" in other:
        found["required"] = list(dict.fromkeys([*one.get("required", ()), *other.get("required", ())]))
    return found


def record(title: str, keys: Mapping[str, Schema], *, without: Sequence[str] = ()) -> Schema:
    """An object that has all of these keys, but for those that may be missing."""
    return {
        "title": title,
        "type": "object",
        "properties": dict(keys),
        "required": [key for key in keys if key not in without],
    }


def said(schema: Schema, description: str) -> Schema:
    """A schema with a description of its own."""
    return {**schema, "description": description}


def rows(schema: Schema, description: str = "") -> Schema:
    """A list of such values."""
    return {**({"description": description} if description else {}), "type": "array", "items": schema}


def table(schema: Schema, description: str) -> Schema:
    """An object whose keys are ids."""
    return {"description": description, "type": "object", "additionalProperties": schema}


def or_null(schema: Schema, description: str) -> Schema:
    """A value, or null."""
    return {"description": description, "anyOf": [schema, {"type": "null"}]}


def whole(name: str, title: str, schema: Schema) -> Schema:
    """A schema as a file of its own."""
    return {"$schema": DIALECT, "$id": f"{name}.schema.json", **schema, "title": title}


def list_of(items: Schema) -> Schema:
    """The schema of a list file."""
    return record(
        "List",
        {
            "items": rows(items),
            "next": said(TEXT, "Name of the file beside this one in which the list goes on; missing in the last one."),
        },
        without=["next"],
    )
