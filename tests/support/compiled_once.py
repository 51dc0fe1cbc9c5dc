"""Templates that a process compiles once: it takes half of a small build, and most tests are about the other half."""

from __future__ import annotations

from typing import Any

import pytest
from jinja2 import Environment

_COMPILED: dict[tuple[object, ...], Any] = {}


def compiled_once(patch: pytest.MonkeyPatch) -> None:
    """Keep what Jinja compiles, by a template's text and name and all settings that what is compiled follows."""
    own = Environment.compile

    def compile_or_remember(environment: Environment, source: Any, *rest: Any, **more: Any) -> Any:
        if not isinstance(source, str):
            return own(environment, source, *rest, **more)
        key = (source, *rest, *more.items(), *_settings(environment))
        if key not in _COMPILED:
            _COMPILED[key] = own(environment, source, *rest, **more)
        return _COMPILED[key]

    patch.setattr(Environment, "compile", compile_or_remember)


def _settings(environment: Environment) -> tuple[object, ...]:
    return (
        *(environment.autoescape, environment.finalize, environment.undefined, environment.is_async),
        *(environment.trim_blocks, environment.lstrip_blocks, environment.keep_trailing_newline),
        *(tuple(sorted(environment.extensions)), environment.optimized),
        *(tuple(environment.filters.items()), tuple(environment.tests.items())),
    )
