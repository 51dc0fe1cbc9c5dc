"""The build as a whole, beside MkDocs with hand-written pages, and how it grows."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from .by_hand import write_site
from .process import Run, python
from .table import Row, Sizes, base

MEASURED = 5000
"""From so many faults on the memory has a budget: of few, most is what the programs take by themselves."""


def build(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """The whole build beside MkDocs with hand-written pages of the same text."""
    for faults in sizes.builds:
        yield from _build(folder, faults, sizes.by_hand)


def whole(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """How a build grows, by the processor; it takes a quarter of an hour, and runs only if it is asked for by name."""
    small, large = sizes.growth
    low, high = (_alone(folder, faults) for faults in (small, large))
    yield Row(
        what=f"whole build, {small} → {large} faults",
        value=high.processor / low.processor,
        budget=1.1 * large / small,
        note=f"{low.processor:.1f} s → {high.processor:.1f} s, {low.megabytes:.0f} MB → {high.megabytes:.0f} MB",
    )


def _alone(folder: Path, faults: int) -> Run:
    site = folder / f"alone-{faults}"
    return python("-m", "kbtools", "build", "--kb", str(base(folder, faults)), "--site-dir", str(site))


def _build(folder: Path, faults: int, by_hand: int | None) -> Iterator[Row]:
    site = folder / f"site-{faults}"
    ours = python("-m", "kbtools", "build", "--kb", str(base(folder, faults)), "--site-dir", str(site))
    pages = sorted(site.rglob("index.html"))
    written = {path.stem for path in base(folder, faults).glob("faults/*/*.yml")}
    # Old ids have a page of one line each; a club that writes by hand would not have them.
    entries = [page for page in pages if page.parent.name in written and page.parent.parent.name == "faults"]
    theirs, count = _by_hand(folder / f"all-{faults}", site, pages[:by_hand])
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
        budget=1.5 if faults >= MEASURED else None,
        note=f"{ours.megabytes:.0f} MB beside {theirs.megabytes:.0f} MB",
    )


def _processor(ours: Run, theirs: Run) -> str:
    return f"of the processor alone {ours.processor / theirs.processor:.2f}"


def _by_hand(project: Path, site: Path, pages: list[Path]) -> tuple[Run, int]:
    count = write_site(project, site, pages)
    return python("-m", "mkdocs", "build", "-q", within=project), count
