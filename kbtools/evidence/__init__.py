"""What the club's cases say: how the causes of a fault share, how sure that is, what held and what was paid."""

from __future__ import annotations

from kbtools.evidence.counting import (
    CauseCases,
    Evidence,
    Odometer,
    SecondCauses,
    Spans,
    evidence_by,
    evidence_of,
    odometers,
    runs,
    second_causes,
)
from kbtools.evidence.money import Paid, paid
from kbtools.evidence.narrowing import Narrowing, narrowing
from kbtools.evidence.record import evidence_record
from kbtools.evidence.shares import (
    FEW_CASES,
    Held,
    Share,
    Sureness,
    by_falling_share,
    cases_words,
    held,
    intervals,
    means,
    shares,
    sureness,
)

__all__ = [
    "FEW_CASES",
    "CauseCases",
    "Evidence",
    "Held",
    "Narrowing",
    "Odometer",
    "Paid",
    "SecondCauses",
    "Share",
    "Spans",
    "Sureness",
    "by_falling_share",
    "cases_words",
    "evidence_by",
    "evidence_of",
    "evidence_record",
    "held",
    "intervals",
    "means",
    "narrowing",
    "odometers",
    "paid",
    "runs",
    "second_causes",
    "shares",
    "sureness",
]
