"""Reading and checking, with and without a cache, growth, and likeness."""

from __future__ import annotations

import statistics
from collections.abc import Iterator
from pathlib import Path

from .table import Row, Sizes, base, interleaved, steps


def reading(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Reading and checking beside YAML and JSON Schema alone."""
    kb = base(folder, sizes.reading)
    ours, plain = interleaved(
        sizes.rounds,
        lambda: steps("check", kb),
        lambda: steps("plain", kb),
    )
    told = f"{sizes.reading} faults: {{:.2f}} s beside {plain['plain']:.2f} s"
    whole = ours["reading"] + ours["lint"]
    yield Row(
        what="reading ÷ CSafeLoader with jsonschema alone",
        value=ours["reading"] / plain["plain"],
        budget=2.5,
        note=told.format(ours["reading"]),
    )
    yield Row(
        what="check (reading and rules) ÷ the same", value=whole / plain["plain"], budget=2.5, note=told.format(whole)
    )


def cache(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """What checking again costs."""
    for faults in dict.fromkeys((sizes.reading, max(sizes.builds))):
        rounds = sizes.rounds if faults < 5000 else 1
        kb = base(folder, faults)
        (seconds,) = interleaved(rounds, lambda kb=kb: steps("cached", kb))  # type: ignore[misc]
        # What does not grow with the base counts for most in a small one: the budget is of the large one.
        once = 0.2 if faults == max(sizes.builds) else None
        for step, budget in (("unchanged", 0.2), ("one changed", once), ("filling", None)):
            note = f"{seconds[step]:.2f} s beside {seconds['cold']:.2f} s"
            what = f"check of {faults} faults, {step} ÷ cold"
            yield Row(what=what, value=seconds[step] / seconds["cold"], budget=budget, note=note)


def growth(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Each step at two sizes.

    The large one takes minutes, in which a machine gets quicker or slower: the small one is measured before and after.
    """
    small, large = sizes.growth
    before = steps("everything", base(folder, small))
    high = steps("everything", base(folder, large))
    after = steps("everything", base(folder, small))
    low = {step: statistics.mean([seconds, after[step]]) for step, seconds in before.items()}
    times = large / small
    for step, seconds in high.items():
        note = f"{low[step]:.3f} s → {seconds:.3f} s"
        what = f"{step}, {small} → {large} faults"
        yield Row(what=what, value=seconds / low[step], budget=1.1 * times, note=note)


def alike(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Finding near-duplicates beside comparing every fault with every other, and how it grows."""
    small, large = sizes.growth
    low, high = steps("similar", base(folder, small)), steps("similar", base(folder, large))
    every = steps("every", base(folder, sizes.every))
    pairs = large * (large - 1) / (sizes.every * (sizes.every - 1))
    yield Row(
        what=f"similar over {large} faults ÷ all pairs of {sizes.every}, scaled",
        value=high["faults"] / (every["every pair"] * pairs),
        budget=0.05,
        note=f"{high['faults']:.1f} s beside {every['every pair'] * pairs:.0f} s",
    )
    for kind in ("faults", "cases"):
        yield Row(
            what=f"similar {kind}, {small} → {large} faults",
            value=high[kind] / low[kind],
            budget=1.1 * large / small,
            note=f"{low[kind]:.2f} s → {high[kind]:.2f} s",
        )
