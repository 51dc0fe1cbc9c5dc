"""The shape of files, as JSON Schema says it: which plain scalars are text, what is wrong, what can still be used.

YAML leaves open whether `no` or `0123` is text. Here the schema decides: where it says string, the characters of the
author are the value. So a tree becomes data under the guidance of its schema, and is then validated by jsonschema.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from collections.abc import Mapping as MappingABC
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from kbtools.model.writing import TextKind
from kbtools.reading.quick import Test, compiled, told
from kbtools.reading.tree import Lost, Mapping, Node, Scalar, Sequence

if TYPE_CHECKING:
    from jsonschema import Draft202012Validator

Schema = dict[str, Any]
Pointer = tuple[str | int, ...]
"""Keys and indexes from the root."""

_LONGEST_LINK = 2_000
"""What may be longer is a text of sentences."""
_NUMBER = re.compile(r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?", re.ASCII)
_LONGEST_NUMBER = 40
"""Longer ones are no number that anybody means, and would take long to convert."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hints:
    """What the conversion of a tree needs to know of one place in a schema."""

    types: frozenset[str]
    """JSON types that may stand there; empty: any."""
    as_text: bool
    """A number is taken as its characters (`x-plain: text`): model years, campaign numbers."""
    sentences: bool = False
    """A text of sentences may stand there, and not only a name, an id or a word: it is written on a line of its own."""
    properties: dict[str, Hints] = field(default_factory=dict)
    """By key, in the schema's order."""
    items: Hints | None = None
    """Of the members of a list."""
    others: Hints | None = None
    """Of the keys that `properties` does not name."""
    converts: bool = field(init=False)
    """Whether what stands there without quotes may be something else than a text."""

    def __post_init__(self) -> None:
        converts = not self.as_text and not self.types.isdisjoint({"number", "integer", "boolean"})
        object.__setattr__(self, "converts", converts)


@dataclass(frozen=True, slots=True, kw_only=True)
class TextPlaces:
    """Where below one place of a schema an author's texts stand; what leads to none is left out."""

    kind: TextKind | None
    """What a text at the place itself is; None: a number, a word of a list, a code, a reference, or no text."""
    keys: dict[str, TextPlaces] = field(default_factory=dict)
    """By key."""
    items: TextPlaces | None = None
    """Of the members of a list."""
    others: TextPlaces | None = None
    """Of the keys that the schema leaves to the author."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A schema, made ready once."""

    schema: Schema
    """With references followed, but for those that lead back into themselves."""
    passes: Test
    """True where `validator` would find nothing: a short way for the files that are right, which are most."""
    hints: Hints
    """For the conversion of trees."""
    texts: TextPlaces
    """For rules that look at every text."""

    @property
    def validator(self) -> Draft202012Validator:
        """Says what is wrong."""
        return told(self.schema)


_NOT_READ = frozenset({"common", "vocabulary"})
"""Schemas of no file of a knowledge base: what several share, and the files that come with the programs."""


def load_shapes(files: MappingABC[str, Schema]) -> dict[str, Shape]:
    """Make the schemas ready.

    Args:
        files: name of the file in `schemas/` to its content.

    Returns:
        The kind of file (`fault` for `fault.schema.json`) to its shape.
    """
    shapes = {}
    for name, content in files.items():
        kind = name.removesuffix(".schema.json")
        if kind not in _NOT_READ:
            schema = _follow(content, content, files, ())
            shapes[kind] = Shape(
                schema=schema,
                passes=compiled(schema),
                hints=_hints(schema, schema, {}),
                texts=_text_places(schema, schema, {}) or TextPlaces(kind=None),
            )
    return shapes


def _follow(part: Any, home: Schema, files: MappingABC[str, Schema], seen: tuple[str, ...]) -> Any:
    """Put the definitions in the place of references: jsonschema looks each one up again at every visit."""
    if isinstance(part, list):
        return [_follow(each, home, files, seen) for each in part]
    if not isinstance(part, dict):
        return part
    reference = part.get("$ref")
    if not isinstance(reference, str):
        return {key: _exact(key, _follow(value, home, files, seen)) for key, value in part.items() if key != "$id"}
    file, _, pointer = reference.partition("#")
    target_home = files[file] if file else home
    name = f"{target_home.get('$id')}#{pointer}"
    if name in seen:
        return part
    target: Any = target_home
    for step in pointer.strip("/").split("/"):
        target = target[step]
    followed = _follow(target, target_home, files, (*seen, name))
    beside = _follow({key: value for key, value in part.items() if key != "$ref"}, home, files, seen)
    return {**followed, **beside}


def _exact(key: str, value: Any) -> Any:
    """A pattern whose last sign means the end of the text, as in JSON Schema, and not the last line end before it."""
    if key == "pattern" and isinstance(value, str) and value.endswith("$"):
        return f"{value[:-1]}\\Z"
    return value


