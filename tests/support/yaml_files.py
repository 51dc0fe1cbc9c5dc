"""PyYAML's own loaders and dumper, by libyaml where it has it: they give the same in a tenth of the time."""

from __future__ import annotations

import re
from typing import Any, Final

import yaml

BASE: Final[Any] = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""Takes every scalar as text. To YAML 1.1 the key `on` is true."""
SAFE: Final[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""Values as YAML 1.1 has them."""
PLAIN: Final[Any] = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
"""Writes plain values."""


class _Core(yaml.SafeLoader):
    """Values as YAML 1.2 has them by its core schema, section 10.3.2; PyYAML's own rules are those of YAML 1.1."""

    yaml_implicit_resolvers: dict[str, list[tuple[str, re.Pattern[str]]]] = {}  # noqa: RUF012 (PyYAML's own)


for _tag, _pattern, _first in (
    ("bool", "true|True|TRUE|false|False|FALSE", "tTfF"),
    ("null", "~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("int", "[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", "-+0123456789"),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", "-+.0123456789"),
    ("float", r"[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)", "-+."),
):
    _Core.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(f"(?:{_pattern})\\Z"), list(_first))


def core_load(text: str) -> Any:
    """What a reader of YAML 1.2 takes a text for; days are texts there."""
    return yaml.load(text, Loader=_Core)
