"""What an edit of one entry costs: of a build after it, and of `kbtools serve` until the new page can be had."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from .process import python
from .table import QUICK, Row, Sizes, base, steps


def edited(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """A build after an edit beside the first one, which had no cache and no site to go by; by the processor alone."""
    for faults in sizes.edited:
        # As of a check: what does not grow with the base counts for most in a small one.
        budget = 0.2 if faults == max(sizes.edited) else None
        yield from _edited(folder, faults, budget, unchanged_too=sizes != QUICK)


def served(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """From saving an entry to its new page, beside the server's first build."""
    seconds = steps("served", base(folder, sizes.served))
    yield Row(
        what="serve, from saving to the page ÷ its first build",
        value=seconds["saved to shown"] / seconds["first build"],
        budget=0.2,
        note=f"{sizes.served} faults: {seconds['saved to shown']:.2f} s beside {seconds['first build']:.2f} s",
    )


def _edited(folder: Path, faults: int, budget: float | None, *, unchanged_too: bool) -> Iterator[Row]:
    kb, site, cache = base(folder, faults), folder / f"edited-{faults}", folder / f"cache-{faults}"
    command = ("-m", "kbtools", "build", "--kb", str(kb), "--site-dir", str(site))
    cold = python(*command, cache=cache)

    def row(what: str, most: float | None) -> Row:
        run = python(*command, cache=cache)
        clock = f"by the clock {run.seconds / cold.seconds:.2f}: {run.seconds:.1f} s beside {cold.seconds:.1f} s"
        note = f"{run.processor:.1f} s of the processor beside {cold.processor:.1f} s; {clock}"
        value = run.processor / cold.processor
        return Row(what=f"build of {faults} faults, {what} ÷ cold", value=value, budget=most, note=note)

    if unchanged_too:
        yield row("nothing edited", None)
    with one_entry_edited(kb):
        yield row("one entry edited", budget)


NEW = "Since this morning, "
"""How the reason of an edited entry begins."""


@contextmanager
def one_entry_edited(kb: Path) -> Iterator[Path]:
    """Give the first entry another reason for its advice, while this lasts; the base is others' as well."""
    entry = next(each for each in sorted(kb.glob("faults/*/*.yml")) if _is_published(each.read_text("utf-8")))
    before = entry.read_bytes()
    start, why, rest = before.partition(b"  why: ")
    if not why:
        raise SystemExit(f"{entry} has no reason to be edited.")
    entry.write_bytes(start + why + NEW.encode() + rest)
    try:
        yield entry
    finally:
        entry.write_bytes(before)


def _is_published(entry: str) -> bool:
    return "\ndraft: " not in entry and "\nwithdrawn:" not in entry
