"""Finds the rules by the names of their modules, and carries their samples out, each once a process."""

from __future__ import annotations

import functools
import hashlib
import importlib
import json
import pkgutil
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict

from kbtools import rules
from kbtools.diagnostics import Finding, as_finding
from kbtools.edges.shipped import schema_files, tables
from kbtools.linting.explained import Explained, carried_out, explained
from kbtools.linting.one_rule import broke
from kbtools.linting.run import Rulebook
from kbtools.model.memory import Memory
from kbtools.reading.shape import load_shapes
from kbtools.rules.form import FORM
from kbtools.rules.rule import Rule
from kbtools.rules.shape import SHAPE

_WORK = "samples"


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


def explained_rules(memory: Memory | None = None) -> tuple[Explained, ...]:
    """Every rule with its sample, by code. A schema that was edited since is heeded.

    What the check says of the samples follows from the programs alone: a memory knows it from an earlier run.
    """
    schemas = json.dumps(schema_files())
    if schemas not in _SAMPLES:
        _SAMPLES.clear()
        _SAMPLES[schemas] = explained(rulebook(), _carried_out(schemas, memory))
    return _SAMPLES[schemas]


_SAMPLES: dict[str, tuple[Explained, ...]] = {}
"""By the schemas, of one state only: while serving they may be edited again and again."""


def _carried_out(schemas: str, memory: Memory | None) -> Mapping[str, Sequence[Finding]]:
    asked = hashlib.sha256(schemas.encode()).digest()
    known = None if memory is None else memory.worked_out(_WORK, asked)
    if known is not None:
        return {code: [as_finding(row) for row in rows] for code, rows in known.items()}
    found = carried_out(rulebook(), load_shapes(json.loads(schemas)), tables())
    if memory is not None:
        memory.keep_worked_out(_WORK, asked, {code: [asdict(each) for each in rows] for code, rows in found.items()})
    return found
