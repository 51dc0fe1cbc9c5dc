"""One command that prints a table of ratios: `python -m tests.benchmarks [--quick] [--only PART]`."""

from __future__ import annotations

import argparse
import json
import statistics
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.support.synthetic import write_base

from .by_hand import write_site
from .process import Run, python

CASES_PER_FAULT = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Numbers of faults."""

    reading: int
    growth: tuple[int, int]
    builds: tuple[int, ...]
    every: int
    """Of which every pair is compared."""
    rounds: int
    """Interleaved runs, of which the median counts; a build is done once."""


FULL = Sizes(reading=1000, growth=(1000, 10000), builds=(1000, 5000), every=2000, rounds=3)
# So small that the figures say nothing: it shows that every part still runs.
QUICK = Sizes(reading=4, growth=(4, 8), builds=(4,), every=4, rounds=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table."""

    what: str
    value: float
    budget: float | None = None
    """At most so much; None: only told."""
    note: str = ""

    def text(self) -> str:
        budget = "" if self.budget is None else f"≤ {self.budget:g}"
        verdict = "" if self.budget is None else "ok" if self.value <= self.budget else "OVER"
        return f"{self.what:<58} {self.value:>8.2f}  {budget:<7} {verdict:<5} {self.note}".rstrip()


def main() -> None:
    parts: dict[str, Callable[[Path, Sizes], Iterator[Row]]] = {
        "reading": reading,
        "cache": cache,
        "growth": growth,
        "similar": alike,
        "build": build,
        "plan": plan,
        "joint": joint,
    }
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="tiny sizes: whether everything runs")
    parser.add_argument("--only", choices=parts, help="one part of the table")
    chosen = parser.parse_args()
    sizes = QUICK if chosen.quick else FULL
    if chosen.quick:
        print("Sizes too small for the figures to say anything; every part ran if the plan's are there.")
    print(f"{'ratio':<58} {'measured':>8}  {'budget':<7}")
    with tempfile.TemporaryDirectory(prefix="kbtools-benchmark-") as folder:
        for name, part in parts.items():
            if chosen.only in {None, name}:
                for row in part(Path(folder), sizes):
                    print(row.text(), flush=True)


