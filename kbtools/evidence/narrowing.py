"""How much one more case would narrow what is known about a fault.

With the Dirichlet parameters a (their sum A) the shares p = a/A are known with the variances p·(1 − p)/(A + 1). Their
sum is V; its root is the *spread*: how far, all causes taken together, the shares may be off. One more counted case,
whatever it turns out to be, leaves on average V·A/(A + 1) of it: the mean over the outcomes, each as likely as its
share. (That follows from the law of total variance; a test adds the outcomes up.) The *narrowing* is by how much the
spread falls with it: √V − √(V·A/(A + 1)).

It is large where few cases meet many likely causes, and falls with every case. It does not depend on what the causes
cost: it says where knowledge is thin, not where it pays.
"""

from __future__ import annotations

from dataclasses import dataclass

from kbtools.evidence.counting import Evidence
from kbtools.evidence.shares import intervals, parameters


@dataclass(frozen=True, slots=True, kw_only=True)
class Narrowing:
    """How sure the shares of a fault are, and how much surer one more case would make them."""

    cases: int
    """Counted cases."""
    widest: float
    """Width of the widest of the 90 % intervals, 0 to 1."""
    spread: float
    """Root of the summed variances of the shares, 0 to 1."""
    narrowing: float
    """By how much one more case lowers the spread on average, 0 to 1."""


def narrowing(evidence: Evidence) -> Narrowing:
    """The state of knowledge about a fault."""
    causes, alphas = parameters(evidence)
    total = sum(alphas)
    variance = sum(alpha / total * (1 - alpha / total) for alpha in alphas) / (total + 1)
    spread = variance**0.5
    return Narrowing(
        cases=sum(cause.cases for cause in causes) + sum(evidence.unlisted.values()),
        widest=max(high - low for low, high in intervals(alphas)),
        spread=spread,
        narrowing=spread - (variance * total / (total + 1)) ** 0.5,
    )
