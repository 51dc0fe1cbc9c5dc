"""Random faults that are planned together, with what joins them: causes that are one, shared checks."""

from __future__ import annotations

import random
from typing import Any

from tests.support.plan_instances import JOBS, TOOLS, Maker

Record = dict[str, Any]
AMOUNTS = (
    *("currency", "own_time_value", "home_time_factor", "labour_rate", "diagnosis_hours", "confirm_hours"),
    "unlisted_repair",
)
LEVELS = ("do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction")


def joint_instance(
    chance: random.Random, *, most_faults: int = 3, most_causes: int = 2, most_checks: int = 2
) -> Record:
    """`{"parts", "without_fault", "owner"}`, as `joint_brute.py` takes it."""
    return JointMaker(chance).asked(most_faults, most_causes, most_checks)


def numbered(number: int) -> Record:
    """The same for the same number."""
    return joint_instance(random.Random(f"joint {number}"))


class JointMaker:
    """Makes one instance."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.maker = Maker(chance, round_numbers=chance.random() < 0.3)

    def asked(self, most_faults: int, most_causes: int, most_checks: int) -> Record:
        maker, chance = self.maker, self.chance
        jobs = list(JOBS[: chance.choice((0, 1, 2, 3))])
        access = [maker.job(job, jobs[:place]) for place, job in enumerate(jobs)]
        amounts, _ = maker.instance(1, 0)
        shared = [maker.check(9, [], jobs) for _ in range(chance.choice((0, 1, 1)))]
        parts = []
        for place in range(1, chance.randint(1, most_faults) + 1):
            part, _ = maker.instance(most_causes, most_checks)
            causes = [each["id"] for each in part["fixes"]]
            problem = {
                **part,
                **{name: amounts[name] for name in AMOUNTS},
                "fault": f"fault-{place}",
                "transport": chance.choice((0, amounts["transport"])),
                "access": access,
                "tools": TOOLS,
                "fixes": [maker.fix(cause, jobs) for cause in causes],
                "checks": [maker.check(number + 1, causes, jobs) for number in range(len(part["checks"]))],
            }
            problem["evidence"].update(
                {name: amounts["evidence"][name] for name in ("prior_strength", "unlisted_share")}
            )
            used = {}
            for check in shared:
                if chance.random() < 0.7:
                    problem["checks"].insert(chance.randint(0, len(problem["checks"])), self.use(check, causes))
                    used["shared-9"] = "shared-9"
            parts.append(self.part(problem, used, causes))
        asked = {"parts": parts, "without_fault": chance.choice((0, 0, 1, 4))}
        return {**asked, "owner": self.owner(parts, jobs)}

    def use(self, check: Record, causes: list[str]) -> Record:
        """A shared check in one fault: what its results mean there."""
        sides: dict[str, list[str]] = {side: [] for side in check["outcomes"]}
        for cause in causes:
            if self.chance.random() < 0.6:
                sides[self.chance.choice(list(sides))].append(cause)
        finds = self.chance.choice((check["finds"], 1, 0.8))
        before = self.chance.random() < 0.2
        return {**check, "id": "shared-9", "outcomes": sides, "finds": finds, "before_riding": before}

    def part(self, problem: Record, shared: Record, causes: list[str]) -> Record:
        chance = self.chance
        same = {cause: chance.choice(("one", "two")) for cause in causes if chance.random() < 0.3}
        cases = {cause: chance.choice((0, 0, 1, 5)) for cause in [*causes, "unlisted"]}
        levels: tuple[str | None, ...] = (*LEVELS, None)
        advice = {"level": chance.choice(levels), "why": "So it is.", "from": f"fault:{problem['fault']}"}
        own = {
            cause: {"level": chance.choice(LEVELS), "why": "It seizes.", "from": f"cause:{cause}"}
            for cause in causes
            if chance.random() < 0.4
        }
        return {
            "problem": problem,
            "beside": {"advice": advice, "causes": own, "free": []},
            "same": same,
            "shared": shared,
            "cases": chance.choice((None, cases)),
        }

    def owner(self, parts: list[Record], jobs: list[str]) -> Record:
        """Results and covered causes go by the ids of the joint plan: those of causes that are one are left alone."""
        checks: dict[str, Record] = {}
        causes = []
        for part in parts:
            for check in part["problem"]["checks"]:
                name = part["shared"].get(check["id"], f"{part['problem']['fault']}/{check['id']}")
                checks[name] = {**check, "id": name}
            causes += [f"{part['problem']['fault']}/{each['id']}" for each in part["problem"]["fixes"]]
        return self.maker.owner(list(checks.values()), jobs, causes)
