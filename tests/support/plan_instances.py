"""Random problems and owners that use every feature of the plan: the same for the same number."""

from __future__ import annotations

import random
from typing import Any

Record = dict[str, Any]
JOBS = ("seat-off", "tank-off", "cover-off", "panel-off")
TOOLS = {"multimeter": True, "hand-tools": True, "gauge": False, "puller": False}


def instance(number: int, *, most_causes: int = 5, most_checks: int = 5) -> tuple[Record, Record]:
    """A problem and an owner. Every third one is made of few round numbers, so that options tie."""
    chance = random.Random(number)
    return Maker(chance, round_numbers=number % 3 == 0).instance(most_causes, most_checks)


def answered(number: int) -> tuple[Record, Record]:
    """The same with an answer to every check, each of which may come before riding: second faults among them."""
    problem, owner = instance(number)
    chance = random.Random(f"answered {number}")
    for check in problem["checks"]:
        check["before_riding"] = chance.random() < 0.7
    results = {each["id"]: chance.choice([*each["outcomes"], *each["outcomes"], "good"]) for each in problem["checks"]}
    shuffled = dict(chance.sample(list(results.items()), len(results)))
    return problem, {**owner, "results": shuffled}


class Maker:
    """Makes one instance."""

    def __init__(self, chance: random.Random, *, round_numbers: bool) -> None:
        self.chance = chance
        self.round_numbers = round_numbers

    def number(self, low: float, high: float) -> float:
        if self.round_numbers:
            return self.chance.choice([low, (low + high) / 2, high])
        return round(self.chance.uniform(low, high), 3)

    def happens(self, probability: float) -> bool:
        return self.chance.random() < probability

    def some(self, names: list[str], probability: float) -> list[str]:
        return [name for name in names if self.happens(probability)]

    def rather_many(self, least: int, most: int) -> int:
        return max(self.chance.randint(least, most), self.chance.randint(least, most))

    def instance(self, most_causes: int, most_checks: int) -> tuple[Record, Record]:
        causes = [f"cause-{number}" for number in range(1, self.rather_many(1, most_causes) + 1)]
        jobs = list(JOBS[: self.chance.choice((0, 1, 2, 3, 4))])
        checks = [self.check(number, causes, jobs) for number in range(1, self.rather_many(0, most_checks) + 1)]
        problem = {
            "fault": "some-fault",
            "currency": "EUR",
            "own_time_value": self.number(5, 25),
            "home_time_factor": self.chance.choice((1, 1.5, 2)),
            "labour_rate": self.number(60, 140),
            "diagnosis_hours": self.number(0.5, 3),
            "confirm_hours": self.number(0, 0.6),
            "transport": self.chance.choice((0, 0, 105)),
            "unlisted_repair": self.number(100, 500),
            "evidence": self.evidence(causes),
            "access": [self.job(job, jobs[:place]) for place, job in enumerate(jobs)],
            "tools": TOOLS,
            "fixes": [self.fix(cause, jobs) for cause in causes],
            "checks": checks,
        }
        return problem, self.owner(checks, jobs, causes)

    def evidence(self, causes: list[str]) -> Record:
        weighted = self.happens(0.8)
        rows = [
            {
                "id": cause,
                "component": self.chance.choice((None, "stator", "plug", "battery")),
                "weight": self.number(1, 6) if weighted else None,
                "applies": {"bittern-900": [[2003, 2005]]} if self.happens(0.2) else None,
                "cases": self.cases(),
            }
            for cause in causes
        ]
        return {
            "prior_strength": self.number(1, 8),
            "unlisted_share": self.number(0.02, 0.3),
            "causes": rows,
            "unlisted": self.cases() if self.happens(0.3) else {},
        }

    def cases(self) -> Record:
        if self.happens(0.5):
            return {}
        return {"bittern-900": {"2004": self.chance.randint(1, 4)}, "curlew-1100": {"2012": self.chance.randint(1, 2)}}

    def job(self, job: str, before: list[str]) -> Record:
        skill = self.chance.choice((0, 0, 0, 0, 1))
        allows = self.chance.choice((0, 1, 2, 3, 3, 4))
        needs = self.some(before, 0.3)
        return {"id": job, "minutes": self.number(2, 30), "needs": needs, "skill": skill, "allows": allows}

    def work(self, jobs: list[str]) -> Record:
        return {
            "skill": self.chance.choice((0, 0, 0, 0, 1, 2)),
            "tools": self.some(list(TOOLS), 0.12),
            # Now and then a job that nobody has described.
            "access": self.some(jobs, 0.25) + (["secret-door"] if self.happens(0.02) else []),
        }

    def fix(self, cause: str, jobs: list[str]) -> Record:
        parts, hours = self.number(0, 200), self.number(0.1, 3)
        return {"id": cause, "parts": parts, "hours": hours, "trial": self.happens(0.25), **self.work(jobs)}

    def check(self, number: int, causes: list[str], jobs: list[str]) -> Record:
        reading = self.happens(0.35)
        sides: dict[str, list[str]] = {"low": [], "high": []} if reading else {"bad": []}
        for cause in causes:
            if self.happens(0.4):
                sides[self.chance.choice(list(sides))].append(cause)
        return {
            "id": f"check-{number}",
            "outcomes": sides,
            "good": [13.5, 14.8] if reading else None,
            "finds": 1 if self.happens(0.6) else self.chance.choice((0.5, 0.7, 0.9)),
            "only_while_present": self.happens(0.15),
            "before_riding": self.happens(0.2),
            "bike": self.chance.choice((0, 0, 0, 1, 2, 3, 4)),
            "minutes": self.number(1, 20),
            "cost": self.chance.choice((0, 0, 0, self.number(1, 20))),
            **self.work(jobs),
        }

    def owner(self, checks: list[Record], jobs: list[str], causes: list[str]) -> Record:
        results = {}
        for check in checks:
            if self.happens(0.08):
                results[check["id"]] = self.chance.choice([*check["outcomes"], "good", "good", "unclear"])
        return {
            "bike": self.chance.choice((None, ["bittern-900", 2004], ["bittern-900", 2007], ["curlew-1100", 2012])),
            "skill": self.chance.choice(("home", "home", "experienced", "workshop")),
            "own_time_value": self.chance.choice((None, None, 0, 40)),
            "has": self.some([tool for tool, usual in TOOLS.items() if not usual], 0.4),
            "lacks": self.some(list(TOOLS), 0.08),
            "absent": self.happens(0.15),
            "opened": self.some(jobs, 0.12),
            "covered": self.some(causes, 0.3) if self.happens(0.3) else [],
            "results": results,
        }
