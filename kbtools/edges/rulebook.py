"""The rules with their samples carried out, once a process."""

from __future__ import annotations

import functools
import json

from kbtools.edges.folder import schema_files
from kbtools.linting.explained import Explained, explained
from kbtools.reading.shape import load_shapes


def explained_rules() -> tuple[Explained, ...]:
    """Every rule with its sample, by code. A schema that was edited since is heeded."""
    return _explained(json.dumps(schema_files()))


@functools.lru_cache(maxsize=1)
def _explained(schemas: str) -> tuple[Explained, ...]:
    return explained(load_shapes(json.loads(schemas)))
