"""The words in which the form of a file is told: what was asked for, what stands there, and how it is written."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from kbtools.reading.meant import flow, meant
from kbtools.reading.shape import Pointer, Schema
from kbtools.text.nearest import did_you_mean

_KIND_WORDS = {
    "string": "a text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "array": "a list",
    "object": "keys with values",
}
_MOST_KEYS = 4
"""Of an example, so that it stays one line."""


def name(at: Pointer) -> str:
    """How the author calls the place: the key, for a list's member with its number."""
    if not at:
        return "the file"
    if isinstance(at[-1], int):
        return f"{name(at[:-1])} {at[-1] + 1}"
    return str(at[-1])


def key_of(at: Pointer) -> str:
    """The key that a place stands under; empty for the file."""
    return next((each for each in reversed(at) if isinstance(each, str)), "")


def wanted(types: str | list[str]) -> str:
    """What may stand there, in words."""
    names = [types] if isinstance(types, str) else types
    if names == ["number", "array"]:
        return "a number or a range [low, high]"
    return " or ".join(dict.fromkeys(_KIND_WORDS[each] for each in names))


def seen(value: Any) -> str:
    """What stands there, in words."""
    if isinstance(value, dict):
        return "keys with values stand there"
    if isinstance(value, list):
        return "a list stands there"
    if value == "":
        return "nothing stands there"
    return f"{quoted(value)} stands there"


def quoted(value: Any) -> str:
    """A value of the author."""
    return f'"{brief(value)}"'


def brief(value: Any) -> str:
    """A value of the author, cut so that a message can repeat it."""
    text = str(value)
    return text if len(text) <= 60 else f"{text[:57]}…"


def example(key: str, schema: Schema) -> str:
    """How a key is written, by the schema's own example; empty where there is none."""
    examples = schema.get("examples")
    if not examples:
        return ""
    value = examples[0]
    if isinstance(value, dict) and len(value) > _MOST_KEYS:
        value = dict(list(value.items())[:_MOST_KEYS])
        return f"{key}: {flow(value)[:-1]}, …}}"
    if isinstance(value, list) and value and isinstance(value[0], dict):
        # A list of rows is easier to write one row a line, each with its dash.
        return f"{key}:` and below it, a row each: `  - {flow(value[0])}"
    return f"{key}: {flow(value)}"


def like(key: str, schema: Schema, *, row: bool = False) -> str:
    """A sentence that shows how it is written; empty where the schema has no example."""
    if row and schema.get("examples"):
        return f"Write it like this: `- {flow(schema['examples'][0])}`."
    shown = example(key, schema)
    return f"Write it like this: `{shown}`." if shown else ""


def remedy(at: Pointer, value: Any, schema: Schema) -> str:
    """What to write in the place of a value: what was meant, if that can be told, else how it is written."""
    key = key_of(at)
    guess = meant(key, value, schema)
    if guess is not None:
        return " ".join(filter(None, (guess.why, f'Write "{guess.write}".')))
    row = bool(at) and isinstance(at[-1], int)
    told = [schema.get("description", ""), like(key, schema, row=row)]
    return " ".join(filter(None, told)) or f"Write {wanted(schema['type'])}."


def cut_number(row: Mapping[str, Any], key: str) -> str:
    """What to do where a decimal comma has cut a number in two, between braces: `{price: 8,50}` has a key `50`."""
    before = list(row)[list(row).index(key) - 1]
    return f"A comma keeps values apart. Decimals have a point: `{before}: {row[before]}.{key}`."


def choice(value: Any, allowed: list[Any], schema: Schema) -> str:
    """What to write in the place of a word that is none of the list: its own word for it, then all with meanings."""
    also: Mapping[str, list[str]] = schema.get("x-also", {})
    word = " ".join(str(value).casefold().replace("_", " ").replace("-", " ").split())
    known = (name for name, others in also.items() if word in {each.replace("-", " ") for each in others})
    meaning = next(known, None) or _spelt(value, allowed)
    if meaning is not None:
        return f'The word for it is "{meaning}". Allowed: {", ".join(map(str, allowed))}.'
    texts = schema.get("markdownEnumDescriptions", [])
    if len(texts) == len(allowed):
        told = [f"{each} ({text.removesuffix('.')})" for each, text in zip(allowed, texts, strict=True)]
        return f"Allowed: {'; '.join(told)}."
    return f"Allowed: {', '.join(map(str, allowed))}."


def _spelt(value: Any, allowed: list[Any]) -> str | None:
    plain = str(value).strip().casefold().replace(" ", "-").replace("_", "-")
    return did_you_mean(plain, [str(each) for each in allowed])
