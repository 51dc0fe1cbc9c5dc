"""The plan by brute force, written apart from the programs: it shares no code and no idea with them.

It lists every decision tree that the rules allow, whole. Of each it works out, for every cause as if that one were
present, what the owner spends, works and does until the bike is fixed; no probability of a cause is used up to there.
Only then the shares weigh these figures, and the best of all trees is taken. Reach and the cost of each step are
found by playing the chosen tree through for each cause.

Input is plain data: a problem as `kbtools.checkplan.problem.problem_record` describes it, and an owner.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Record = dict[str, Any]
Tree = tuple[Any, ...]
Floats = NDArray[np.float64]
LEVELS = {"home": 0, "experienced": 1, "workshop": 2}
UNLISTED = "unlisted"


class TooManyError(Exception):
    """More trees than are worth listing."""


@dataclass
class Trees:
    """All trees from one point on."""

    figures: Floats
    """Of each tree, for each cause: cost, own minutes, steps, given that this cause is present and got there."""
    parts: list[tuple[str, str | None, list[tuple[str, Trees]]]]
    """Runs of trees that begin with the same step: kind, id, and the trees that follow by what comes out."""

    def tree(self, place: int) -> Tree:
        """One of them: kind, id, [(outcome, tree)]."""
        for kind, name, following in self.parts:
            count = int(np.prod([len(each.figures) for _, each in following], dtype=np.int64))
            if place < count:
                chosen = []
                for outcome, each in reversed(following):
                    place, rest = divmod(place, len(each.figures))
                    chosen.append((outcome, each.tree(rest)))
                return kind, name, chosen[::-1]
            place -= count
        raise IndexError


class Brute:
    """One problem for one owner."""

    def __init__(self, problem: Record, owner: Record, most: int = 40_000) -> None:
        self.problem, self.owner, self.most = problem, owner, most
        own = owner["own_time_value"]
        self.hour = problem["own_time_value"] if own is None else own
        self.rate = problem["labour_rate"]
        self.jobs = {each["id"]: each for each in problem["access"]}
        usual = {tool for tool, is_usual in problem["tools"].items() if is_usual}
        self.tools = (usual | set(owner["has"])) - set(owner["lacks"])
        self.level = LEVELS[owner["skill"]]
        self.shares = self.posterior()
        self.causes = list(self.shares)
        self.fixes = {each["id"]: each for each in problem["fixes"] if each["id"] in self.shares}
        self.checks = {each["id"]: each for each in problem["checks"]}
        self.covered = set(owner["covered"])
        self.start()

    def posterior(self) -> dict[str, float]:
        return posterior(self.problem["evidence"], self.owner["bike"])

    # The rules, from the words of the contract

    def with_needs(self, jobs: list[str]) -> set[str]:
        found = set(jobs)
        for _ in self.jobs:
            found |= {need for job in found if job in self.jobs for need in self.jobs[job]["needs"]}
        return found

    def within(self, work: Record) -> bool:
        jobs = self.with_needs(work["access"])
        return (
            work["skill"] <= self.level
            and set(work["tools"]) <= self.tools
            and all(job in self.jobs and self.jobs[job]["skill"] <= self.level for job in jobs)
        )

    def minutes_of(self, jobs: set[str]) -> float:
        return float(sum(self.jobs[job]["minutes"] for job in jobs if job in self.jobs))

    def kept(self, opened: set[str], check: Record) -> set[str]:
        """What stays open when the bike does what a check asks for: not what forbids that, nor what needs that."""
        closed = {job for job in opened if job in self.jobs and self.jobs[job]["allows"] < check["bike"]}
        for _ in self.jobs:
            closed |= {job for job in opened if job in self.jobs and closed & set(self.jobs[job]["needs"])}
        return opened - closed

    def start(self) -> None:
        """Where the owner stands after the results given: what is possible, and how likely each cause made them."""
        self.alive = set(self.causes)
        self.silent: set[str] = set()
        self.open = self.with_needs(self.owner["opened"])
        self.likelihood = dict.fromkeys(self.causes, 1.0)
        for name, result in self.owner["results"].items():
            if result == "unclear":
                continue
            check = self.checks[name]
            self.open = self.kept(self.open, check) | self.with_needs(check["access"])
            left = {cause for cause in self.causes if self.likelihood[cause] > 0}
            if (
                result != "good"
                and check["before_riding"]
                and len(left) == 1
                and not left & set(check["outcomes"][result])
            ):
                # The cause is known already, so this is a second fault beside it.
                continue
            pointed = {cause for causes in check["outcomes"].values() for cause in causes}
            for cause in self.causes:
                if result == "good":
                    self.likelihood[cause] *= 1 - check["finds"] if cause in pointed else 1
                else:
                    self.likelihood[cause] *= check["finds"] if cause in check["outcomes"][result] else 0
            if result == "good" and check["finds"] < 1:
                self.silent.add(name)
        self.alive = {cause for cause in self.causes if self.likelihood[cause] > 0}

    def usable(self, check: Record, alive: set[str], silent: set[str]) -> bool:
        sets = [alive & set(causes) for causes in check["outcomes"].values()]
        return (
            check["id"] not in self.owner["results"]
            and check["id"] not in silent
            and not (check["only_while_present"] and self.owner["absent"])
            and self.within(check)
            and any(sets)
            and alive not in sets
        )

    def check_price(self, check: Record, opened: set[str]) -> tuple[float, float]:
        opened = self.kept(opened, check)
        minutes = check["minutes"] + self.minutes_of(self.with_needs(check["access"]) - opened)
        return minutes / 60 * self.hour + check["cost"], minutes

    def home_price(self, cause: str, opened: set[str]) -> tuple[float, float] | None:
        """Cost and minutes at home."""
        fix = self.fixes[cause]
        if not self.within(fix):
            return None
        saved = self.minutes_of(self.with_needs(fix["access"]) & opened)
        hours = float(fix["hours"] * self.problem["home_time_factor"])
        return (
            fix["parts"] + max(0, hours * self.hour - saved / 60 * self.hour),
            max(0, hours * 60 - saved),
        )

    def repair(self, cause: str) -> float:
        if cause == UNLISTED:
            return float(self.problem["unlisted_repair"])
        if cause in self.covered:
            return 0.0
        return float(self.fixes[cause]["parts"] + self.fixes[cause]["hours"] * self.rate)

    def known_price(self, cause: str) -> float:
        confirm = self.problem["confirm_hours"] * self.rate
        return self.repair(cause) + float(confirm) + float(self.problem["transport"])

    def handed_over(self, cause: str) -> float:
        return float(self.problem["diagnosis_hours"] * self.rate + self.problem["transport"] + self.repair(cause))

    # All trees

    def row(self, cost: dict[str, float], minutes: float = 0.0) -> Floats:
        """Figures of a tree of one step."""
        return np.array([[[cost.get(cause, 0.0), minutes, 1.0] for cause in self.causes]])

    def trees(self, alive: set[str], silent: set[str], opened: set[str]) -> Trees:
        if len(alive) == 1:
            return self.last(next(iter(alive)), opened)
        figures: list[Floats] = []
        parts: list[tuple[str, str | None, list[tuple[str, Trees]]]] = []
        for check in self.checks.values():
            if self.usable(check, alive, silent):
                following = self.following(check, alive, silent, opened)
                figures.append(self.product(check, opened, following))
                parts.append(("check", check["id"], following))
        for cause, fix in self.fixes.items():
            price = self.home_price(cause, opened)
            if cause in alive - self.covered and fix["trial"] and price is not None:
                rest = self.trees(alive - {cause}, silent, opened)
                mask = np.array([[float(each != cause)] for each in self.causes])
                figures.append(rest.figures * mask + np.array([*price, 1.0]))
                parts.append(("trial_fix", cause, [("good", rest)]))
        figures.append(self.row({cause: self.handed_over(cause) for cause in alive}))
        parts.append(("hand_over", None, []))
        if sum(map(len, figures)) > self.most:
            raise TooManyError
        return Trees(np.concatenate(figures), parts)

    def last(self, cause: str, opened: set[str]) -> Trees:
        if cause == UNLISTED:
            return Trees(self.row({cause: self.handed_over(cause)}), [("hand_over", None, [])])
        if cause in self.covered:
            return Trees(self.row({cause: float(self.problem["transport"])}), [("maker", cause, [])])
        workshop = self.row({cause: self.known_price(cause)})
        price = self.home_price(cause, opened)
        if price is None:
            return Trees(workshop, [("workshop", cause, [])])
        both = np.concatenate([self.row({cause: price[0]}, price[1]), workshop])
        return Trees(both, [("home", cause, []), ("workshop", cause, [])])

    def following(self, check: Record, alive: set[str], silent: set[str], opened: set[str]) -> list[tuple[str, Trees]]:
        opened = self.kept(opened, check) | self.with_needs(check["access"])
        pointed = {cause for causes in check["outcomes"].values() for cause in causes}
        found = [
            (outcome, self.trees(alive & set(causes), silent, opened))
            for outcome, causes in check["outcomes"].items()
            if alive & set(causes)
        ]
        if check["finds"] < 1:
            found.append(("good", self.trees(alive, silent | {check["id"]}, opened)))
        elif alive - pointed:
            found.append(("good", self.trees(alive - pointed, silent, opened)))
        return found

    def product(self, check: Record, opened: set[str], following: list[tuple[str, Trees]]) -> Floats:
        """Every choice of a tree for one outcome with every choice for the others."""
        total: Floats = np.zeros((1, len(self.causes), 3))
        for outcome, trees in following:
            chance = np.array([[self.chance(check, outcome, cause)] for cause in self.causes])
            size = len(total) * len(trees.figures)
            if size > self.most:
                raise TooManyError
            total = (total[:, None] + (trees.figures * chance)[None]).reshape(size, len(self.causes), 3)
        price: Floats = np.array([*self.check_price(check, opened), 1.0])
        return np.add(total, price)

    def chance(self, check: Record, outcome: str, cause: str) -> float:
        """How often the check comes out so where the cause is present."""
        finds = float(check["finds"])
        if outcome != "good":
            return finds if cause in check["outcomes"][outcome] else 0.0
        pointed = {each for causes in check["outcomes"].values() for each in causes}
        return 1 - finds if cause in pointed else 1.0

    # The best of them

    def weights(self) -> dict[str, float]:
        return {cause: self.shares[cause] * self.likelihood[cause] for cause in self.causes}

    def solve(self) -> Record:
        """What `kbtools plan --format json` must say, `expected_cost`, `baselines` and `steps`."""
        if not self.alive:
            empty = {"hand_over": None, "likeliest_first": None}
            return {"expected_cost": None, "baselines": empty, "steps": [], "trees": 0}
        weights = self.weights()
        whole = sum(weights.values())
        trees = self.trees(self.alive, self.silent, self.open)
        means = np.tensordot(trees.figures, np.array([weights[each] / whole for each in self.causes]), axes=(1, 0))
        left = np.arange(len(means))
        for column in range(3):
            figures = means[left, column]
            left = left[figures - figures.min() <= 1e-9 * figures]
        chosen = trees.tree(int(left[0]))
        reach = {cause: weights[cause] / whole for cause in self.causes}
        return {
            "expected_cost": float(means[left[0], 0]),
            "baselines": {
                "hand_over": sum(reach[cause] * self.handed_over(cause) for cause in self.alive),
                "likeliest_first": self.likeliest(reach, self.silent, self.open),
            },
            "minutes": float(means[left[0], 1]),
            "steps": list(self.play(chosen, reach, self.open)),
            "trees": len(means),
        }

    def play(self, tree: Tree, reach: dict[str, float], opened: set[str]) -> Iterator[Record]:
        """The steps of a tree; `reach` is how likely each cause is present and gets there."""
        kind, name, following = tree
        here = sum(reach.values())
        step: Record = {"kind": kind, "id": name, "reach": here, "access": [], "outcomes": {}}
        if kind == "check":
            check = self.checks[name]
            step["cost"] = self.check_price(check, opened)[0]
            opened = self.kept(opened, check)
            step["access"] = sorted(self.with_needs(check["access"]) - opened)
            opened = opened | self.with_needs(check["access"])
            step["outcomes"] = {outcome: [] for outcome in check["outcomes"]}
            for outcome, each in following:
                then = {cause: reach[cause] * self.chance(check, outcome, cause) for cause in reach}
                if outcome != "good":
                    step["outcomes"][outcome] = list(self.play(each, then, opened))
            yield step
            for outcome, each in following:
                if outcome == "good":
                    then = {cause: reach[cause] * self.chance(check, outcome, cause) for cause in reach}
                    yield from self.play(each, then, opened)
            return
        if kind == "trial_fix":
            step["cost"] = (self.home_price(name, opened) or (0,))[0]
            yield step
            yield from self.play(following[0][1], {**reach, name: 0.0}, opened)
            return
        if kind == "hand_over":
            step["cost"] = sum(reach[cause] * self.handed_over(cause) for cause in reach) / here
        else:
            step["kind"], step["where"] = "fix", kind
            at_home = (self.home_price(name, opened) or (0,))[0]
            elsewhere = {"workshop": self.known_price(name), "maker": float(self.problem["transport"])}
            step["cost"] = elsewhere.get(kind, at_home)
        yield step

    # The other way to go about it

    def likeliest(self, reach: dict[str, float], silent: set[str], opened: set[str]) -> float:
        """What remains to be paid by whoever goes after the likeliest cause first, times the chance to get there."""
        alive = {cause for cause, chance in reach.items() if chance > 0}
        here = sum(reach.values())
        if len(alive) == 1:
            cause = next(iter(alive))
            if cause in self.covered:
                return here * float(self.problem["transport"])
            prices = [self.handed_over(cause)] if cause == UNLISTED else [self.known_price(cause)]
            home = None if cause == UNLISTED else self.home_price(cause, opened)
            return here * min(prices + ([home[0]] if home is not None else []))
        # Equal but for rounding counts as equal: ten digits are compared.
        listed = sorted(
            (cause for cause in self.causes if cause in alive and cause != UNLISTED),
            key=lambda cause: -float(f"{reach[cause] / here:.9e}"),
        )
        for cause in listed:
            usable = [
                check
                for check in self.checks.values()
                if self.usable(check, alive, silent) and any(cause in each for each in check["outcomes"].values())
            ]
            if usable:
                check = min(usable, key=lambda each: float(f"{self.check_price(each, opened)[0]:.9e}"))
                return self.likeliest_check(check, reach, silent, opened)
            home = self.home_price(cause, opened)
            if cause not in self.covered and self.fixes[cause]["trial"] and home is not None:
                return here * home[0] + self.likeliest({**reach, cause: 0.0}, silent, opened)
        return sum(reach[cause] * self.handed_over(cause) for cause in alive)

    def likeliest_check(self, check: Record, reach: dict[str, float], silent: set[str], opened: set[str]) -> float:
        total = sum(reach.values()) * self.check_price(check, opened)[0]
        opened = self.kept(opened, check) | self.with_needs(check["access"])
        for outcome in [*check["outcomes"], "good"]:
            then = {cause: reach[cause] * self.chance(check, outcome, cause) for cause in reach}
            if sum(then.values()) > 0:
                quiet = silent | {check["id"]} if outcome == "good" and check["finds"] < 1 else silent
                total += self.likeliest(then, quiet, opened)
        return total


def posterior(evidence: Record, bike: list[Any] | None) -> dict[str, float]:
    """Posterior mean shares of the causes that exist on the machine, and of `unlisted`."""

    def exists(cause: Record) -> bool:
        if bike is None or cause["applies"] is None:
            return True
        return any(bike[1] in range(first, last + 1) for first, last in cause["applies"].get(bike[0], []))

    def count(cases: Record) -> int:
        return sum(sum(years.values()) for years in cases.values())

    causes = [cause for cause in evidence["causes"] if exists(cause)]
    weights = np.array([1.0 if cause["weight"] is None else cause["weight"] for cause in causes])
    unlisted = evidence["unlisted_share"]
    prior = [*(weights / weights.sum() * (1 - unlisted)), unlisted] if causes else [1.0]
    counts = np.array([*(count(cause["cases"]) for cause in causes), count(evidence["unlisted"])])
    alpha = evidence["prior_strength"] * np.array(prior) + counts
    return dict(zip([*(cause["id"] for cause in causes), UNLISTED], (alpha / alpha.sum()).tolist(), strict=True))
