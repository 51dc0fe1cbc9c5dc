"""`python -m tests.rules.danger [set …]`: how many unsafe sentences are told, and how many safe ones by mistake."""

from __future__ import annotations

import sys
from collections import Counter

from tests.rules.danger import PLACES, Place, said, sentences

SETS = ("choose", "further", "kept")


def measured(name: str, place: Place) -> str:
    """A line for all sentences of a set in a place, and one for each kind with something missed or told by mistake."""
    all_of: Counter[tuple[str, bool]] = Counter()
    told: Counter[tuple[str, bool]] = Counter()
    for each in sentences(name):
        all_of[each.kind, each.unsafe] += 1
        told[each.kind, each.unsafe] += bool(said(each, place))
    kinds = sorted({kind for kind, _ in all_of})
    lines = [f"{name}, as {place}: {_share(told, all_of, kinds)}"]
    lines += [f"    {kind}: {_share(told, all_of, [kind])}" for kind in kinds]
    return "\n".join(lines)


def _share(told: Counter[tuple[str, bool]], all_of: Counter[tuple[str, bool]], kinds: list[str]) -> str:
    caught, false = (sum(told[kind, unsafe] for kind in kinds) for unsafe in (True, False))
    unsafe, safe = (sum(all_of[kind, unsafe] for kind in kinds) for unsafe in (True, False))
    return f"caught {caught} of {unsafe}, false {false} of {safe}"


if __name__ == "__main__":
    for name in sys.argv[1:] or SETS:
        for place in PLACES:
            print(measured(name, place))
