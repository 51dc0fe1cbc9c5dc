"""What a built site weighs: by kind, its heaviest pages, what grew, and whether it keeps to the club's budget."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Any, Final

from kbtools.model.catalogue import SiteBudget
from kbtools.text.terminal import shown

MOST: Final = 10
"""Pages that are listed."""
_KB, _MB = 1_000, 1_000_000
"""Bytes (ISO 80000-13: k and M are powers of ten)."""
_ENDINGS: Final = {
    ".html": "HTML",
    ".js": "scripts",
    ".css": "styles",
    **dict.fromkeys((".png", ".jpg", ".jpeg", ".webp", ".gif", ".svg", ".ico"), "pictures"),
}
KINDS: Final = ("HTML", "scripts", "styles", "data", "pictures", "API", "feeds")
"""In the order of the report."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """What a site weighed."""

    kinds: Mapping[str, tuple[int, int]]
    """Kind → how many files, and their bytes."""
    pages: Mapping[str, int]
    """Address of each page → bytes of its HTML."""

    @property
    def total(self) -> int:
        """Bytes of all files."""
        return sum(size for _, size in self.kinds.values())

    @property
    def heaviest(self) -> list[str]:
        """The heaviest pages, the heaviest first."""
        return sorted(self.pages, key=lambda page: (-self.pages[page], page))[:MOST]


def sizes_of(files: Mapping[str, int]) -> Sizes:
    """Add up a site.

    Args:
        files: path from the site's root → bytes.
    """
    kinds = dict.fromkeys(KINDS, (0, 0))
    for path, size in files.items():
        count, so_far = kinds[_kind(path)]
        kinds[_kind(path)] = (count + 1, so_far + size)
    pages = {path.removesuffix("index.html"): size for path, size in files.items() if path.endswith(".html")}
    return Sizes(kinds=kinds, pages=pages)


def over_budget(sizes: Sizes, budget: SiteBudget | None) -> list[str]:
    """What goes beyond the budget, a sentence each; pages the heaviest first."""
    if budget is None:
        return []
    said = []
    if budget.page_kb is not None:
        held = {page: size for page, size in sizes.pages.items() if not _is_handbook(page)}
        heavy = sorted((page for page in held if held[page] > budget.page_kb * _KB), key=lambda page: -held[page])[
            :MOST
        ]
        said += [
            f"/{shown(page)} has {_kb(sizes.pages[page])}; a page may have {budget.page_kb:g} kB." for page in heavy
        ]
    if budget.total_mb is not None and sizes.total > budget.total_mb * _MB:
        said.append(f"All files have {_mb(sizes.total)}; the site may have {budget.total_mb:g} MB.")
    return said


def _is_handbook(page: str) -> bool:
    """Whether a page is a book for paper: it says its weight where one comes from, and nobody opens it by the road."""
    parts = page.split("/")
    return parts[0] == "models" and "handbook" in parts[2:]


def render(sizes: Sizes, packed: Mapping[str, int], before: Sizes | None) -> str:
    """The report.

    Args:
        sizes: of the site as it was built.
        packed: heaviest pages → bytes by gzip, as most hosts send them.
        before: what the site weighed when that was reported last; None: not known.
    """
    return "".join(f"{line}\n" for line in _lines(sizes, packed, before))


def _lines(sizes: Sizes, packed: Mapping[str, int], before: Sizes | None) -> Iterator[str]:
    grown = _grown(sizes.total, None if before is None else before.total)
    yield f"{len(sizes.pages)} pages, {_mb(sizes.total)} in all{grown}."
    yield ""
    for kind in KINDS:
        count, size = sizes.kinds.get(kind, (0, 0))
        was = None if before is None else before.kinds.get(kind, (0, 0))[1]
        yield f"{kind:<9}{count:>7} files {_kb(size):>12}{_grown(size, was)}"
    yield ""
    yield "The heaviest pages, and what they have packed by gzip:"
    for page in sizes.heaviest:
        was = None if before is None else before.pages.get(page, sizes.pages[page])
        row = f"{_kb(sizes.pages[page]):>12}{_kb(packed[page]) if page in packed else '':>12}  /{shown(page)}"
        yield f"{row}{_grown(sizes.pages[page], was)}"
    if before is not None:
        yield ""
        yield from _changed(sizes.pages, before.pages)


def _changed(now: Mapping[str, int], before: Mapping[str, int]) -> Iterator[str]:
    new, gone = len(now.keys() - before.keys()), len(before.keys() - now.keys())
    grown = sorted((page for page in now.keys() & before.keys() if now[page] > before[page]), key=_by(now, before))
    most = ", most of all these:" if grown else "."
    yield f"Since the last report: {new} pages are new, {gone} are gone, {len(grown)} grew{most}"
    for page in grown[:MOST]:
        yield f"{'+' + _kb(now[page] - before[page]):>12}  /{shown(page)}"


def _by(now: Mapping[str, int], before: Mapping[str, int]) -> Any:
    return lambda page: (before[page] - now[page], page)


def _kind(path: str) -> str:
    pure = PurePosixPath(path)
    if pure.parts[0] in {"api", "schemas"}:
        return "API"
    if pure.name == "news.xml":
        return "feeds"
    return _ENDINGS.get(pure.suffix, "data")


def _grown(now: int, was: int | None) -> str:
    if was is None or was == now:
        return ""
    return f" ({'+' if now > was else '-'}{_kb(abs(now - was))})"


def _kb(size: int) -> str:
    return f"{size / _KB:.1f} kB"


def _mb(size: int) -> str:
    return f"{size / _MB:.1f} MB"


# --- kept from one report to the next


def as_text(sizes: Sizes) -> str:
    """The figures as JSON."""
    return json.dumps({"kinds": sizes.kinds, "pages": sizes.pages}, ensure_ascii=False, indent=0) + "\n"


def from_text(text: str) -> Sizes | None:
    """The figures of an earlier report; None where they cannot be read."""
    try:
        row = json.loads(text)
        kinds = {str(kind): (int(count), int(size)) for kind, (count, size) in row["kinds"].items()}
        return Sizes(kinds=kinds, pages={str(page): int(size) for page, size in row["pages"].items()})
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None


def sized(pages: Sequence[str]) -> list[str]:
    """The files of pages, from the site's root."""
    return [f"{page}index.html" if page == "" or page.endswith("/") else page for page in pages]
