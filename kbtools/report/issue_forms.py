"""The forms by which owners write issues at the repository's host: a report, and that something in an entry is wrong.

Made from the schema of cases, whose titles are the questions and whose keys are the names of the fields, so that
`kbtools.intake.issue_form` reads what they make.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any, Final

from kbtools.intake.fields import Field
from kbtools.intake.issue_form import PROMISE, asked
from kbtools.reading.shape import Schema

REPORT, CORRECTION = "report.yml", "correction.yml"
PARTS: Final = ("ride-advice", "causes", "checks", "mending", "costs", "codes", "machines", "other")
"""Of an entry, as the site's page for reports calls them."""
_HEAD: Final = "# Made by `kbtools schemas --issue-forms FOLDER` from schemas/case.schema.json; change that.\n"
_PRIVATE: Final = (
    "Everybody reads what you write here. Please no names, number plates, full frame numbers, telephone numbers or "
    "addresses, of yourself or of anybody else."
)
_LINES: Final = frozenset({"texts", "codes", "tried", "causes"})
_LONG: Final = frozenset({"note"})
_AS_WRITTEN: Final = {
    "fault": "Id or title of the entry, or the address of its page. Leave it out while nobody knows.",
    "model": "As the club calls it.",
    "cause": "Its name on the entry's page, or unlisted with a note.",
    "also": "Causes found beside it.",
    "tried": "Each check and each fix, and what came out.",
    "follows": "Id of an earlier case of the same trouble on the same bike, if you know it.",
}
"""What an owner is told where the schema speaks to a curator."""


def issue_forms(schema: Schema) -> Mapping[str, str]:
    """Name of each file to its text.

    Args:
        schema: of cases, with its references followed.
    """
    questions = asked(schema)
    report = {
        "name": "Report",
        "description": "What your bike showed, what you tried, and how it ended.",
        "title": "Report: ",
        "labels": ["report"],
        "body": [_note(_PRIVATE), *map(_question, questions.values()), _promise()],
    }
    correction = {
        "name": "Something is wrong",
        "description": "Something in an entry is wrong or out of date.",
        "title": "Correction: ",
        "labels": ["correction"],
        "body": [
            _note(_PRIVATE),
            _question(next(field for field in questions.values() if field.name == "fault"), required=True),
            _choice("part", "Part", "Which part of the entry it is.", PARTS, required=True),
            _lines("wrong", "Wrong", "What is wrong there.", "", required=True),
            _lines("right", "Right", "What would be right, if you know it.", ""),
            _lines("known_from", "Known from", "Where it is known from: a manual, a bulletin, your own bike.", ""),
            _promise(),
        ],
    }
    return {REPORT: _text(report), CORRECTION: _text(correction)}


def _text(form: Mapping[str, Any]) -> str:
    return _HEAD + "".join(f"{line}\n" for line in _written(form, ""))


def _written(value: Mapping[str, Any], pad: str) -> Iterator[str]:
    """A mapping in lines; every text between quotes, since the host's reader takes `no` and 2026-03-02 for no texts."""
    for key, inner in value.items():
        if isinstance(inner, Mapping):
            yield f"{pad}{key}:"
            yield from _written(inner, f"{pad}  ")
        elif isinstance(inner, list) and any(isinstance(each, Mapping) for each in inner):
            yield f"{pad}{key}:"
            for each in inner:
                first, *rest = _written(each, f"{pad}    ")
                yield f"{pad}  - {first.lstrip()}"
                yield from rest
        else:
            yield f"{pad}{key}: {json.dumps(inner, ensure_ascii=False)}"


def _question(field: Field, *, required: bool = False) -> dict[str, Any]:
    said = _AS_WRITTEN.get(field.name, field.description)
    required = required or field.required
    if field.kind == "word":
        meanings = " ".join(f"{word}: {says}" for word, says in zip(field.words, field.meanings, strict=True))
        return _choice(field.name, field.title, meanings or said, tuple(field.words), required=required)
    if field.kind == "flag":
        return _choice(field.name, field.title, said, ("yes", "no"), required=required)
    if field.kind in _LINES or field.name in _LONG:
        lines = "" if field.name in _LONG else " One a line."
        return _lines(field.name, field.title, f"{said}{lines}", field.example, required=required)
    return _element("input", field.name, _asks(field.title, said, field.example), required=required)


def _lines(name: str, label: str, said: str, example: str, *, required: bool = False) -> dict[str, Any]:
    return _element("textarea", name, _asks(label, said, example.replace("; ", "\n")), required=required)


def _choice(name: str, label: str, said: str, words: tuple[str, ...], *, required: bool = False) -> dict[str, Any]:
    return _element("dropdown", name, {**_asks(label, said, ""), "options": list(words)}, required=required)


def _asks(label: str, said: str, example: str) -> dict[str, Any]:
    return {"label": label, "description": said, **({"placeholder": example} if example else {})}


def _element(kind: str, name: str, attributes: dict[str, Any], *, required: bool) -> dict[str, Any]:
    return {"type": kind, "id": name, "attributes": attributes, "validations": {"required": required}}


def _note(text: str) -> dict[str, Any]:
    return {"type": "markdown", "attributes": {"value": text}}


def _promise() -> dict[str, Any]:
    option = {"label": "There is nothing in it that leads to a person.", "required": True}
    return {"type": "checkboxes", "id": "promise", "attributes": {"label": PROMISE, "options": [option]}}
