"""What jsonschema says against a file, as findings: one per mistake, at the place of the mistake, in plain words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, cast

from kbtools.diagnostics import Finding, Mark
from kbtools.reading.form_places import elsewhere, schema_at
from kbtools.reading.form_words import (
    brief,
    choice,
    cut_number,
    example,
    key_of,
    like,
    name,
    quoted,
    remedy,
    seen,
    wanted,
)
from kbtools.reading.limits import MOST_MISTAKES
from kbtools.reading.meant import meant
from kbtools.reading.places import exists, key_place, show, value_place
from kbtools.reading.shape import Pointer, Schema, Shape, to_data
from kbtools.reading.source import form_error
from kbtools.reading.tree import Node
from kbtools.text.nearest import did_you_mean

if TYPE_CHECKING:
    from jsonschema import ValidationError

_EITHER: tuple[set[str | int], ...] = ({"standard", "pattern"}, {"expect", "points_to", "reading"}, {"check", "fix"})
"""Keys of which one is asked for."""

_LIMITS = {"minimum": "at least", "exclusiveMinimum": "above", "maximum": "at most", "exclusiveMaximum": "below"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Formed:
    """A file's content as far as it has the form that its schema asks for."""

    data: Any
    """Plain data without the values that have findings; None where nothing is left."""
    damaged: frozenset[str]
    """JSON pointers of what was taken out, or is missing."""
    findings: tuple[Finding, ...]
    """What is wrong with the form."""


def form(path: str, root: Node, shape: Shape) -> Formed:
    """Hold a tree against its schema.

    Returns:
        The usable data and one finding for each mistake; what is wrong is taken out, so that nothing follows from it.
        Of a file with more mistakes than anybody mends one by one nothing is left.
    """
    lost: list[Pointer] = []
    data = to_data(root, shape.hints, (), lost)
    if not lost and shape.passes(data):
        return Formed(data=data, damaged=frozenset(), findings=())
    mistakes = _Mistakes(path, root, shape.schema, lost)
    for error in shape.validator.iter_errors(data):
        mistakes.add(error)
        if mistakes.full:
            break
    if mistakes.full:
        return Formed(data=None, damaged=frozenset({""}), findings=tuple(mistakes.findings()))
    damaged = {show(pointer) for pointer in mistakes.damaged}
    for pointer in sorted(mistakes.damaged, key=lambda each: [str(step).zfill(9) for step in each], reverse=True):
        data = _take_out(data, pointer, damaged)
    return Formed(data=data, damaged=frozenset(damaged), findings=tuple(mistakes.findings()))


def _take_out(data: Any, pointer: Pointer, damaged: set[str]) -> Any:
    """Remove one value; a list of plain texts goes whole, so that the others keep their places."""
    if not pointer:
        return None
    parent = data
    trail = [data]
    for step in pointer[:-1]:
        parent = _get(parent, step)
        trail.append(parent)
    last = pointer[-1]
    if isinstance(parent, dict):
        parent.pop(str(last), None)
    elif isinstance(parent, list) and isinstance(last, int) and last < len(parent):
        others = [each for place, each in enumerate(parent) if place != last]
        # What the list is of, its other members tell.
        if any(isinstance(each, dict) for each in others or parent):
            parent[last] = None
        elif len(pointer) > 1 and isinstance(trail[-2], dict):
            trail[-2].pop(str(pointer[-2]), None)
            damaged.add(show(pointer[:-1]))
        else:
            parent[last] = None
    return data


def _get(parent: Any, step: str | int) -> Any:
    if isinstance(parent, dict):
        return parent.get(str(step))
    if isinstance(parent, list) and isinstance(step, int) and step < len(parent):
        return parent[step]
    return None


