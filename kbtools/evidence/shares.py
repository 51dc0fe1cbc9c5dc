"""How the causes of a fault share, and how sure that is.

Before any case, the curators' weights give prior shares s: those of the causes that exist on the machine asked for,
scaled to 1 − `unlisted_share`; a cause that is not listed takes the rest. They weigh as much as m cases
(`prior_strength`). With n cases of each cause the shares are Dirichlet-distributed with the parameters m·s + n, so
each cause's own share is Beta-distributed. That is the textbook's conjugate prior of a multinomial sample.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from scipy.special import betaincinv, ndtri

from kbtools.evidence.counting import CauseCases, Evidence
from kbtools.index.answers import ModelYear
from kbtools.model.case import UNLISTED

FEW_CASES = 5
"""From so many counted cases on numbers come before words, and money has a median."""

Sureness = Literal["judgement", "few", "counted"]
"""No case at all, fewer than `FEW_CASES`, or at least so many."""

_Z_95 = float(ndtri(0.975))


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """How often one cause is the one."""

    id: str
    """Of the cause, or `unlisted`."""
    mean: float
    """Posterior mean, 0 to 1; over the causes of a fault and `unlisted` they add up to 1."""
    low: float
    """Lower end of the central 90 % interval."""
    high: float
    """Upper end of it."""
    cases: int
    """Counted cases with this cause."""
    yours: int
    """Those of them on the model year asked for; 0 where none is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """How often a fix held."""

    held: int
    """Counted cases of its cause: the fault did not come back."""
    tried: int
    """Those and the ones in which it came back."""
    low: float
    """Lower end of the Wilson 95 % interval of the proportion."""
    high: float
    """Upper end of it."""


def parameters(evidence: Evidence, bike: ModelYear | None = None) -> tuple[list[CauseCases], list[float]]:
    """The causes that exist on the machine, in file order, and the Dirichlet parameters: theirs, then `unlisted`'s."""
    causes = [cause for cause in evidence.causes if cause.exists_on(bike)]
    weights = [1.0 if cause.weight is None else cause.weight for cause in causes]
    total = sum(weights)
    m = evidence.prior_strength
    unlisted = evidence.unlisted_share if causes else 1.0
    listed = [m * (1 - unlisted) * weight / total + cause.cases for weight, cause in zip(weights, causes, strict=True)]
    return causes, [*listed, m * unlisted + sum(evidence.unlisted.values())]


def means(evidence: Evidence, bike: ModelYear | None = None) -> dict[str, float]:
    """The posterior mean shares by id: the causes that exist on the machine in file order, then `unlisted`."""
    causes, alphas = parameters(evidence, bike)
    total = sum(alphas)
    ids = [*(cause.id for cause in causes), UNLISTED]
    return {each: alpha / total for each, alpha in zip(ids, alphas, strict=True)}


def shares(evidence: Evidence, bike: ModelYear | None = None) -> tuple[Share, ...]:
    """The shares with their intervals: the causes that exist on the machine in file order, then `unlisted`."""
    causes, alphas = parameters(evidence, bike)
    total = sum(alphas)
    counts: list[tuple[str, Mapping[ModelYear, int]]] = [(cause.id, cause.counted) for cause in causes]
    counts.append((UNLISTED, evidence.unlisted))
    ends = intervals(alphas)
    return tuple(
        Share(
            id=each,
            mean=alpha / total,
            low=low,
            high=high,
            cases=sum(counted.values()),
            yours=counted.get(bike, 0) if bike is not None else 0,
        )
        for (each, counted), alpha, (low, high) in zip(counts, alphas, ends, strict=True)
    )


def intervals(alphas: Sequence[float], mass: float = 0.9) -> list[tuple[float, float]]:
    """The central intervals of the marginals of a Dirichlet distribution, 90 % each unless `mass` says otherwise.

    A single share is 1 for sure.
    """
    return list(_intervals(tuple(alphas), mass))


@functools.lru_cache(maxsize=4096)
def _intervals(alphas: tuple[float, ...], mass: float) -> tuple[tuple[float, float], ...]:
    """As `intervals`; kept, since a page and its plan ask for the same, and so do entries that no case tells apart."""
    if len(alphas) == 1:
        return ((1.0, 1.0),)
    total = sum(alphas)
    rest = [total - alpha for alpha in alphas]
    tail = (1 - mass) / 2
    # Both ends in one call: with so few numbers it is the call that costs.
    low, high = betaincinv(alphas, rest, [[tail], [1 - tail]]).tolist()
    return tuple(zip(low, high, strict=True))


def by_falling_share(rows: Sequence[Share]) -> tuple[Share, ...]:
    """The largest share first; equal ones stay in their order."""
    return tuple(sorted(rows, key=lambda row: -row.mean))


def sureness(cases: int) -> Sureness:
    """How much a share rests on cases, `cases` being all that count for the fault."""
    if cases == 0:
        return "judgement"
    return "few" if cases < FEW_CASES else "counted"


def cases_words(cases: int, of: int, yours: int | None = None) -> str:
    """`3 of 7 cases, 1 of them on yours`; `yours` is None where no machine is named."""
    if of == 0:
        return "curator's judgement only"
    text = f"{cases} of {of} case{'' if of == 1 else 's'}"
    return text if yours is None or cases == 0 else f"{text}, {yours} of them on yours"


def held(cause: CauseCases) -> Held | None:
    """How often the fix of a cause held; None where nobody has reported on it."""
    kept, tried = cause.cases, cause.cases + cause.returned
    if tried == 0:
        return None
    low, high = wilson(kept, tried)
    return Held(held=kept, tried=tried, low=low, high=high)


def wilson(successes: int, trials: int) -> tuple[float, float]:
    """The 95 % score interval of a proportion (E. B. Wilson, 1927), without correction for continuity."""
    part = successes / trials
    square = _Z_95 * _Z_95 / trials
    middle = part + square / 2
    reach = (square * part * (1 - part) + (square / 2) ** 2) ** 0.5
    low, high = (middle - reach) / (1 + square), (middle + reach) / (1 + square)
    # At the ends the formula gives 0 and 1 but for rounding.
    return (0.0 if successes == 0 else low, 1.0 if successes == trials else high)
