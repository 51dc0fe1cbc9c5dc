"""Schemas for an editor, made from a knowledge base: it then offers the ids that there are, with their names."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final

from kbtools.index.references import names
from kbtools.model.base import IdKind, KnowledgeBase

Schema = dict[str, Any]

_ROW: Final = "$defs/applies-to-row/properties"
_CAUSE: Final = "properties/causes/items/properties"
_FIX: Final = f"{_CAUSE}/fix/properties"
_CHECK: Final = "properties/checks/items/properties"
PLACES: Final[Mapping[str, Mapping[str, IdKind]]] = {
    "common": {f"{_ROW}/model": "model", "$defs/cautions/items": "caution"},
    "fault": {
        "properties/system": "system",
        "properties/cautions/items": "caution",
        "properties/related/items": "fault",
        "properties/distinct_from/items/properties/fault": "fault",
        "properties/withdrawn/properties/replaced_by": "fault",
        f"{_CAUSE}/component": "component",
        f"{_FIX}/tools/items": "tool",
        f"{_FIX}/access/items": "access job",
        f"{_FIX}/cautions/items": "caution",
        f"{_CHECK}/use": "shared check",
        f"{_CHECK}/tools/items": "tool",
        f"{_CHECK}/access/items": "access job",
        f"{_CHECK}/cautions/items": "caution",
    },
    "case": {
        "properties/vehicle/properties/model": "model",
        "properties/fault": "fault",
        "properties/follows": "case",
    },
    "checks": {f"{_CHECK}/look_first_for/items": "system"},
    "model": {"properties/control_units/items/properties/system": "system"},
    "systems": {
        "properties/components/items/properties/system": "system",
        "properties/access/items/properties/needs/items": "access job",
    },
}
"""Schema → the places where it takes an id of something that stands elsewhere in the base, and of what."""

_ENTRIES: Final = {"model": "models/*.yml", "fault": "faults/*/*.yml", "case": "cases/*/*.yml"}
_NO_FILE: Final = {"common", "page", "vocabulary"}
"""Schemas of no YAML file of a knowledge base."""


def settings_rows(names: Iterable[str], target: str, folder: str) -> dict[str, str]:
    """What an editor is told: the path of each schema, and which files it is for.

    Args:
        names: of the schemas' files.
        target: the folder that they are in.
        folder: of the knowledge base.
    """
    kinds = [kind for kind in (name.removesuffix(".schema.json") for name in names) if kind not in _NO_FILE]
    return {f"./{target}/{kind}.schema.json": f"{folder}/{_ENTRIES.get(kind, f'{kind}.yml')}" for kind in kinds}


def with_ids(schemas: Mapping[str, Schema], base: KnowledgeBase) -> dict[str, Schema]:
    """The schemas with the ids of a base at the places that take one.

    An id that is not there is still taken: it may be in the file that is written next. `kbtools check` tells of it.

    Args:
        schemas: by the names of their files.
        base: whose ids are offered.
    """
    made = copy.deepcopy(dict(schemas))
    for kind, places in PLACES.items():
        for pointer, of in places.items():
            part = made[f"{kind}.schema.json"]
            for step in pointer.split("/"):
                part = part[step]
            known = names(base, of)
            if known:
                part["anyOf"] = [_offered(known), {"type": "string"}]
    return made


def _offered(known: Mapping[str, Sequence[str]]) -> Schema:
    texts = ["; ".join(each) for each in known.values()]
    return {"enum": list(known), "markdownEnumDescriptions": texts}
