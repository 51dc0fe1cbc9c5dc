"""Whether data has the form that a schema asks for, yes or no: most files have it, and that is soon told.

jsonschema says what is wrong, and is asked only where something is. It looks at the schema anew at every value, which
would take most of the time of reading; jsonschema-rs makes a schema ready once. What the two read in different ways,
patterns and formats, is left to Python in both.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Final

from jsonschema_rs import ValidationError, validator_for

if TYPE_CHECKING:
    from jsonschema import Draft202012Validator, FormatChecker

Test = Callable[[Any], bool]
"""Whether a value passes."""

_FORMATS: Final = ("date",)
"""The only format in use; the others would each bring a dependency."""


def told(schema: Any) -> Draft202012Validator:
    """Jsonschema for a schema: what is wrong, and where. Made when it is asked for."""
    # It takes as long to load as all the rest of a command, and where all files are known nobody needs it.
    from jsonschema import Draft202012Validator  # noqa: PLC0415

    return Draft202012Validator(schema, format_checker=_checker())


@functools.cache
def _checker() -> FormatChecker:
    from jsonschema import FormatChecker  # noqa: PLC0415

    return FormatChecker(_FORMATS)


def _conforms(value: object, name: str) -> bool:
    return _checker().conforms(value, name)


class _Pattern:
    """A pattern as Python reads it: in Rust U+001C and U+0085 are no blanks, and `$` stands at the very end only."""

    def __init__(self, _schema: dict[str, Any], pattern: str, _path: list[str | int]) -> None:
        self._search = re.compile(pattern).search

    def validate(self, instance: object) -> None:
        """Refuse a text, as jsonschema-rs asks for it: by an exception."""
        if isinstance(instance, str) and self._search(instance) is None:
            raise ValueError


def compiled(schema: Any) -> Test:
    """The function of a schema.

    Returns:
        A function of plain data as it is read from files: texts, numbers that are finite, true and false, lists, and
        dictionaries by texts. It is True only for data in which jsonschema finds nothing wrong. It may be False for
        data of which nothing can be said here: then jsonschema must be asked.
    """
    try:
        ready = validator_for(
            schema,
            # Rust's calendar has a year 0, Python's has none.
            formats={name: functools.partial(_conforms, name=name) for name in _FORMATS},
            validate_formats=True,
            keywords={"pattern": _Pattern},
        )
    except ValidationError as refused:
        # Here the text alone says what was raised inside; no data stands in it yet.
        if "KeyboardInterrupt" in refused.message:
            raise KeyboardInterrupt from refused
        raise

    def passes(data: Any) -> bool:
        try:
            ready.validate(data)
        except ValidationError as refused:
            # jsonschema-rs takes whatever Python raises inside of it for a refusal. Asked of the refusal, Ctrl-C is
            # heeded at any moment: Python looks for it at the first line of a function, before any `try` in it.
            if isinstance(refused.__cause__, KeyboardInterrupt):
                raise KeyboardInterrupt from refused
            return False
        except ValueError:
            # Half a pair of UTF-16, for instance, which is no text outside of Python.
            return False
        return True

    return passes
