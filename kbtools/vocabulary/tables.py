"""Vocabulary files as values. Each is YAML of one shape, `schemas/vocabulary.schema.json`; so is a club's `words.yml`.

Nothing is checked here: the tests hold our files against the schema, and reading holds `words.yml` against its own.
"""

from __future__ import annotations

import functools
import json
from collections.abc import Iterator
from typing import Any

import yaml

from kbtools.model.vocabulary import GROUP_KINDS, Axis, Group, GroupKind, Tables, WordGroup, Words

# Every scalar is the author's characters, so that `no` and `10` need no quotes.
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
_JSON = "\x00"
"""Before JSON; no YAML has the sign."""


@functools.lru_cache(maxsize=2)
def shipped_words(tables: Tables) -> tuple[Words, ...]:
    """What each of our files says; kept, since they stay what they are."""
    return tuple(words_of_data(plain_data(text), name) for name, text in tables.files)


def plain_data(text: str) -> Any:
    """A file of ours as lists, mappings and texts. What was read before may be given as JSON, which reads at once."""
    if text.startswith(_JSON):
        return json.loads(text.removeprefix(_JSON))
    # No object can come of it: the loader makes lists, mappings and texts.
    return yaml.load(text, Loader=_LOADER)  # noqa: S506


def as_json(text: str) -> str:
    """The same file as `plain_data` reads it fastest: in a twentieth of the time."""
    return _JSON + json.dumps(plain_data(text), ensure_ascii=False, separators=(",", ":"))


def words_of_data(data: Any, source: str) -> Words:
    """What the plain data of a file says; what has not its form is left out.

    Args:
        data: a mapping of the schema, or a list of groups that mean the same.
        source: the name of the file without its ending.
    """
    if isinstance(data, list):
        return Words(source=source, groups=tuple(_groups("same", data, "")))
    told = data if isinstance(data, dict) else {}
    # `words` is what `same` was called when a file knew nothing else.
    rows = [("same", "words"), *((kind, kind) for kind in GROUP_KINDS)]
    groups = [group for kind, key in rows for group in _groups(kind, told.get(key), f"/{key}")]
    dangers = told["danger"] if isinstance(told.get("danger"), dict) else {}
    return Words(
        source=source,
        groups=tuple(groups),
        opposites=tuple(_axes(told.get("opposites"))),
        neither=_phrases(told.get("neither")),
        dangers=tuple((str(kind), _phrases(each)) for kind, each in dangers.items())
        if isinstance(dangers, dict)
        else (),
        harmless=_phrases(told.get("harmless")),
        fails=tuple(_phrases(each) for each in _list(told.get("fails"))),
        codes=tuple(_phrases(each) for each in _list(told.get("codes"))),
        opposite_codes=tuple(_phrases(each) for each in _list(told.get("opposite_codes"))),
        apart=tuple(_groups("kin", told.get("apart"), "/apart")),
        without=_phrases(told.get("without")),
    )


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


def _phrases(value: Any) -> Group:
    return tuple(each for each in _list(value) if isinstance(each, str))


def _groups(kind: GroupKind, rows: Any, at: str) -> Iterator[WordGroup]:
    for number, row in enumerate(_list(rows)):
        if isinstance(row, list):
            yield WordGroup(kind=kind, phrases=_phrases(row), at=f"{at}/{number}")


def _axes(rows: Any) -> Iterator[Axis]:
    for number, row in enumerate(_list(rows)):
        sides = tuple(_phrases(side) for side in _list(row.get("sides"))) if isinstance(row, dict) else ()
        if sides:
            yield Axis(
                name=str(row.get("name", "")),
                sides=sides,
                neither=_phrases(row.get("neither")),
                # Of more than two sides each is one of many things of a kind: which gear, which lamp.
                place=row.get("places") in {True, "true"} or len(sides) > 2,
                at=f"/opposites/{number}",
            )
