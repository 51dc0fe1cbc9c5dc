"""How often the advice was right, as tables for the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kbtools.replay import ReplayRow, calibration, costs, paid_beside, scores
from kbtools.text.terminal import shown
from kbtools.wording.replay import LIMIT, NO_CASES, WAYS, between, judged_words, paid_words, spent_words

_HEAD = ("case", "fault/cause", "share", "place", "fault", "plan", "over", "likeliest", "paid")
_LEFT = 2
"""So many columns are words, the others figures."""


def render(rows: Sequence[ReplayRow], currency: str) -> str:
    """One line a case, in the order given, and below them what they say in sum."""
    if not rows:
        return f"{NO_CASES}\n"
    parts = [_table([_HEAD, *(_cells(row) for row in rows)], _LEFT), *_in_sum(rows, currency)]
    return "\n".join(parts)


def _in_sum(rows: Sequence[ReplayRow], currency: str) -> Iterator[str]:
    log, brier = scores(rows) or (None, None)
    spent = costs(rows)
    if log is None or brier is None or spent is None:
        return
    count = f"{len(rows)} case{'' if len(rows) == 1 else 's'}"
    yield f"How good the shares were, over {count}; the lower the better\n" + _table(
        [
            ("", "log", "Brier"),
            *((words, f"{getattr(log, name):.3f}", f"{getattr(brier, name):.3f}") for name, words in WAYS.items()),
        ],
        1,
    )
    yield "".join(f"{line}\n" for line in [*judged_words(log, brier), LIMIT])
    yield "How often what was called came true, every cause of every case counted\n" + _table(
        [
            ("called", "causes", "on average", "were it", ""),
            *(
                (
                    between(each.low, each.high),
                    str(each.called),
                    _percent(each.mean),
                    str(each.were),
                    _percent(each.were / each.called),
                )
                for each in calibration(rows)
                if each.called
            ),
        ],
        1,
    )
    money = [spent_words(spent.plan, spent.likeliest_first, spent.hand_over, currency)]
    told = paid_beside(rows)
    if told is not None:
        money.append(paid_words(told.cases, told.paid, told.plan, currency))
    yield "".join(f"{line}\n" for line in money)


def _cells(row: ReplayRow) -> tuple[str, ...]:
    advice = row.advice
    return (
        shown(row.case),
        f"{shown(row.fault)}/{shown(row.cause)}",
        _percent(advice.share),
        str(advice.rank),
        "-" if row.fault_share is None else _percent(row.fault_share),
        *(f"{each:.0f}" for each in (advice.cost, advice.hand_over, advice.likeliest_first)),
        "-" if row.paid is None else f"{row.paid:.0f}",
    )


def _percent(part: float) -> str:
    return f"{100 * part:.0f} %"


def _table(lines: Sequence[tuple[str, ...]], left: int) -> str:
    widths = [max(len(line[column]) for line in lines) for column in range(len(lines[0]))]
    return "".join(
        "  ".join(
            cell.ljust(width) if column < left else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(line, widths, strict=True))
        ).rstrip()
        + "\n"
        for line in lines
    )
