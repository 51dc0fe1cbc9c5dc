"""What the vocabulary brings, on the sets that it may be chosen on: `python -m tests.vocabulary`.

Prints for each file and kind how many groups and phrases it has, how many of the phrases some text or query has, in how
many pairs of one story and in how many of others a group joins the two entries, and to how many queries it leads.
`--groups` prints each group so, those that bring least first. `--without` compares all labelled entries once whole and
once without each file, which takes minutes: recall and precision.
"""

from __future__ import annotations

import argparse
import dataclasses
from collections import Counter

from kbtools.edges.shipped import tables
from kbtools.model.vocabulary import Tables
from kbtools.similarity.pairs import similar
from tests.support import labelled_entries as labelled

from .brings import Brought, brought


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--groups", action="store_true", help="each group by itself")
    parser.add_argument("--without", action="store_true", help="the comparison without each file")
    chosen = parser.parse_args()
    groups, found = brought()
    by_file: dict[str, Counter[str]] = {}
    for group, each in zip(groups, found, strict=True):
        row = by_file.setdefault(f"{group.source} {group.kind}", Counter())
        row.update(groups=1, phrases=len(group.phrases), met=len(each.met))
        row.update(right=each.right, wrong=each.wrong, queries=each.queries)
    for name, row in by_file.items():
        print(f"{name:18}" + "".join(f"  {key} {row[key]:5}" for key in COLUMNS))
    if chosen.groups:
        rows = sorted(zip(groups, found, strict=True), key=lambda row: least(row[1]))
        for group, each in rows:
            told = f"right {each.right:3} wrong {each.wrong:3} queries {each.queries:2} met {len(each.met):2}"
            print(f"{told}  {group.source}: {', '.join(group.phrases)}"[:150])
    if chosen.without:
        print("whole", *quality(tables()))
        for name, _ in tables().files:
            print("without", name, *quality(without(name)))


COLUMNS = ("groups", "phrases", "met", "right", "wrong", "queries")


def least(each: Brought) -> tuple[int, int, int]:
    return each.right - each.wrong + each.queries, each.right + each.queries, len(each.met)


def without(name: str) -> Tables:
    return Tables(files=tuple(row for row in tables().files if row[0] != name))


def quality(known: Tables) -> tuple[str, str]:
    """Recall and precision over all parts to choose on, with these files."""
    right = flagged = same = 0
    for part in labelled.CHOSEN:
        chosen = labelled.faults(part)
        base = dataclasses.replace(chosen.base, tables=known)
        found = {frozenset({pair.a, pair.b}) for pair in similar(base, "fault")}
        right += len(found & chosen.same.keys())
        flagged += len(found)
        same += len(chosen.same)
    return f"recall {right / same:.4f}", f"precision {right / flagged:.4f}"


if __name__ == "__main__":
    main()
