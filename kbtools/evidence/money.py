"""What was paid, as the cases say."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from kbtools.evidence.shares import FEW_CASES
from kbtools.model.case import Case, PaidWhere


@dataclass(frozen=True, slots=True, kw_only=True)
class Paid:
    """What a number of cases paid, in the club's currency.

    The quartiles are interpolated between neighbours, definition 7 of Hyndman and Fan (1996), which numpy calls linear.
    """

    cases: int
    """How many cases say so; at least five."""
    lower: float
    """A quarter of them paid at most about this."""
    median: float
    """Half of them paid at most about this."""
    upper: float
    """Three quarters of them paid at most about this."""


def paid(cases: Iterable[Case], *, cause: str | None = None, where: PaidWhere | None = None) -> Paid | None:
    """What these cases paid, parts and labour together; None while fewer than five say so.

    Args:
        cases: cases of one fault. A case that came back was paid for as well, so none is left out for that.
        cause: only those with this cause.
        where: only those of work at home or in a workshop.
    """
    totals = [
        (each.parts or 0) + (each.labour or 0)
        for case in cases
        if (each := case.outcome.paid) is not None
        and (each.parts is not None or each.labour is not None)
        and where in {None, each.where}
        and cause in {None, case.outcome.cause}
    ]
    if len(totals) < FEW_CASES:
        return None
    lower, median, upper = np.quantile(totals, [0.25, 0.5, 0.75], method="linear").tolist()
    return Paid(cases=len(totals), lower=lower, median=median, upper=upper)