def reading(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Reading and checking beside YAML and JSON Schema alone."""
    base = _base(folder, sizes.reading)
    ours, plain = _interleaved(
        sizes.rounds,
        lambda: _steps("check", base),
        lambda: _steps("plain", base),
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
        base = _base(folder, faults)
        (seconds,) = _interleaved(rounds, lambda base=base: _steps("cached", base))  # type: ignore[misc]
        # What does not grow with the base counts for most in a small one: the budget is of the large one.
        once = 0.2 if faults == max(sizes.builds) else None
        for step, budget in (("unchanged", 0.2), ("one changed", once), ("filling", None)):
            note = f"{seconds[step]:.2f} s beside {seconds['cold']:.2f} s"
            what = f"check of {faults} faults, {step} ÷ cold"
            yield Row(what=what, value=seconds[step] / seconds["cold"], budget=budget, note=note)


def growth(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Each step at two sizes."""
    small, large = sizes.growth
    low, high = _interleaved(
        sizes.rounds if large < 5000 else 1,
        lambda: _steps("everything", _base(folder, small)),
        lambda: _steps("everything", _base(folder, large)),
    )
    times = large / small
    for step, seconds in high.items():
        note = f"{low[step]:.3f} s → {seconds:.3f} s"
        what = f"{step}, {small} → {large} faults"
        yield Row(what=what, value=seconds / low[step], budget=1.1 * times, note=note)


def alike(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Finding near-duplicates beside comparing every fault with every other, and how it grows."""
    small, large = sizes.growth
    low, high = _steps("similar", _base(folder, small)), _steps("similar", _base(folder, large))
    every = _steps("every", _base(folder, sizes.every))
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


def build(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """The whole build beside MkDocs with hand-written pages of the same text."""
    for faults in sizes.builds:
        yield from _build(folder, faults)


def plan(_folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Plans, in seconds and not as a ratio: a page that replans has to keep up with a hand."""
    quick = ["--quick"] if sizes == QUICK else []
    seconds: dict[str, float] = json.loads(python("-m", "tests.benchmarks.plans", *quick).output)
    budgets = {"plan: 1,000 of 5 causes": 0.2, "plan of 12 causes, median": 0.05}
    for what, value in seconds.items():
        yield Row(what=f"{what} (s)", value=value, budget=budgets.get(what))


def joint(_folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Plans for several faults, in seconds; and how far those that are not searched whole may be from the best."""
    quick = ["--quick"] if sizes == QUICK else []
    seconds: dict[str, float] = json.loads(python("-m", "tests.benchmarks.joint_plans", *quick).output)
    budgets = {"joint plan of 3 × 5, median": 0.1, "joint plan of 3 × 5, worst": 1.0}
    for what, value in seconds.items():
        yield Row(what=what, value=value, budget=budgets.get(what))


def _build(folder: Path, faults: int) -> Iterator[Row]:
    site = folder / f"site-{faults}"
    ours = python("-m", "kbtools", "build", "--kb", str(_base(folder, faults)), "--site-dir", str(site))
    pages = sorted(site.rglob("index.html"))
    written = {path.stem for path in _base(folder, faults).glob("faults/*/*.yml")}
    # Old ids have a page of one line each; a club that writes by hand would not have them.
    entries = [page for page in pages if page.parent.name in written and page.parent.parent.name == "faults"]
    theirs, count = _by_hand(folder / f"all-{faults}", site, pages)
    entries_only, _ = _by_hand(folder / f"entries-{faults}", site, entries)
    name = f"build of {faults} faults"
    mine, other = 1000 * ours.seconds / len(pages), 1000 * theirs.seconds / count
    yield Row(
        what=f"{name}, per page ÷ Material per page",
        value=mine / other,
        budget=1.0,
        note=f"{mine:.1f} ms × {len(pages)} beside {other:.1f} ms × {count}; {_processor(ours, theirs)}",
    )
    yield Row(
        what=f"{name}, whole ÷ Material's {len(entries)} entries",
        value=ours.seconds / entries_only.seconds,
        budget=2.5,
        note=f"{ours.seconds:.1f} s beside {entries_only.seconds:.1f} s; {_processor(ours, entries_only)}",
    )
    yield Row(
        what=f"{name}, peak memory ÷ Material's",
        value=ours.megabytes / theirs.megabytes,
        note=f"{ours.megabytes:.0f} MB beside {theirs.megabytes:.0f} MB",
    )


def _processor(ours: Run, theirs: Run) -> str:
    return f"of the processor alone {ours.processor / theirs.processor:.2f}"


def _by_hand(project: Path, site: Path, pages: list[Path]) -> tuple[Run, int]:
    count = write_site(project, site, pages)
    return python("-m", "mkdocs", "build", "-q", within=project), count


def _base(folder: Path, faults: int) -> Path:
    base = folder / f"kb-{faults}" / "kb"
    if not base.exists():
        write_base(base, faults=faults, cases=CASES_PER_FAULT * faults)
    return base


def _steps(kind: str, base: Path) -> dict[str, float]:
    seconds: dict[str, float] = json.loads(python("-m", "tests.benchmarks.steps", kind, str(base)).output)
    return seconds


def _interleaved(rounds: int, *works: Callable[[], dict[str, float]]) -> list[dict[str, float]]:
    """Run the works in turn, so that a busy moment of the machine hits them alike; medians by step."""
    runs: list[list[dict[str, float]]] = [[] for _ in works]
    for _ in range(rounds):
        for place, work in enumerate(works):
            runs[place].append(work())
    return [{step: statistics.median(run[step] for run in each) for step in each[0]} for each in runs]


if __name__ == "__main__":
    main()
