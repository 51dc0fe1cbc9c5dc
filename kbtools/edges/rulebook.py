"""Finds the rules by the names of their modules, and carries their samples out, each once a process."""

from __future__ import annotations

import functools
import importlib
import json
import pkgutil
from collections.abc import Iterable

from kbtools import rules
from kbtools.diagnostics import Finding
from kbtools.edges.shipped import schema_files, tables
from kbtools.linting.explained import Explained, explained
from kbtools.linting.run import Rulebook, broke
from kbtools.reading.shape import load_shapes
from kbtools.rules.form import FORM
from kbtools.rules.rule import Rule
from kbtools.rules.shape import SHAPE


@functools.cache
def rulebook() -> Rulebook:
    """Every rule: the tables of KB1 and KB2, and the module of each other one, whose name starts with `kb`."""
    walked = (each.name for each in pkgutil.walk_packages(rules.__path__, f"{rules.__name__}."))
    return load(each for each in walked if each.rpartition(".")[2].startswith("kb"))


def load(modules: Iterable[str]) -> Rulebook:
    """Load the rules of these modules; one that cannot be loaded is a finding, and the others still count."""
    found: list[Rule] = [*FORM, *SHAPE]
    broken: dict[str, Finding] = {}
    for module in modules:
        try:
            found.append(importlib.import_module(module).RULE)
        except Exception as error:
            name = module.rpartition(".")[2]
            code = name.split("_")[0].upper()
            broken[code] = broke(f"Rule {code} cannot be loaded ({name}): {type(error).__name__}: {error}.")
    return Rulebook(rules=tuple(sorted(found, key=lambda rule: rule.code)), broken=broken)


def explained_rules() -> tuple[Explained, ...]:
    """Every rule with its sample, by code. A schema that was edited since is heeded."""
    return _explained(json.dumps(schema_files()))


@functools.lru_cache(maxsize=1)
def _explained(schemas: str) -> tuple[Explained, ...]:
    return explained(rulebook(), load_shapes(json.loads(schemas)), tables())
