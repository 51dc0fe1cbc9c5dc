"""What each way of going about it costs a bike with a given cause, by brute force: it shares no code with the programs.

The best of all trees is the one that `plan_brute.py` lists; here it is walked by hand for one cause, and so is what
goes after the likeliest cause first, whose choices go by the shares while one cause alone is there.
"""

from __future__ import annotations

import numpy as np

from tests.support.plan_brute import UNLISTED, Brute, Record, Tree


class GivenCause(Brute):
    """One problem for one owner who has not checked anything."""

    def best(self) -> Tree:
        """The best tree, as `solve` chooses it."""
        trees = self.trees(self.alive, self.silent, self.open)
        weights = self.weights()
        means = np.tensordot(trees.figures, np.array([weights[each] for each in self.causes]), axes=(1, 0))
        left = np.arange(len(means))
        for column in range(3):
            figures = means[left, column]
            left = left[figures - figures.min() <= 1e-9 * figures]
        return trees.tree(int(left[0]))

    def walked(self, tree: Tree, cause: str, opened: set[str]) -> float:
        """What a tree costs with this cause, from where this is open."""
        kind, name, following = tree
        if kind == "hand_over":
            return self.handed_over(cause)
        if kind == "workshop":
            return self.known_price(cause)
        if kind == "home":
            return self.at_home(cause, opened)
        if kind == "trial_fix":
            ((_, rest),) = following
            price = self.at_home(str(name), opened)
            return price if name == cause else price + self.walked(rest, cause, opened)
        check = self.checks[str(name)]
        after = self.kept(opened, check) | self.with_needs(check["access"])
        cost = self.check_price(check, opened)[0]
        for outcome, each in following:
            chance = self.chance(check, outcome, cause)
            if chance > 0:
                cost += chance * self.walked(each, cause, after)
        return cost

    def at_home(self, cause: str, opened: set[str]) -> float:
        price = self.home_price(cause, opened)
        assert price is not None
        return price[0]

    def likeliest_with(self, cause: str, weights: dict[str, float], silent: set[str], opened: set[str]) -> float:
        """What going after the likeliest first costs with this cause; `weights` are those of what is possible still."""
        if len(weights) == 1:
            if cause == UNLISTED:
                return self.handed_over(cause)
            price = self.home_price(cause, opened)
            return min([self.known_price(cause), *([] if price is None else [price[0]])])
        whole = sum(weights.values())
        listed = [each for each in self.causes if each in weights and each != UNLISTED]
        alive = set(weights)
        for wanted in sorted(listed, key=lambda each: -float(f"{weights[each] / whole:.9e}")):
            usable = [
                check
                for check in self.checks.values()
                if self.usable(check, alive, silent) and any(wanted in each for each in check["outcomes"].values())
            ]
            if usable:
                check = min(usable, key=lambda each: float(f"{self.check_price(each, opened)[0]:.9e}"))
                return self.likeliest_checked(check, cause, weights, silent, opened)
            price = self.home_price(wanted, opened)
            if self.fixes[wanted]["trial"] and price is not None:
                rest = {each: weight for each, weight in weights.items() if each != wanted}
                return price[0] + (0.0 if wanted == cause else self.likeliest_with(cause, rest, silent, opened))
        return self.handed_over(cause)

    def likeliest_checked(
        self, check: Record, cause: str, weights: dict[str, float], silent: set[str], opened: set[str]
    ) -> float:
        cost = self.check_price(check, opened)[0]
        after = self.kept(opened, check) | self.with_needs(check["access"])
        for outcome in [*check["outcomes"], "good"]:
            chance = self.chance(check, outcome, cause)
            if chance > 0:
                then = {each: weight * self.chance(check, outcome, each) for each, weight in weights.items()}
                quiet = silent | {check["id"]} if outcome == "good" and check["finds"] < 1 else silent
                left = {each: weight for each, weight in then.items() if weight > 0}
                cost += chance * self.likeliest_with(cause, left, quiet, after)
        return cost
