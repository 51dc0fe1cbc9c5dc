"""A replay as `kbtools replay --format json` prints it: the contract with whoever reads it. Nothing is rounded."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from kbtools.replay.rows import ReplayRow
from kbtools.replay.scores import Scores, scores


def replay_record(rows: Sequence[ReplayRow]) -> dict[str, object]:
    """`{"cases": […], "scores": {"log": {"club", "judgement", "equal"}, "brier": {…}}}`; null without cases."""
    log, brier = scores(rows) or (None, None)
    return {"cases": [_row(row) for row in rows], "scores": {"log": _scores(log), "brier": _scores(brier)}}


def _row(row: ReplayRow) -> dict[str, object]:
    return {
        "case": row.case,
        "fault": row.fault,
        "cause": row.cause,
        "cause_share": row.advice.share,
        "fault_share": row.fault_share,
        "rank": row.advice.rank,
        "cost": row.advice.cost,
        "hand_over_cost": row.advice.hand_over,
        "likeliest_first_cost": row.advice.likeliest_first,
        "paid": row.paid,
    }


def _scores(found: Scores | None) -> dict[str, float | None]:
    return {"club": None, "judgement": None, "equal": None} if found is None else asdict(found)
