"""One plan for several faults by brute force, written apart from the programs: it shares no code and no idea with them.

The faults are put together from the words of the contract, one sum after the other; then `plan_brute.py` lists every
tree over the causes of all of them. Intervals come from `scipy.stats`.

Input is plain data, as `core/joint.js` takes it: `{"parts", "without_fault", "owner"}`. A part is `{"problem",
"beside", "same", "shared", "cases"}`: `same` names for a cause the group of causes that are one, `shared` for a check
the check that several faults share, and `cases` are the counted cases with one of the codes by cause, null for all.
"""

from __future__ import annotations

from typing import Any

from tests.support.plan_brute import UNLISTED, Brute, posterior

Record = dict[str, Any]
LEVELS = ("do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction", None)


class JointBrute(Brute):
    """Several faults for one owner, whose results and covered causes go by the ids of the joint plan."""

    def __init__(self, asked: Record, most: int = 40_000) -> None:
        self.asked = asked
        self.parts: list[Record] = asked["parts"]
        self.bike = asked["owner"]["bike"]
        self.inside = [posterior(each["problem"]["evidence"], self.bike) for each in self.parts]
        self.count_faults()
        self.unite_causes()
        super().__init__(self.one_problem(), asked["owner"], most)

    def posterior(self) -> dict[str, float]:
        return self.joint

    # How often it is which fault

    def count_faults(self) -> None:
        evidence = self.parts[0]["problem"]["evidence"]
        m, u = evidence["prior_strength"], evidence["unlisted_share"]
        self.n = [self.cases_of(place) for place in range(len(self.parts))]
        whole = self.asked["without_fault"] + sum(self.n) + m
        self.alpha = [n + m * (1 - u) / len(self.parts) for n in self.n] + [self.asked["without_fault"] + m * u]
        self.v = [alpha / whole for alpha in self.alpha]

    def cases_of(self, place: int) -> int:
        with_codes = self.parts[place]["cases"]
        if with_codes is not None:
            return sum(with_codes.get(cause, 0) for cause in self.inside[place])
        return sum(self.all_cases(place, cause) for cause in self.inside[place])

    def all_cases(self, place: int, cause: str) -> int:
        evidence = self.parts[place]["problem"]["evidence"]
        found = evidence["unlisted"]
        for each in evidence["causes"]:
            if each["id"] == cause:
                found = each["cases"]
        return sum(count for years in found.values() for count in years.values())

    # The causes and checks of all of them

    def unite_causes(self) -> None:
        """Groups of causes that are one; each is called by its likeliest member, the first of equal ones."""
        groups: dict[str, list[tuple[int, str]]] = {}
        for place, part in enumerate(self.parts):
            for cause in self.inside[place]:
                if cause != UNLISTED:
                    alone = f"alone {place} {cause}"
                    groups.setdefault(part["same"].get(cause, alone), []).append((place, cause))
        self.members: dict[str, list[tuple[int, str]]] = {}
        for group in groups.values():
            chances = [self.v[place] * self.inside[place][cause] for place, cause in group]
            near = [each for each, chance in zip(group, chances, strict=True) if chance >= max(chances) * (1 - 1e-9)]
            self.members[self.name(*near[0])] = group
        self.joint = {
            name: sum(self.v[place] * self.inside[place][cause] for place, cause in group)
            for name, group in self.members.items()
        }
        outside = sum(v * inside[UNLISTED] for v, inside in zip(self.v, self.inside, strict=False))
        self.joint[UNLISTED] = self.v[-1] + outside

    def name(self, place: int, cause: str) -> str:
        return f"{self.parts[place]['problem']['fault']}/{cause}"

    def joined(self, place: int, cause: str) -> str | None:
        """What a cause is called in the joint plan; None where it does not exist on the machine."""
        return next((name for name, group in self.members.items() if (place, cause) in group), None)

    def one_problem(self) -> Record:
        problems = [part["problem"] for part in self.parts]
        fixes = []
        for name, group in self.members.items():
            place, cause = next(each for each in group if self.name(*each) == name)
            fixes.append({**next(each for each in problems[place]["fixes"] if each["id"] == cause), "id": name})
        access: dict[str, Record] = {}
        tools: dict[str, bool] = {}
        for problem in problems:
            access.update({each["id"]: each for each in problem["access"]})
            tools.update(problem["tools"])
        return {
            **problems[0],
            "transport": max(problem["transport"] for problem in problems),
            "access": list(access.values()),
            "tools": tools,
            "fixes": fixes,
            "checks": self.all_checks(),
        }

    def all_checks(self) -> list[Record]:
        found: dict[str, Record] = {}
        for place, part in enumerate(self.parts):
            for check in part["problem"]["checks"]:
                name = part["shared"].get(check["id"], f"{part['problem']['fault']}/{check['id']}")
                before = found.setdefault(
                    name, {**check, "id": name, "outcomes": {side: [] for side in check["outcomes"]}}
                )
                before["finds"] = min(before["finds"], check["finds"])
                before["before_riding"] = before["before_riding"] or check["before_riding"]
                for side, causes in check["outcomes"].items():
                    for cause in causes:
                        joined = self.joined(place, cause)
                        # The two sides of a reading never mean the same cause: the side that was named first holds.
                        if joined is not None and not any(joined in each for each in before["outcomes"].values()):
                            before["outcomes"][side].append(joined)
        return list(found.values())

    # What stands beside the plan

    def told(self) -> Record:
        """What the joint plan must say besides `expected_cost`, `baselines` and `steps`."""
        # It takes half a second to load, and whoever only names this module does without.
        from scipy import stats

        names = [part["problem"]["fault"] for part in self.parts] + [UNLISTED]
        whole = sum(self.alpha)
        faults = [
            [name, v, *stats.beta.ppf([0.05, 0.95], alpha, whole - alpha).tolist(), cases]
            for name, v, alpha, cases in zip(
                names, self.v, self.alpha, [*self.n, self.asked["without_fault"]], strict=True
            )
        ]
        causes = []
        for name, weight in self.joint.items():
            own = [each for each in self.members.get(name, []) if self.name(*each) == name]
            if name == UNLISTED:
                own = [(place, UNLISTED) for place in range(len(self.parts))]
            causes.append([name, weight, sum(self.all_cases(*each) for each in own)])
        return {"faults": faults, "causes": causes, "ride_advice": self.ride_advice()}

    def ride_advice(self) -> Record:
        """Without codes: of each fault with a cause that is possible, of each cause that is as likely as not."""
        weights = self.weights()
        left = sum(weights.values())
        words: list[Record] = []
        for place, part in enumerate(self.parts):
            own = [name for name, group in self.members.items() if any(each[0] == place for each in group)]
            if not self.alive or UNLISTED in self.alive or self.alive & set(own):
                words.append(part["beside"]["advice"])
        for name, group in self.members.items():
            said = [
                self.parts[place]["beside"]["causes"][cause]
                for place, cause in group
                if cause in self.parts[place]["beside"]["causes"]
            ]
            if said and left and weights[name] / left >= 0.5 - 1e-9:
                strictest = min(said, key=lambda each: LEVELS.index(each["level"]))
                words.append({**strictest, "from": f"cause:{name}"})
        words += [
            {"level": "do-not-ride", "why": None, "from": f"check:{check['id']}"}
            for check in self.problem["checks"]
            if check["before_riding"] and self.owner["results"].get(check["id"], "good") not in {"good", "unclear"}
        ]
        return min(words, key=lambda each: LEVELS.index(each["level"]))
