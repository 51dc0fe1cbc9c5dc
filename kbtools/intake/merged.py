"""What a case says once a later report has brought it up to date."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

Data = Mapping[str, Any]

_OF_THEN: Final = ("seen", "follows", "source")
"""What stays as it was told first: the day of the trouble, what it follows, who told it."""
_LISTS: Final = ("conditions", "symptoms", "tried")
_BETWEEN: Final = "\n\n"
"""Between what was noted then and later: a paragraph each."""


def merged(old: Data, new: Data) -> dict[str, Any]:
    """A case with what a later report says of the same trouble.

    Machine, odometer and day stay those of the trouble. Lists go on with what is new; how it ended is as told last; a
    note goes on with the later one. Nothing that was said is lost but what is said otherwise now.
    """
    made = {**old, **{key: value for key, value in new.items() if key not in _OF_THEN}}
    vehicle = {**new.get("vehicle", {}), **old.get("vehicle", {})}
    made["vehicle"] = _with_list(vehicle, "modified", old.get("vehicle", {}), new.get("vehicle", {}))
    for key in _LISTS:
        made = _with_list(made, key, old, new)
    if "codes" in old or "codes" in new:
        made["codes"] = _codes(old.get("codes", ()), new.get("codes", ()))
    made["outcome"] = _outcome(old.get("outcome", {}), new.get("outcome", {}))
    return made


def _with_list(made: Data, key: str, old: Data, new: Data) -> dict[str, Any]:
    found = list(old.get(key, ()))
    known = [_folded(each) for each in found]
    found += [each for each in new.get(key, ()) if _folded(each) not in known]
    return {**made, key: found} if found else dict(made)


def _folded(value: Any) -> Any:
    return value.casefold() if isinstance(value, str) else value


def _codes(old: Sequence[Data], new: Sequence[Data]) -> list[dict[str, Any]]:
    """One row a code; what is said of it later counts."""
    rows: dict[str, dict[str, Any]] = {}
    for each in (*old, *new):
        code = str(each.get("code", "")).upper()
        rows[code] = {**rows.get(code, {}), **each, "code": rows.get(code, each).get("code")}
    return list(rows.values())


def _outcome(old: Data, new: Data) -> dict[str, Any]:
    made = _with_list({**old, **new}, "also", old, new)
    if "paid" in old or "paid" in new:
        made["paid"] = {**old.get("paid", {}), **new.get("paid", {})}
    notes = [old.get("note", ""), new.get("note", "")]
    if all(notes) and notes[1].strip() not in notes[0]:
        made["note"] = notes[1] if notes[0].strip() in notes[1] else f"{notes[0].rstrip()}{_BETWEEN}{notes[1]}"
    elif notes[0]:
        made["note"] = notes[0]
    return made
