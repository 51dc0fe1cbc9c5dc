"""The best way to assign the members of one list to those of another."""

from __future__ import annotations

from collections.abc import Sequence


def best_total(gain: Sequence[Sequence[float]]) -> float:
    """The largest sum of gains when each row takes a column of its own, as far as there are columns.

    Args:
        gain: rows by columns, each at least 0; at least one of both.
    """
    if len(gain) > len(gain[0]):
        gain = list(zip(*gain, strict=True))
    first = [max(range(len(row)), key=row.__getitem__) for row in gain]
    if len(set(first)) == len(first):
        # Each row's best column is free: nothing can be better. Summed in order: turning the lists changes nothing.
        return sum(sorted(row[column] for row, column in zip(gain, first, strict=True)))
    columns = _assigned(gain)
    return sum(sorted(gain[row][column] for row, column in enumerate(columns)))


def _assigned(gain: Sequence[Sequence[float]]) -> list[int]:  # noqa: C901 (one algorithm, known in this form)
    """The Hungarian method with potentials: one shortest path a row. At most as many rows as columns."""
    rows, columns = len(gain), len(gain[0])
    of_row = [0.0] * (rows + 1)
    of_column = [0.0] * (columns + 1)
    taken = [0] * (columns + 1)
    for row in range(1, rows + 1):
        taken[0] = row
        here = 0
        reach = [float("inf")] * (columns + 1)
        before = [0] * (columns + 1)
        done = [False] * (columns + 1)
        while taken[here]:
            done[here] = True
            step, there = float("inf"), 0
            for column in range(1, columns + 1):
                if not done[column]:
                    rest = -gain[taken[here] - 1][column - 1] - of_row[taken[here]] - of_column[column]
                    if rest < reach[column]:
                        reach[column], before[column] = rest, here
                    if reach[column] < step:
                        step, there = reach[column], column
            for column in range(columns + 1):
                if done[column]:
                    of_row[taken[column]] += step
                    of_column[column] -= step
                else:
                    reach[column] -= step
            here = there
        while here:
            taken[here] = taken[before[here]]
            here = before[here]
    found = [0] * rows
    for column in range(1, columns + 1):
        if taken[column]:
            found[taken[column] - 1] = column - 1
    return found
