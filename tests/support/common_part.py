"""Several fault codes at once: the one part that would explain all of them. The reference for `core/several.js`.

For each code the faults that show it (those in which it is the consequence of another code left out) say how much of
their shares goes to each component: the mean over these faults. No component gets less than `LEAST`, because an entry
may not list everything. Multiplied over the codes and brought to a sum of 1, that ranks the components. It takes the
codes for independent of each other, given the part; that is a rule of thumb, good for an order and not for betting.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import prod

from kbtools.evidence import Evidence, Spans, evidence_of, evidence_record, means, runs
from kbtools.index.answers import Index, ModelYear
from kbtools.index.codes import family_only_follows, faults_by_code, faults_of
from kbtools.model.catalogue import Club
from kbtools.model.codes import FaultCode

LEAST = 0.02
"""The smallest share that a component gets of a code."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeFault:
    """A fault that shows a code."""

    fault: str
    """Id of the fault."""
    follow_on: bool
    """In it the code is a consequence of another one only."""
    applies: Spans
    """The machines that it concerns."""
    evidence: Evidence
    """How often each of its causes is the one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A component that may explain the codes."""

    component: str
    """Id of the component."""
    probability: float
    """0 to 1; over all suspects they add up to 1."""
    by_code: Mapping[str, float]
    """Its share of each code that was used, at least `LEAST`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspects:
    """What several codes say together."""

    suspects: tuple[Suspect, ...]
    """The likeliest first; equal ones in the order in which the faults name them."""
    used: tuple[str, ...]
    """The codes that speak for a part."""
    follow_on: tuple[str, ...]
    """Codes that are consequences only: look for the root code."""
    unknown: tuple[str, ...]
    """Codes that no fault of this machine has, or none that names a component."""


def code_faults(code: FaultCode, index: Index, club: Club) -> tuple[CodeFault, ...]:
    """The published faults that an owner with this code wants to see, each once."""
    known = faults_by_code(index.base)
    found = (index.published[each] for each in faults_of(code, known, club.code_formats))
    return tuple(
        CodeFault(
            fault=fault.id,
            follow_on=family_only_follows(fault, code, club.code_formats),
            applies=runs(index.scopes[fault.id]),
            evidence=evidence_of(fault, index, club),
        )
        for fault in found
    )


def suspects(codes: Mapping[str, Sequence[CodeFault]], bike: ModelYear | None = None) -> Suspects:
    """The components that may explain all these codes.

    Args:
        codes: each code as the owner wrote it, with the faults that show it.
        bike: only faults and causes of this machine count; None: all.
    """
    used: dict[str, dict[str, float]] = {}
    follow_on: list[str] = []
    unknown: list[str] = []
    for code, faults in codes.items():
        concerned = [fault for fault in faults if _concerns(fault, bike)]
        roots = [fault for fault in concerned if not fault.follow_on]
        shares = _mean_shares(roots, bike)
        if shares:
            used[code] = shares
        else:
            (follow_on if concerned and not roots else unknown).append(code)
    return Suspects(
        suspects=_ranked(used),
        used=tuple(used),
        follow_on=tuple(follow_on),
        unknown=tuple(unknown),
    )


def _concerns(fault: CodeFault, bike: ModelYear | None) -> bool:
    return bike is None or any(first <= bike[1] <= last for first, last in fault.applies.get(bike[0], ()))


def _mean_shares(faults: Sequence[CodeFault], bike: ModelYear | None) -> dict[str, float]:
    total: dict[str, float] = {}
    for fault in faults:
        component_of = {cause.id: cause.component for cause in fault.evidence.causes}
        for cause, share in means(fault.evidence, bike).items():
            component = component_of.get(cause)
            if component is not None:
                total[component] = total.get(component, 0.0) + share
    return {component: share / len(faults) for component, share in total.items()}


def _ranked(used: Mapping[str, Mapping[str, float]]) -> tuple[Suspect, ...]:
    components = dict.fromkeys(component for shares in used.values() for component in shares)
    by_code = {
        component: {code: max(LEAST, shares.get(component, 0.0)) for code, shares in used.items()}
        for component in components
    }
    products = {component: prod(shares.values()) for component, shares in by_code.items()}
    whole = sum(products.values())
    found = [Suspect(component=each, probability=products[each] / whole, by_code=by_code[each]) for each in components]
    return tuple(sorted(found, key=lambda each: -each.probability))


def code_faults_record(faults: Sequence[CodeFault]) -> list[dict[str, object]]:
    """The faults of a code as `core/several.js` takes them: `[{"fault", "follow_on", "applies", "evidence"}]`."""
    return [
        {
            "fault": fault.fault,
            "follow_on": fault.follow_on,
            "applies": {model: [list(run) for run in years] for model, years in fault.applies.items()},
            "evidence": evidence_record(fault.evidence),
        }
        for fault in faults
    ]
