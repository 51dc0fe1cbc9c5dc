"""Problems and owners from plain data, as the vectors and the browser have them."""

from __future__ import annotations

from typing import Any

from kbtools.checkplan import Owner
from kbtools.checkplan.problem import AccessWork, CheckWork, FixWork, Problem
from kbtools.evidence import CauseCases, Evidence
from kbtools.model.catalogue import BIKE_STATES, SKILLS

Record = dict[str, Any]


def evidence_from(record: Record) -> Evidence:
    return Evidence(
        prior_strength=record["prior_strength"],
        unlisted_share=record["unlisted_share"],
        causes=tuple(
            CauseCases(
                id=each["id"],
                component=each["component"],
                weight=each["weight"],
                applies=each["applies"] and {m: tuple((a, b) for a, b in runs) for m, runs in each["applies"].items()},
                counted=_counted(each["cases"]),
            )
            for each in record["causes"]
        ),
        unlisted=_counted(record["unlisted"]),
    )


def _counted(cases: dict[str, dict[str, int]]) -> dict[tuple[str, int], int]:
    return {(model, int(year)): count for model, years in cases.items() for year, count in years.items()}


def problem_from(record: Record) -> Problem:
    amounts = (
        *("fault", "currency", "own_time_value", "home_time_factor", "labour_rate", "diagnosis_hours"),
        *("confirm_hours", "transport", "unlisted_repair"),
    )
    return Problem(
        **{name: record[name] for name in amounts},
        evidence=evidence_from(record["evidence"]),
        access=tuple(AccessWork(**_work(each)) for each in record["access"]),
        tools=record["tools"],
        fixes=tuple(FixWork(**_work(each)) for each in record["fixes"]),
        checks=tuple(
            CheckWork(**{**_work(each), "outcomes": tuple((k, tuple(v)) for k, v in each["outcomes"].items())})
            for each in record["checks"]
        ),
    )


def _work(row: Record) -> Record:
    plain = {name: tuple(value) if isinstance(value, list) else value for name, value in row.items()}
    states: Record = {name: BIKE_STATES[row[name]] for name in ("bike", "allows") if name in row}
    return {**plain, "skill": SKILLS[row["skill"]], **states}


def owner_from(record: Record) -> Owner:
    return Owner(
        bike=record["bike"] and (record["bike"][0], record["bike"][1]),
        skill=record["skill"],
        own_time_value=record["own_time_value"],
        has=frozenset(record["has"]),
        lacks=frozenset(record["lacks"]),
        absent=record["absent"],
        opened=frozenset(record["opened"]),
        covered=frozenset(record["covered"]),
        results=record["results"],
    )
