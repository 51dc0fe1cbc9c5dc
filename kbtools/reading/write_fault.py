"""A fault as plain data in the order in which people write it, defaults left out, and as YAML: the way back.

Cases, models and shared checks as plain data come by the same way, for whoever hands the files' contents on.

Nothing is listed here but what differs between the typed values and a file: the fields of the values stand in the
order of the schema's keys and mostly bear their names, so a new field is written without anybody thinking of it.
"""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Iterator, Mapping
from typing import Any, Final

from kbtools.model.case import Case, SeenCode
from kbtools.model.catalogue import Model
from kbtools.model.check import Check, Reading, Use
from kbtools.model.codes import CodeReading
from kbtools.model.fault import CodeRow, Fault
from kbtools.model.money import Distance, Range, Speed
from kbtools.model.shared import SharedCheck
from kbtools.model.years import Years
from kbtools.reading.annotated import plain_data
from kbtools.reading.canonical import canonical
from kbtools.reading.shape import Hints
from kbtools.reading.typed_fault import SHARE_WORDS
from kbtools.text.terminal import escaped

_KEYS: Final[Mapping[tuple[type, str], str]] = {
    (CodeRow, "read"): "code",
    (SeenCode, "read"): "code",
    (CodeRow, "with_codes"): "with",
    (Reading, "place"): "at",
}
"""Fields that bear another name than their key."""

_UNWRITTEN: Final = frozenset(
    {
        *((kind, name) for kind in (Fault, Case, Model) for name in ("id", "path", "damaged")),
        *((Check, "finds_said"), (Check, "use"), (Check, "good_for")),
    }
)
"""What a file does not say of itself. Nor is an `at` written anywhere: it says where a value stands."""

_DEFAULTS: Final[Mapping[tuple[type, str], object]] = {
    (Check, "bike"): "off",
    (Check, "cost"): 0,
}
"""What is meant where a key is not there; no is the default of every yes or no."""

SHARE_NAMES: Final[Mapping[float, str]] = {weight: word for word, weight in SHARE_WORDS.items()}
"""The words for the weights of shares that have one."""

_EXACT: Final = 10.0**15
"""Up to here whole numbers are written without a point; the digits of longer ones would be taken for a text."""


def as_yaml(fault: Fault, hints: Hints) -> str:
    """The text of a file in the canonical form that reads as this fault, but for what could not be read of it.

    It goes to terminals and logs as it is: what these would obey is an escape, which `for_terminal` lets be.

    Args:
        fault: to be written.
        hints: of the schema of faults.
    """
    return escaped(canonical(plain_data(as_data(fault)), hints, printed=True))


def as_data(fault: Fault) -> dict[str, Any]:
    """Mappings, lists, texts, numbers and dates that, written as YAML, read as this fault."""
    data: dict[str, Any] = plain(fault)
    shared = [cause for cause in data.get("causes", ()) if "share" in cause]
    # Beside a 70, "often" would mislead.
    if all(cause["share"] in SHARE_NAMES for cause in shared):
        for cause in shared:
            cause["share"] = SHARE_NAMES[cause["share"]]
    return data


def case_as_data(case: Case) -> dict[str, Any]:
    """As `as_data`, of a case report."""
    data: dict[str, Any] = plain(case)
    for row in data.get("codes", ()):
        if "freeze_frame" in row:
            row["freeze_frame"] = dict(row["freeze_frame"])
    return data


def model_as_data(model: Model) -> dict[str, Any]:
    """As `as_data`, of a model."""
    data: dict[str, Any] = plain(model)
    return data


def shared_as_data(shared: SharedCheck) -> dict[str, Any]:
    """As `as_data`, of a row of `checks.yml`."""
    good_for = {"good_for": plain(shared.check.good_for)} if shared.check.good_for else {}
    return {
        **plain(shared.check),
        **good_for,
        **{key: plain(value) for key in ("sources", "look_first_for") if (value := getattr(shared, key))},
    }


_AS_THEY_ARE: Final = frozenset({str, bool, int})
_TEXTS: Final = (Years, CodeReading)
_MEASURES: Final = (Distance, Speed)


def plain(value: object) -> Any:  # noqa: PLR0911 (a line for each kind of value)
    """A value of an entry as it is written."""
    kind = type(value)
    if value is None or kind in _AS_THEY_ARE:
        return value
    if kind is tuple:
        return [plain(each) for each in value]  # type: ignore[attr-defined]
    if isinstance(value, _TEXTS):
        return value.text
    if isinstance(value, _MEASURES):
        return f"{value.value} {value.unit}"
    if isinstance(value, Range):
        value = value.low if value.low == value.high else (value.low, value.high)
    if isinstance(value, tuple):
        return [plain(each) for each in value]
    if isinstance(value, float):
        return int(value) if value.is_integer() and abs(value) < _EXACT else value
    if dataclasses.is_dataclass(value):
        return {key: plain(inner) for key, inner in said(value) if not _is_default(value, key, inner)}
    return value


def said(row: object) -> Iterator[tuple[str, Any]]:
    """What a mapping of a file says, defaults too, in order: key, typed value; what says nothing is left out.

    Args:
        row: a fault, or a value of one that is a mapping in the file.
    """
    if isinstance(row, Check) and row.use is not None:
        yield from _said_by_use(row, row.use)
        return
    for name, key in _keys(type(row)):  # type: ignore[arg-type]  # a class can be hashed
        if name == "finds" and not row.finds_said:  # type: ignore[attr-defined]
            continue
        value = getattr(row, name)
        if value is not None and value != ():
            yield key, value


@functools.cache
def _keys(kind: type[Any]) -> tuple[tuple[str, str], ...]:
    """The fields of such values that are written, each with its key: asked for every row of a base."""
    names = (each.name for each in dataclasses.fields(kind))
    return tuple(
        (name, _KEYS.get((kind, name), name)) for name in names if name != "at" and (kind, name) not in _UNWRITTEN
    )


def _said_by_use(check: Check, use: Use) -> Iterator[tuple[str, Any]]:
    """What a row says that uses a shared check: all else stands in `checks.yml`."""
    reading = check.reading
    means = {"points_to": check.points_to}
    if reading is not None:
        means |= {"low_points_to": reading.low_points_to, "high_points_to": reading.high_points_to}
    yield "use", check.id
    yield from ((key, causes) for key, causes in means.items() if causes)
    if use.finds_said:
        yield "finds", check.finds
    if use.before_riding:
        yield "before_riding", True


def _is_default(row: object, key: str, value: object) -> bool:
    return value is False or _DEFAULTS.get((type(row), key)) == value
