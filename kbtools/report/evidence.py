"""The evidence of a knowledge base as a table for the terminal."""

from __future__ import annotations

from collections.abc import Sequence

from kbtools.checkplan.where_cases_help import EvidenceRow
from kbtools.model.money import Range, show_money
from kbtools.text.terminal import shown

_HEAD = ("fault", "cases", "widest", "spread", "narrows", "saves: hand over", "saves: likeliest")


def render(rows: Sequence[EvidenceRow]) -> str:
    """One line a fault, in the order given, and a closing line with the mean savings."""
    if not rows:
        return "No published fault names causes.\n"
    lines = [_HEAD, *(_cells(row) for row in rows)]
    widths = [max(len(line[column]) for line in lines) for column in range(len(_HEAD))]
    text = "".join(_line(line, widths) for line in lines)
    over = sum(row.saving_hand_over for row in rows) / len(rows)
    likeliest = sum(row.saving_likeliest_first for row in rows) / len(rows)
    currency = rows[0].currency
    mean = f"{_money(over, currency)} beside handing over, {_money(likeliest, currency)} beside likeliest first"
    return f"{text}{len(rows)} faults. On average a plan saves {mean}.\n"


def _cells(row: EvidenceRow) -> tuple[str, ...]:
    known = row.known
    return (
        shown(row.fault),
        str(known.cases),
        *(f"{100 * each:.1f} %" for each in (known.widest, known.spread, known.narrowing)),
        *(_money(each, row.currency) for each in (row.saving_hand_over, row.saving_likeliest_first)),
    )


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    first, *rest = (
        cell.ljust(width) if column == 0 else cell.rjust(width)
        for column, (cell, width) in enumerate(zip(cells, widths, strict=True))
    )
    return "  ".join([first, *rest]) + "\n"


def _money(amount: float, currency: str) -> str:
    # A saving of less than half a hundredth is rounding.
    rounded = max(0.0, round(amount, 2))
    return show_money(Range(low=rounded, high=rounded), currency)
