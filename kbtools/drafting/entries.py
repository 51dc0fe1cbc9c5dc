"""What stands in a new file, and where it goes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from kbtools.reading.annotated import plain_data
from kbtools.reading.canonical import canonical
from kbtools.reading.shape import Hints

_FAULT_WANTS: Final[Mapping[str, str]] = {
    "applies_to": "which models and years",
    "ride_advice": "level and why",
    "causes": "each with a fix",
    "checks": "what to look at, and which causes it points to",
    "sources": "where it is known from",
    "reviewed": "who read it, and when",
}
_CASE_WANTS: Final[Mapping[str, str]] = {
    "symptoms": "what was seen",
    "codes": "what a reader showed",
    "fault": "the entry that it is about",
    "tried": "each check and fix, and what came out",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class NewFile:
    """A file that is not there yet."""

    path: str
    """Relative to the knowledge base's folder."""
    kind: str
    """Of file, as the schemas have it."""
    data: Mapping[str, Any]
    """What it says."""
    notes: tuple[str, ...]
    """What stands below it as a comment."""


def fault_file(  # noqa: PLR0913 (one for each key)
    identity: str,
    *,
    title: str,
    system: str,
    machines: Sequence[tuple[str, str]],
    symptoms: Sequence[str],
    codes: Sequence[str],
    components: Sequence[str],
) -> NewFile:
    """An entry as a draft.

    Args:
        identity: its id.
        title: what the rider has.
        system: id of its system.
        machines: ids of models with their years.
        symptoms: what the rider notices.
        codes: fault codes.
        components: ids of what may be broken; each becomes a cause to be filled in.
    """
    data = {
        "title": title,
        "system": system,
        "applies_to": [{"model": model, "years": years} for model, years in machines],
        "codes": [{"code": code} for code in codes],
        "symptoms": list(symptoms),
        "causes": [{"id": component, "component": component} for component in components],
        "draft": True,
    }
    said = _said(data)
    # Causes that only name their component say nothing yet.
    wants = [f"{key} ({what})" for key, what in _FAULT_WANTS.items() if key not in said or key == "causes"]
    notes = (
        "A draft is checked and not published. Before it can be, it needs:",
        *(f"  {each}" for each in wants),
        "and then the line draft: true is taken out.",
    )
    return NewFile(path=f"faults/{system}/{identity}.yml", kind="fault", data=said, notes=notes)


def case_file(  # noqa: PLR0913 (one for each key)
    identity: str,
    *,
    model: str,
    year: int,
    odometer: str,
    seen: dt.date,
    symptoms: Sequence[str],
    codes: Sequence[str],
    fault: str | None,
    state: str,
    source: Mapping[str, str],
) -> NewFile:
    """A case report, with what it cannot do without.

    Args:
        identity: its id.
        model: id of the model.
        year: model year.
        odometer: `61200 km`.
        seen: when the trouble was seen.
        symptoms: what the owner noticed.
        codes: fault codes that were read.
        fault: id of the entry that it is about; None: nobody knows yet.
        state: of the outcome.
        source: `kind` and `title` of where it comes from.
    """
    data = {
        "vehicle": {"model": model, "year": year, "odometer": odometer},
        "seen": seen,
        "codes": [{"code": code} for code in codes],
        "symptoms": list(symptoms),
        "fault": fault,
        "outcome": {"state": state},
        "source": dict(source),
    }
    said = _said(data)
    wants = [f"{key} ({what})" for key, what in _CASE_WANTS.items() if key not in said]
    notes = ("What helps the next owner:", *(f"  {each}" for each in wants), "No names, plates or addresses.")
    return NewFile(path=f"cases/{seen.year}/{identity}.yml", kind="case", data=said, notes=notes)


def model_file(identity: str, *, name: str, years: str, also_called: Sequence[str]) -> NewFile:
    """A model.

    Args:
        identity: its id.
        name: as the club calls it.
        years: in which it was built, `2003-2012`.
        also_called: other names.
    """
    data = {"name": name, "also_called": list(also_called), "years": years}
    notes = ("control_units, where codes mean something only with the unit that sets them, are still missing.",)
    return NewFile(path=f"models/{identity}.yml", kind="model", data=_said(data), notes=notes)


def text_of(file: NewFile, hints: Hints, schema: str | None) -> str:
    """The text of a new file, in the canonical form.

    Args:
        file: what it says.
        hints: of its schema.
        schema: path of the schema from the file's folder, for editors; None: there is none.
    """
    row = plain_data(dict(file.data))
    if schema is not None:
        row.before.append(f"# yaml-language-server: $schema={schema}")
    return canonical(row, hints) + "".join(f"# {line}\n" for line in file.notes)


def _said(data: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if value not in (None, [])}
