"""Breaks files by the thousand and tells what came of it: `python -m tests.fuzz --files 20000 [--seed N]`.

Each file is tried in a child process with limits on memory and time. `--first N` begins at a later file, so that a
long run can be had in pieces; `--again N` shows one file and what came of it. Exit 1: something did not hold.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator, Sequence

from tests.fuzz.mutants import KINDS, SEED, mutant
from tests.fuzz.trial import SLOW, Outcome, tried, warm
from tests.support.limited import limited

BATCH = 50
"""Files a child tries; if it ends before its time, each of them is tried in a child of its own."""
SHOWN = 10
"""Files that did not hold, of which more is told."""


def run(numbers: Sequence[int], seed: int = SEED) -> Iterator[Outcome]:
    """Try the files of these numbers."""
    warm()
    for start in range(0, len(numbers), BATCH):
        yield from _batch(numbers[start : start + BATCH], seed)


def _batch(numbers: Sequence[int], seed: int) -> list[Outcome]:
    def work() -> list[Outcome]:
        return [tried(mutant(each, seed)) for each in numbers]

    try:
        return limited(work, seconds=int(SLOW) * (1 + len(numbers) // 5), megabytes=1_000)
    except AssertionError as error:
        if len(numbers) == 1:
            kind = mutant(numbers[0], seed).kind
            return [Outcome(number=numbers[0], kind=kind, broke=str(error))]
        return [outcome for each in numbers for outcome in _batch([each], seed)]


def table(outcomes: Iterable[Outcome]) -> str:
    """One line a kind, and one for all."""
    rows = list(outcomes)
    head = ("kind", "files", "flawed", "read", "used", "traceback", "acts", f"over {SLOW:g} s", "outside", "slowest")
    lines = [head, *(_line(kind, [each for each in rows if each.kind == kind]) for kind in KINDS), _line("all", rows)]
    widths = [max(len(line[column]) for line in lines) for column in range(len(head))]
    return "".join(
        "  ".join(
            cell.ljust(width) if not at else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(line, widths, strict=True))
        )
        + "\n"
        for line in lines
    )


def _line(name: str, rows: Sequence[Outcome]) -> tuple[str, ...]:
    counts = (
        len(rows),
        sum(each.flawed for each in rows),
        sum(each.read for each in rows),
        sum(each.used for each in rows),
        sum(bool(each.broke) for each in rows),
        sum(bool(each.acts) for each in rows),
        sum(each.seconds > SLOW for each in rows),
        sum(bool(each.outside) for each in rows),
    )
    slowest = max(rows, key=lambda each: each.seconds, default=None)
    return (name, *map(str, counts), "" if slowest is None else f"{slowest.seconds:.2f} s: {slowest.number}")


def main() -> int:
    """Try files, and print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("--files", type=int, default=20_000)
    parser.add_argument("--first", type=int, default=0, help="Number of the first file.")
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--again", type=int, metavar="NUMBER", help="Show one file and what comes of it.")
    given = parser.parse_args()
    numbers = range(given.first, given.first + given.files)
    if given.again is not None:
        numbers = range(given.again, given.again + 1)
        broken = mutant(given.again, given.seed)
        print(f"{broken.kind}: {broken.path}\n{broken.data!r}")
    outcomes = list(run(numbers, given.seed))
    print(f"Files {numbers[0]} to {numbers[-1]} of seed {given.seed}; slowest: seconds of the processor and number")
    print(table(outcomes))
    failed = [each for each in outcomes if not each.holds]
    for each in failed[:SHOWN]:
        print(f"{each.number} ({each.kind}): {each.broke or each.acts or each.outside or f'{each.seconds:.1f} s'}")
    if len(failed) > SHOWN:
        print(f"… and {len(failed) - SHOWN} more")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
