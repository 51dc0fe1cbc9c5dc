"""Writes the plan vectors, to which Python and JavaScript are held: `python -m tests.support.make_plan_vectors`.

No expected value comes from the programs. The plans are those of `plan_brute.py`, which lists every decision tree and
shares no code with them. The intervals of the shares are those of `scipy.stats.beta.ppf`. The suspects of several codes
are worked out below, straight from the definition. All of it is the same on each run, the last digits aside.
"""

from __future__ import annotations

import json
import random
import sys
from collections.abc import Iterator
from typing import Any

from tests.support.places import VECTORS
from tests.support.plan_brute import UNLISTED, Brute, TooManyError, posterior
from tests.support.plan_instances import Maker, instance

Record = dict[str, Any]
FILE = VECTORS / "plan.json"
PLANS = 260
ABOUT = (
    "Written by tests.support.make_plan_vectors. plans: expected values by listing every decision tree; shares: "
    "intervals by scipy.stats; several: straight from the definition."
)


def plans(count: int = PLANS) -> Iterator[Record]:
    """Instances with the best of all trees; few of those with one step only."""
    number = simple = found = 0
    while found < count:
        problem, owner = instance(number)
        number += 1
        try:
            expected = Brute(problem, owner).solve()
        except TooManyError:
            continue
        if len(expected["steps"]) < 2:
            simple += 1
            if simple > PLANS // 6:
                continue
        found += 1
        yield {"number": number - 1, "problem": problem, "owner": owner, "expected": expected}


def share_vectors(count: int = 60) -> Iterator[Record]:
    """Evidence with means and intervals."""
    for number in range(count):
        chance = random.Random(f"shares {number}")
        maker = Maker(chance, round_numbers=False)
        evidence = maker.evidence([f"cause-{place}" for place in range(1, chance.choice((1, 2, 4, 12)) + 1)])
        if number % 4 == 0:
            # Much weaker and much stronger judgement, and many cases.
            evidence["prior_strength"] = chance.choice((0.05, 0.5, 40, 400))
            evidence["unlisted"] = {"bittern-900": {"2004": chance.choice((0, 30, 1000))}}
        bike = chance.choice((None, ["bittern-900", 2004], ["curlew-1100", 2012]))
        yield {"evidence": evidence, "bike": bike, "expected": intervals(evidence, bike)}


def intervals(evidence: Record, bike: list[Any] | None) -> list[list[Any]]:
    """`[id, mean, low, high]` in file order; Beta marginals of the Dirichlet distribution."""
    # A second to load, and of those who import this module few come here.
    from scipy import stats

    means = posterior(evidence, bike)
    counts = [cause["cases"] for cause in evidence["causes"] if cause["id"] in means] + [evidence["unlisted"]]
    total = evidence["prior_strength"] + sum(sum(years.values()) for cases in counts for years in cases.values())
    if len(means) == 1:
        return [[UNLISTED, 1.0, 1.0, 1.0]]
    return [
        [cause, mean, *stats.beta.ppf([0.05, 0.95], mean * total, (1 - mean) * total).tolist()]
        for cause, mean in means.items()
    ]


def several_vectors(count: int = 40) -> Iterator[Record]:
    """Codes with their faults, and the suspects."""
    for number in range(count):
        chance = random.Random(f"several {number}")
        maker = Maker(chance, round_numbers=False)
        faults = [
            {
                "fault": f"fault-{place}",
                "follow_on": chance.random() < 0.2,
                "applies": chance.choice(({"bittern-900": [[2003, 2012]]}, {"curlew-1100": [[2010, 2020]]})),
                "evidence": maker.evidence(["cause-1", "cause-2", "cause-3"][: chance.randint(1, 3)]),
            }
            for place in range(5)
        ]
        codes = [[f"P010{place}", chance.sample(faults, chance.randint(0, 3))] for place in range(chance.randint(1, 3))]
        bike = chance.choice((None, ["bittern-900", 2004], ["curlew-1100", 2012]))
        yield {"codes": codes, "bike": bike, "expected": explained(codes, bike)}


def explained(codes: list[Any], bike: list[Any] | None) -> Record:
    """Component → probability, from the definition, one component after the other."""
    used = []
    for _, faults in codes:
        of_bike = [
            fault
            for fault in faults
            if not fault["follow_on"]
            and (bike is None or any(a <= bike[1] <= b for a, b in fault["applies"].get(bike[0], [])))
        ]
        if any(of(fault, bike) for fault in of_bike):
            used.append(of_bike)
    components = {component for faults in used for fault in faults for component in of(fault, bike)}
    product = dict.fromkeys(sorted(components), 1.0)
    for component in product:
        for faults in used:
            shares = [of(fault, bike).get(component, 0.0) for fault in faults]
            product[component] *= max(0.02, sum(shares) / len(shares))
    whole = sum(product.values())
    return {component: value / whole for component, value in product.items()}


def of(fault: Record, bike: list[Any] | None) -> dict[str, float]:
    """Component → summed shares of one fault."""
    found: dict[str, float] = {}
    means = posterior(fault["evidence"], bike)
    for cause in fault["evidence"]["causes"]:
        if cause["component"] is not None and cause["id"] in means:
            found[cause["component"]] = found.get(cause["component"], 0.0) + means[cause["id"]]
    return found


def vectors() -> Record:
    return {
        "about": ABOUT,
        "plans": list(plans()),
        "shares": list(share_vectors()),
        "several": list(several_vectors()),
    }


def text() -> str:
    """One vector a line, so that a change shows where it is."""
    parts = []
    for name, value in vectors().items():
        if isinstance(value, str):
            parts.append(f"{json.dumps(name)}: {json.dumps(value)}")
        else:
            rows = ",\n".join(json.dumps(each, separators=(",", ":")) for each in value)
            parts.append(f"{json.dumps(name)}: [\n{rows}\n]")
    return "{\n" + ",\n".join(parts) + "\n}\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
    sys.stdout.write(f"{FILE}: {FILE.stat().st_size / 1000:.0f} kB\n")
