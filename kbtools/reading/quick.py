"""Schemas turned into functions that only say whether data has the form: most files have it, and that is soon told.

jsonschema says what is wrong, and is asked only where something is. It looks at the schema anew at every value, which
takes most of the time of reading. What is said here of a keyword is what JSON Schema 2020-12 says of it, for the
keywords that our schemas use; a schema with another one gets no function, and is always held against by jsonschema.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any

from jsonschema import FormatChecker

Test = Callable[[Any], bool]
"""Whether a value passes."""

_NOTES = frozenset(
    {
        "$schema",
        "$id",
        "$defs",
        "title",
        "description",
        "default",
        "examples",
        "x-plain",
        "x-prose",
        "patternErrorMessage",
    }
)
"""Keywords that refuse nothing."""

_PAIRED = frozenset({"then", "else"})
"""Read together with `if`."""


FORMATS = FormatChecker(["date"])
"""The only format in use; the others would each bring a dependency."""


class _UnknownKeywordError(Exception):
    """The schema says something that is not known here; never leaves this module."""


class _UnsureError(Exception):
    """A value is of a kind that no schema of ours has in mind; never leaves this module."""


def compiled(schema: Any) -> Test:
    """The function of a schema.

    Returns:
        A function that is True only for data in which jsonschema finds nothing wrong. It may be False for data of
        which nothing can be said here: then jsonschema must be asked.
    """
    try:
        test = _test(schema, schema, {})
    except _UnknownKeywordError:
        return lambda _: False

    def passes(data: Any) -> bool:
        try:
            return test(data)
        except _UnsureError:
            return False

    return passes


def _test(part: Any, root: Any, known: dict[str, Test]) -> Test:
    if part is True or part == {}:
        return lambda _: True
    if part is False:
        return lambda _: False
    tests = list(_tests(part, root, known))
    if len(tests) == 1:
        return tests[0]

    def every(value: Any) -> bool:
        for test in tests:  # noqa: SIM110 - a generator in all() takes twice as long
            if not test(value):
                return False
        return True

    return every


def _tests(part: dict[str, Any], root: Any, known: dict[str, Test]) -> Iterable[Test]:
    for keyword, value in part.items():
        if keyword in _NOTES or (keyword in _PAIRED and "if" in part):
            continue
        if keyword in _PLAIN:
            yield _PLAIN[keyword](value)
        elif keyword in _NESTED:
            yield _NESTED[keyword](value, part, lambda inner: _test(inner, root, known))
        elif keyword == "$ref":
            yield _reference(value, root, known)
        else:
            raise _UnknownKeywordError(keyword)


def _reference(name: str, root: Any, known: dict[str, Test]) -> Test:
    """Inside the same schema only; known beforehand, because the tree of systems leads back into itself."""
    if not name.startswith("#"):
        raise _UnknownKeywordError(name)
    if name not in known:
        known[name] = lambda value: found(value)  # noqa: PLW0108 - it is not there yet
        target: Any = root
        for step in name.removeprefix("#").strip("/").split("/"):
            target = target[step] if step else target
        found = _test(target, root, known)
        known[name] = found
    return known[name]


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _is_integer(value: Any) -> bool:
    return not isinstance(value, bool) and (isinstance(value, int) or (isinstance(value, float) and value.is_integer()))


_KINDS: dict[str, Test] = {
    "string": lambda value: isinstance(value, str),
    "number": _is_number,
    "integer": _is_integer,
    "boolean": lambda value: isinstance(value, bool),
    "array": lambda value: isinstance(value, list),
    "object": lambda value: isinstance(value, dict),
}


def _type(names: str | list[str]) -> Test:
    wanted = [names] if isinstance(names, str) else names
    if not set(wanted) <= set(_KINDS):
        raise _UnknownKeywordError(str(names))
    tests = [_KINDS[name] for name in wanted]
    if len(tests) == 1:
        return tests[0]
    return lambda value: any(test(value) for test in tests)


def _pattern(pattern: str) -> Test:
    search = re.compile(pattern).search
    return lambda value: not isinstance(value, str) or search(value) is not None


def _format(name: str) -> Test:
    if name not in FORMATS.checkers:
        raise _UnknownKeywordError(name)

    return lambda value: FORMATS.conforms(value, name)


def _one_of(allowed: list[Any]) -> Test:
    if all(isinstance(each, str) for each in allowed):
        words = frozenset(allowed)
        return lambda value: isinstance(value, str) and value in words
    if all(isinstance(each, bool) for each in allowed):
        return lambda value: any(value is each for each in allowed)
    # Python holds 1, 1.0 and True for the same; JSON Schema does not.
    raise _UnknownKeywordError(str(allowed))


def _required(keys: list[str]) -> Test:
    wanted = frozenset(keys)
    return lambda value: not isinstance(value, dict) or wanted <= value.keys()


def _unique(wanted: bool) -> Test:
    def unique(value: Any) -> bool:
        if not wanted or not isinstance(value, list):
            return True
        if not all(isinstance(each, str) for each in value):
            raise _UnsureError
        return len(set(value)) == len(value)

    return unique


_PLAIN: dict[str, Callable[[Any], Test]] = {
    "type": _type,
    "pattern": _pattern,
    "format": _format,
    "enum": _one_of,
    "const": lambda wanted: _one_of([wanted]),
    "required": _required,
    "uniqueItems": _unique,
    "minItems": lambda limit: lambda value: not isinstance(value, list) or len(value) >= limit,
    "maxItems": lambda limit: lambda value: not isinstance(value, list) or len(value) <= limit,
    "minimum": lambda limit: lambda value: not _is_number(value) or value >= limit,
    "maximum": lambda limit: lambda value: not _is_number(value) or value <= limit,
    "exclusiveMinimum": lambda limit: lambda value: not _is_number(value) or value > limit,
    "exclusiveMaximum": lambda limit: lambda value: not _is_number(value) or value < limit,
    "maxLength": lambda limit: lambda value: not isinstance(value, str) or len(value) <= limit,
    "maxProperties": lambda limit: lambda value: not isinstance(value, dict) or len(value) <= limit,
}
"""Keywords that hold no schemas."""

Make = Callable[[Any], Test]
"""Makes the function of an inner schema."""


def _properties(by_key: dict[str, Any], _part: dict[str, Any], make: Make) -> Test:
    tests = {key: make(inner) for key, inner in by_key.items()}

    def pass_by_key(value: Any) -> bool:
        if isinstance(value, dict):
            for key, inner in value.items():
                test = tests.get(key)
                if test is not None and not test(inner):
                    return False
        return True

    return pass_by_key


def _others(other: Any, part: dict[str, Any], make: Make) -> Test:
    named = frozenset(part.get("properties", {}))
    test = make(other)
    if other is False:
        return lambda value: not isinstance(value, dict) or value.keys() <= named
    return lambda value: (
        not isinstance(value, dict) or all(test(inner) for key, inner in value.items() if key not in named)
    )


def _items(each: Any, _part: dict[str, Any], make: Make) -> Test:
    test = make(each)

    def pass_each(value: Any) -> bool:
        if isinstance(value, list):
            for inner in value:
                if not test(inner):
                    return False
        return True

    return pass_each


def _keys(each: Any, _part: dict[str, Any], make: Make) -> Test:
    test = make(each)
    return lambda value: not isinstance(value, dict) or all(test(key) for key in value)


def _if(condition: Any, part: dict[str, Any], make: Make) -> Test:
    holds, then, other = make(condition), make(part.get("then", True)), make(part.get("else", True))
    return lambda value: then(value) if holds(value) else other(value)


def _not(inner: Any, _part: dict[str, Any], make: Make) -> Test:
    test = make(inner)
    return lambda value: not test(value)


def _all_of(parts: list[Any], _part: dict[str, Any], make: Make) -> Test:
    tests = [make(each) for each in parts]
    return lambda value: all(test(value) for test in tests)


def _dependent(by_key: dict[str, Any], _part: dict[str, Any], make: Make) -> Test:
    tests = {key: make(inner) for key, inner in by_key.items()}
    return lambda value: not isinstance(value, dict) or all(test(value) for key, test in tests.items() if key in value)


_NESTED: dict[str, Callable[[Any, dict[str, Any], Make], Test]] = {
    "properties": _properties,
    "additionalProperties": _others,
    "propertyNames": _keys,
    "items": _items,
    "if": _if,
    "not": _not,
    "allOf": _all_of,
    "dependentSchemas": _dependent,
}
"""Keywords that hold schemas."""
