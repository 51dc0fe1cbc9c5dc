"""The labelled entries of `tests/similar/` as faults and cases, and which pairs of them are the same."""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path
from typing import Any

import yaml

from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case, SeenCode
from kbtools.model.check import Check
from kbtools.model.codes import read_code
from kbtools.model.fault import AppliesTo, Cause, CodeRow, Fault
from kbtools.model.money import Distance
from tests.support import factories as make
from tests.support.demo_read import demo_with
from tests.support.places import TESTS
from tests.support.yaml_files import BASE

FOLDER = TESTS / "similar"
Part = str
"""One of the following."""
CHOSEN: tuple[Part, ...] = tuple(f"choose-{number}" for number in range(1, 18))
"""The parts that weights, tables and thresholds were chosen on."""
KEPT: tuple[Part, ...] = ("report", "report-earlier", "report-short")
"""Those that are only reported on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Labelled:
    """One part of the labelled set as a knowledge base."""

    base: KnowledgeBase
    """The demo's club, models, components and words, with the labelled entries in place of the demo's."""
    same: dict[frozenset[str], str]
    """Pairs of ids that are the same, with the kind of the pair."""
    other: dict[frozenset[str], str]
    """Pairs that read alike and are not the same, with the kind of the pair. Pairs in neither are not the same."""


@functools.cache
def faults(part: Part) -> Labelled:
    """The labelled faults of a part."""
    return _labelled(part, [path for path in sorted(FOLDER.glob("*.yml")) if path.stem != "cases"], "faults", _fault)


@functools.cache
def cases(part: Part) -> Labelled:
    """The labelled cases of a part."""
    return _labelled(part, [FOLDER / "cases.yml"], "cases", _case)


@functools.cache
def _demo() -> KnowledgeBase:
    return demo_with().base


@functools.cache
def _groups(path: Path) -> list[dict[str, Any]]:
    return list(yaml.load(path.read_text("utf-8"), Loader=BASE))


def _labelled(part: Part, paths: Sequence[Path], kind: str, build: Any) -> Labelled:
    made: dict[str, Any] = {}
    same: dict[frozenset[str], str] = {}
    other: dict[frozenset[str], str] = {}
    for path in paths:
        for group in _groups(path):
            if group["part"] != part:
                continue
            rows = list(_whole(group))
            names = [f"{group['group']}-{number}" for number in range(1, len(rows) + 1)]
            made |= {name: build(name, row, group) for name, row in zip(names, rows, strict=True)}
            for later, second in enumerate(rows):
                for earlier, first in enumerate(rows[:later]):
                    pair = frozenset({names[earlier], names[later]})
                    unlike = second.get("other") or first.get("other")
                    if unlike:
                        other[pair] = unlike
                    else:
                        same[pair] = second["same"]
    parts: dict[str, Any] = {"faults": {}, "cases": {}, kind: made}
    base = dataclasses.replace(_demo(), **parts)
    return Labelled(base=base, same=same, other=other)


def _whole(group: dict[str, Any]) -> Iterator[dict[str, Any]]:
    first = group["entries"][0]
    for row in group["entries"]:
        inherited = first if row.get("like") else {"on": first.get("on")}
        yield {**{key: value for key, value in inherited.items() if key not in {"same", "other"}}, **row}


def _parts(text: Any) -> list[str]:
    return [part.strip() for part in str(text).split(";")] if text is not None else []


def _fault(name: str, row: dict[str, Any], group: dict[str, Any]) -> Fault:
    system = group["system"]
    return make.fault(
        name,
        path=f"faults/{system}/{name}.yml",
        title=row["title"],
        system=system,
        applies_to=tuple(_row(text) for text in _parts(row["on"])),
        codes=tuple(_code(text) for text in _parts(row.get("codes"))),
        symptoms=tuple(_parts(row.get("shows"))),
        causes=tuple(_cause(number, *both) for number, both in enumerate(_with_fixes(row))),
        checks=tuple(_check(number, text) for number, text in enumerate(_parts(row.get("checks")))),
        draft="shows" not in row,
    )


def _row(text: str) -> AppliesTo:
    model, years, *unit = text.split()
    return make.row(model, years, unit=unit[0] if unit else None)


def _code(text: str) -> CodeRow:
    code, _, unit = text.partition("@")
    return make.code(code, unit=unit or None)


def _with_fixes(row: dict[str, Any]) -> Iterator[tuple[str, str | None]]:
    causes, fixes = _parts(row.get("causes")), _parts(row.get("fixes"))
    return zip_longest(causes, fixes[: len(causes)])


def _cause(number: int, text: str, fix: str | None) -> Cause:
    component, _, summary = text.rpartition("=")
    told = {"component": component.strip() or None, "summary": summary.strip(), "fix": make.fix(summary=fix)}
    return make.cause(f"cause-{number}", **told)


def _check(number: int, text: str) -> Check:
    return make.check(f"check-{number}", do=text, expect=None)


def _case(name: str, row: dict[str, Any], group: dict[str, Any]) -> Case:
    model, year = row["on"].split()
    codes = [
        make.make(SeenCode, {"read": read_code(text, make.FORMATS), "status": "stored", "at": ""}, {})
        for text in _parts(row.get("codes"))
    ]
    follows = row.get("follows")
    vehicle = {"model": model, "year": int(year), "odometer": Distance(value=int(row["odometer"]), unit="km")}
    return make.case(
        name,
        row.get("fault"),
        vehicle={**vehicle, "bike": row.get("bike")},
        seen=dt.date.fromisoformat(row["seen"]),
        conditions=tuple(_parts(row.get("conditions"))),
        codes=tuple(codes),
        symptoms=tuple(_parts(row.get("shows"))),
        outcome={"cause": row.get("cause"), "note": row.get("note")},
        follows=f"{group['group']}-{follows}" if follows else None,
    )
