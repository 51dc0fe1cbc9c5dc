"""How often the advice was right: each counted case beside what the cases seen before it would have said.

`replay` (in `rows.py`) makes a row of each counted case, `scores` and `calibration` sum them up. The curators knew some
of these bikes when they wrote the entries, so it is no test on unknown ones, and whoever shows it says so.
"""

from __future__ import annotations

from kbtools.replay.advice import Advice
from kbtools.replay.record import replay_record
from kbtools.replay.rows import ReplayRow, replay
from kbtools.replay.scores import Bin, Costs, PaidBeside, Scores, calibration, costs, paid_beside, scores

__all__ = [
    "Advice",
    "Bin",
    "Costs",
    "PaidBeside",
    "ReplayRow",
    "Scores",
    "calibration",
    "costs",
    "paid_beside",
    "replay",
    "replay_record",
    "scores",
]