class _Mistakes:
    """Collects errors so that each place gets one finding, the one that says most."""

    def __init__(self, path: str, root: Node, schema: Schema, lost: Iterable[Pointer]) -> None:
        self._path = path
        self._schema = schema
        self._root = root
        self._found: dict[Pointer, Finding] = {}
        self._meant: set[Pointer] = set()
        self.damaged: set[Pointer] = set(lost)

    @property
    def full(self) -> bool:
        """Whether there are so many that what follows is not looked at."""
        return len(self._found) >= MOST_MISTAKES

    def findings(self) -> list[Finding]:
        """The findings; a key that is missing because it is misspelt is found once, as misspelt."""
        return [each for at, each in self._found.items() if each.rule != "KB203" or not self._is_meant(at)]

    def _is_meant(self, at: Pointer) -> bool:
        """Whether a misspelt key beside it is the missing one, or the one that may stand in its place."""
        instead = next((group for group in _EITHER if at[-1] in group), {at[-1]})
        return any((*at[:-1], key) in self._meant for key in instead)

    def add(self, error: ValidationError) -> None:
        """Turn one error of jsonschema into findings."""
        at: Pointer = tuple(error.absolute_path)
        schema = cast("Schema", error.schema)
        limit: Any = error.validator_value
        instance: Any = error.instance
        if error.validator == "required":
            self._required(at, [key for key in limit if key not in instance])
        elif error.validator == "additionalProperties":
            known = list(schema.get("properties", {}))
            for key in instance:
                if key not in known:
                    self._unknown(at, key, known, instance)
        elif error.validator == "not":
            self._forbidden(at)
        elif error.validator in {"minItems", "maxItems", "maxProperties", "uniqueItems"}:
            self._length(at, str(error.validator), instance, schema)
        elif error.validator == "maxLength":
            self._too_long(at, instance, limit, of_key="propertyNames" in error.absolute_schema_path)
        elif error.validator == "type":
            self._type(at, instance, schema)
        elif error.validator in {"enum", "const"}:
            self._choice(at, instance, [limit] if error.validator == "const" else list(limit), schema)
        else:
            self._value(at, instance, str(error.validator), schema)

    def _put(self, at: Pointer, rule: str, place: Mark, message: str, hint: str) -> None:
        if self.full:
            return
        # An error of type says more than the others that come with it: it was there first, or takes their place.
        if at not in self._found or rule == "KB201":
            self._found[at] = form_error(rule, self._path, place, message, hint)
        self.damaged.add(at)

    def _required(self, at: Pointer, keys: list[str]) -> None:
        if keys == ["expect", "points_to"]:
            message = "The check has neither `expect` with `points_to` nor a `reading`."
            hint = "Say what a good bike shows and which causes a bad result points to, or which value is good."
            self._put((*at, "expect"), "KB203", value_place(self._root, at), message, hint)
            self.damaged.add((*at, "points_to"))
            return
        if keys == ["expect"]:
            message = "The check has neither `expect` nor a `reading`."
            self._put((*at, "expect"), "KB203", value_place(self._root, at), message, "Say what a good bike shows.")
            return
        if keys == ["fix"] and "tried" in at:
            message = "The row says neither which `check` nor which `fix` was tried."
            self._put((*at, "fix"), "KB203", value_place(self._root, at), message, "Add `check: …` or `fix: …`.")
            return
        for key in keys:
            self._missing(at, key)

    def _missing(self, at: Pointer, key: str) -> None:
        pointer = (*at, key)
        if pointer in self.damaged:
            return
        of = f"`{name(at)}`" if at else "the entry"
        message = f"The key `{key}` is missing in {of}."
        hint = f"Add it, like this: `{example(key, schema_at(self._schema, pointer)) or f'{key}: …'}`."
        if not at and "draft" in self._schema.get("properties", {}):
            hint += " Is not everything known yet? Then add `draft: true`."
        self._put(pointer, "KB203", value_place(self._root, at), message, hint)

    def _unknown(self, at: Pointer, key: str, known: list[str], row: dict[str, Any]) -> None:
        if self.full:
            return
        pointer = (*at, key)
        moved = elsewhere(self._schema, at, key)
        guess = did_you_mean(key, known) if moved is None else None
        if guess:
            self._meant.add((*at, guess))
        hint = f"Did you mean `{guess}`?" if guess else f"Known here: {', '.join(sorted(known))}."
        if moved is not None:
            self._meant |= {(*each, key) for each in moved.at}
            hint = moved.hint
        if key.isdecimal() and row[key] in {"", None}:
            hint = cut_number(row, key)
        elif " " in key:
            hint = "A text with a comma in it, inside { }, needs quotes around it."
        place = key_place(self._root, pointer)
        self._put(pointer, "KB202", place, f'The key "{brief(key)}" is not known here.', hint)

    def _forbidden(self, at: Pointer) -> None:
        message, hint = f"`{at[-1]}` does not go together with the other keys here.", "Take one of the two out."
        if exists(self._root, (*at[:-1], "use")):
            message = f"`{at[-1]}` cannot stand beside `use`."
            hint = "What to do and what is good stands in checks.yml; here only what its results mean."
            if at[-1] == "points_to":
                message = "`points_to` cannot stand beside `low_points_to` or `high_points_to`."
                hint = "A shared check with a reading has the two sides, one without has points_to."
        elif at[-1] in {"low_points_to", "high_points_to"}:
            message = f"`{at[-1]}` stands outside of `reading`."
            hint = "Put it into the reading. Beside `use`, for a shared check, it stands as here."
        elif at[-1] == "good_for":
            message, hint = "`good_for` stands at a check without a `reading`.", "Take it out, or write the reading."
        elif at[-1] in {"expect", "points_to"}:
            message = f"`{at[-1]}` cannot stand beside `reading`."
            hint = (
                "A check has either expect and points_to, or a reading with its own low_points_to and high_points_to."
            )
        elif at[-1] == "pattern":
            message, hint = (
                "`pattern` cannot stand beside `standard`.",
                "A format is either of a standard or the club's.",
            )
        elif at[-1] == "fix":
            message, hint = "`fix` cannot stand beside `check`.", "Give each its own row."
        elif at[-1] == "reading":
            message, hint = "`reading` cannot stand beside `fix`.", "A reading is the result of a check."
        self._put(at, "KB205", key_place(self._root, at), message, hint)

    def _length(self, at: Pointer, keyword: str, value: Any, schema: Schema) -> None:
        called, length = name(at), len(value)
        message = f"`{called}` has {length} member{'' if length == 1 else 's'}."
        hint = f"It takes {'at least' if keyword == 'minItems' else 'at most'} {schema.get(keyword)}."
        if keyword == "uniqueItems":
            message, hint = f"`{called}` names something twice.", "Take the second one out."
        elif schema.get("minItems") == schema.get("maxItems") == 2:
            guess = meant(key_of(at), value, schema)
            hint = f'{guess.why} Write "{guess.write}".' if guess else "A range has two: [low, high]."
        elif length == 0:
            hint = f"{hint} {like(key_of(at), schema_at(self._schema, at))}".strip()
        self._put(at, "KB206", value_place(self._root, at), message, hint)

    def _too_long(self, at: Pointer, text: str, limit: int, *, of_key: bool) -> None:
        place, called = value_place(self._root, at), f"`{name(at)}`"
        if of_key:
            at, called = (*at, text), f'The key "{brief(text)}"'
            place = key_place(self._root, at)
        self._put(at, "KB204", place, f"{called} has {len(text):,} characters.", f"{limit:,} are the most.")

    def _type(self, at: Pointer, value: Any, schema: Schema) -> None:
        message = f"`{name(at)}` should be {wanted(schema['type'])}, but {seen(value)}."
        self._put(at, "KB201", value_place(self._root, at), message, remedy(at, value, schema))

    def _choice(self, at: Pointer, value: Any, allowed: list[Any], schema: Schema) -> None:
        message = f"`{name(at)}` cannot be {quoted(value)}."
        self._put(at, "KB204", value_place(self._root, at), message, choice(value, allowed, schema))

    def _value(self, at: Pointer, value: Any, keyword: str, schema: Schema) -> None:
        asked = schema.get("patternErrorMessage", "written otherwise")
        if keyword in _LIMITS:
            asked = f"{_LIMITS[keyword]} {schema[keyword]}"
        there = "" if str(value).strip() == "" else f", not {quoted(value)}"
        message = f"`{name(at)}` should be {asked}{there}."
        self._put(at, "KB204", value_place(self._root, at), message, remedy(at, value, schema))