def _hints(part: Any, root: Schema, known: dict[str, Hints]) -> Hints:
    reference = part.get("$ref") if isinstance(part, dict) else None
    if reference is not None:
        if reference not in known:
            target = _target(reference, root)
            # Set before going down: the tree of systems leads back here.
            known[reference] = Hints(types=frozenset(_types(target)), as_text=False)
            made = _hints(target, root, known)
            known[reference].properties.update(made.properties)
        return known[reference]
    if not isinstance(part, dict):
        return Hints(types=frozenset(), as_text=False)
    others = part.get("additionalProperties")
    return Hints(
        types=frozenset(_types(part)),
        as_text=part.get("x-plain") == "text",
        sentences=_text_kind(part) == "words" and part.get("maxLength", 0) > _LONGEST_LINK,
        properties={key: _hints(value, root, known) for key, value in part.get("properties", {}).items()},
        items=_hints(part["items"], root, known) if "items" in part else None,
        others=_hints(others, root, known) if isinstance(others, dict) else None,
    )


def _types(part: Schema) -> list[str]:
    types = part.get("type", [])
    return [types] if isinstance(types, str) else list(types)


def _text_kind(part: Schema) -> TextKind | None:
    """What a schema lets stand decides, so that a new key is looked at without anybody thinking of it."""
    if "string" not in _types(part) or {"enum", "const", "format"} & part.keys() or part.get("x-prose") is False:
        return None
    fits = re.compile(part.get("pattern", "")).search
    if fits("any words"):
        return "words"
    if fits("https://host.example/"):
        return "link"
    return "id" if fits("b017-a") else None


def _text_places(part: Any, root: Schema, known: dict[str, TextPlaces]) -> TextPlaces | None:
    """None where no text stands below."""
    reference = part.get("$ref") if isinstance(part, dict) else None
    if reference is not None:
        if reference not in known:
            # Set before going down: the tree of systems leads back here.
            known[reference] = TextPlaces(kind=None)
            made = _text_places(_target(reference, root), root, known)
            known[reference].keys.update(made.keys if made is not None else {})
        return known[reference]
    if not isinstance(part, dict):
        return None
    inner = {key: _text_places(value, root, known) for key, value in part.get("properties", {}).items()}
    others = part.get("additionalProperties")
    places = TextPlaces(
        kind=_text_kind(part),
        keys={key: value for key, value in inner.items() if value is not None},
        items=_text_places(part["items"], root, known) if "items" in part else None,
        others=(_text_places(others, root, known) or TextPlaces(kind=None)) if isinstance(others, dict) else None,
    )
    return places if places.kind or places.keys or places.items or places.others else None


def _target(reference: str, root: Schema) -> Any:
    target: Any = root
    for step in reference.removeprefix("#").strip("/").split("/"):
        target = target[step]
    return target


def to_data(node: Node, hints: Hints | None, at: Pointer, lost: list[Pointer]) -> Any:
    """Turn a tree into plain data: text, numbers, true and false where the schema has them, lists, dictionaries.

    Args:
        node: the tree; its depth is bounded by the parser.
        hints: of its place in the schema; None where the schema knows no such place.
        at: its pointer.
        lost: gets the pointers of values that were refused when the text was read.
    """
    met: list[Lost] = []
    data = _data(node, hints, met)
    if met:
        lost += _lost(node, at)
    return data


def _data(node: Node, hints: Hints | None, met: list[Lost]) -> Any:
    """The data; what was refused is put in `met`, and where it stands is asked only if there is any."""
    kind = type(node)
    if kind is Scalar:
        return _scalar(node, hints)  # type: ignore[arg-type]
    if kind is Mapping:
        return _keys(node, hints, met)  # type: ignore[arg-type]
    if kind is Sequence:
        inner = None if hints is None else hints.items
        return [_data(each, inner, met) for each in node.items]  # type: ignore[union-attr]
    met.append(node)  # type: ignore[arg-type]
    return None


def _keys(node: Mapping, hints: Hints | None, met: list[Lost]) -> dict[str, Any]:
    data = {}
    for key, (_, value) in node.entries.items():
        inner = None if hints is None else hints.properties.get(key, hints.others)
        kind = type(value)
        if kind is Scalar:
            data[key] = _scalar(value, inner)  # type: ignore[arg-type]
        elif kind is Lost:
            met.append(value)  # type: ignore[arg-type]
        else:
            data[key] = _data(value, inner, met)
    return data


def _lost(node: Node, at: Pointer) -> Iterator[Pointer]:
    if isinstance(node, Lost):
        yield at
    elif isinstance(node, Mapping):
        for key, (_, value) in node.entries.items():
            yield from _lost(value, (*at, key))
    elif isinstance(node, Sequence):
        for index, value in enumerate(node.items):
            yield from _lost(value, (*at, index))


def _scalar(node: Scalar, hints: Hints | None) -> object:
    if hints is None or not hints.converts or not node.plain:
        return node.value
    types = hints.types
    if "number" in types or "integer" in types:
        return _number(node.value, whole="number" not in types)
    if "boolean" in types and node.value in {"true", "false"}:
        return node.value == "true"
    return node.value


def _number(text: str, *, whole: bool) -> object:
    if len(text) > _LONGEST_NUMBER or _NUMBER.fullmatch(text) is None:
        return text
    value = float(text)
    if not math.isfinite(value):
        return text
    if value == int(value) and (whole or "." not in text):
        return int(value)
    return value
