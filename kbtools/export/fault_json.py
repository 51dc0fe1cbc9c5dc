"""`faults/<fault>.json`: one entry with the keys of its file, its computed shares, and its plan without an owner."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from kbtools.checkplan import Owner, Plan, plan_of, whole_record
from kbtools.checkplan.beside import beside_of
from kbtools.checkplan.problem import IncompleteError, Problem, problem_of
from kbtools.evidence import Share, evidence_of, shares
from kbtools.export.json_text import Record
from kbtools.export.plan_schema import SHARE, STEP, plan_schema
from kbtools.export.schema_text import TEXT, Schema, Schemas, both, like, named, or_null, record, rows, said
from kbtools.index.answers import Index
from kbtools.model.fault import Fault
from kbtools.reading.write_fault import as_data, plain
from kbtools.wording import addresses


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """What was worked out for a fault's page, so that nobody works it out again."""

    problem: Problem
    """What the plan reckons with."""
    plan: Plan
    """For an owner of whom nothing is known."""


def reckon(fault: Fault, index: Index) -> Reckoned | None:
    """The plan of a fault without an owner; None where the entry does not say enough for one."""
    try:
        problem = problem_of(fault, index)
    except IncompleteError:
        return None
    return Reckoned(problem=problem, plan=plan_of(problem, Owner()))


def path(fault_id: str) -> str:
    """Where the file of a fault stands, from the site's root."""
    return f"api/v1/faults/{fault_id}.json"


def of_published(fault: Fault, reckoned: Reckoned | None, index: Index) -> Record:
    """The record of an entry that is advice."""
    plan, evidence = None, None
    if reckoned is not None:
        evidence = reckoned.problem.evidence
        plan = whole_record(reckoned.plan, reckoned.problem, Owner(), beside_of(fault, index))
    return {
        "id": fault.id,
        "address": addresses.fault(fault.id),
        **as_data(fault),
        "shares": [_share(each) for each in shares(evidence or evidence_of(fault, index, index.club))],
        "plan": plan,
    }


def of_withdrawn(fault: Fault, index: Index) -> Record:
    """The record of an entry that is advice no longer: what takes its place, and nothing of what it said."""
    said_of_it = plain(fault.withdrawn)
    other = index.entry(said_of_it.get("replaced_by", ""))
    replaced = {} if other is None else {"replaced_by": other.id}
    kept = {key: value for key, value in said_of_it.items() if key != "replaced_by"}
    return {"id": fault.id, "title": fault.title, "withdrawn": {**kept, **replaced}}


def of_renamed(index: Index) -> Iterator[Record]:
    """The records of old ids, which never stand for anything else: `now` is the id to ask for."""
    for old, now in index.renamed.items():
        entry = index.entry(now)
        if entry is not None and old not in index.published and old not in index.tombstones:
            yield {"id": old, "title": entry.title, "now": now}


def _share(share: Share) -> dict[str, Any]:
    return {"id": share.id, "share": share.mean, "low": share.low, "high": share.high, "cases": share.cases}


def schema(schemas: Schemas) -> Schema:
    """Of the file of an entry, in each of its three states."""
    return {
        "anyOf": [_published(schemas), withdrawn_schema(schemas), _renamed()],
        "$defs": {"step": STEP},
    }


def _published(schemas: Schemas) -> Schema:
    entry = both(like(schemas, "fault"), like(schemas, "fault#/$defs/complete"))
    entry["properties"] = {key: value for key, value in entry["properties"].items() if key not in _NOT_PUBLISHED}
    return {
        **named(
            entry,
            "id",
            "address",
            "shares",
            "plan",
            id=said(TEXT, "By which everything names the entry."),
            address=said(TEXT, "Of its page, from the site's root."),
            shares=rows(SHARE, "How often each cause is the one, in the order of the entry, unlisted last."),
            plan=or_null(plan_schema(schemas), "The cheapest order of checks; null where the entry says too little."),
        ),
        "title": "Published entry",
    }


_NOT_PUBLISHED = frozenset({"draft", "withdrawn"})
"""Keys that no published entry has."""


def withdrawn_schema(schemas: Schemas) -> Schema:
    """Of an entry that is advice no longer."""
    gone = like(schemas, "fault#/properties/withdrawn")
    return record("Withdrawn entry", {"id": TEXT, "title": TEXT, "withdrawn": named(gone, "on", "reason")})


def _renamed() -> Schema:
    return record("Old id", {"id": TEXT, "title": TEXT, "now": said(TEXT, "The id that the entry has today.")})
