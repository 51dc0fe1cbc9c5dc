"""Which file comes of a number: the same number and seed always give the same file."""

from __future__ import annotations

import functools
import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import yaml

from kbtools.rules import samples
from tests.fuzz import images, pages
from tests.support import mutations, yaml_files
from tests.support.hostile_texts import STRINGS
from tests.support.places import TESTS

SEED: Final = 20261125

_GOOD = TESTS / "examples" / "good"
PICTURE: Final = "pictures/yellow-plug.jpg"
"""An entry of the base names it."""
PAGE: Final = "pages/broken.md"
WHOLE: Final[Mapping[str, str]] = {
    **samples.FILES,
    "faults/charging/every-key.yml": (_GOOD / "every-key.fault.yml").read_text("utf-8"),
    "cases/2026/numbers-of-things.yml": (_GOOD / "numbers-of-things.case.yml").read_text("utf-8"),
    "words.yml": "- [tickover, idle]\n- [petrol, fuel, gasoline]\n- [loom, harness]\n",
    "accepted.yml": "- rule: KB610\n  path: cases/2026/wren-400-0001.yml\n  because: They are two days of one bike.\n",
}
"""A base with every kind of entry, and every key of a fault, before one file of it is broken."""

ENTRIES: Final = tuple(WHOLE)


def by_texts(content: str, choose: random.Random) -> bytes:
    """One value in quotes, and in it what means something to somebody: most such files are sound, and become pages."""
    data = yaml.load(content, Loader=yaml_files.SAFE)
    spots = [(parent, key) for parent, key in mutations.places_in(data) if isinstance(parent[key], str)]
    parent, key = choose.choice(spots)
    more = "".join(choose.choice((*pages.TOKENS, *STRINGS.values(), " ", "word")) for _ in range(choose.randint(1, 4)))
    parent[key] = choose.choice((more, f"{parent[key]} {more}", f"{more} {parent[key]}"))
    return mutations.written(data)


ENTRY_MUTATIONS: Final[Mapping[str, mutations.Mutation]] = {**mutations.MUTATIONS, "texts": by_texts}
KINDS: Final = (
    *(f"entries: {way}" for way in ENTRY_MUTATIONS),
    *(f"pages: {way}" for way in pages.MUTATIONS),
    *(f"pictures: {way}" for way in images.MUTATIONS),
)
"""What is broken, and how. Number N is of the kind N modulo their count, so that any run of numbers has them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """A file that is broken."""

    number: int
    """With the seed it tells everything else."""
    kind: str
    """One of `KINDS`."""
    path: str
    """Where it stands in the base."""
    data: bytes
    """What is in it."""


def mutant(number: int, seed: int = SEED) -> Mutant:
    """The file of a number."""
    kind = KINDS[number % len(KINDS)]
    choose = random.Random(f"{seed} {number}")
    what, way = kind.split(": ")
    path, data = _broken(what, way, choose)
    return Mutant(number=number, kind=kind, path=path, data=data)


def _broken(what: str, way: str, choose: random.Random) -> tuple[str, bytes]:
    if what == "entries":
        path = choose.choice(ENTRIES)
        return path, ENTRY_MUTATIONS[way](WHOLE[path], choose)
    if what == "pages":
        return PAGE, pages.MUTATIONS[way](choose.choice(pages.SEEDS), choose)
    form, data = choose.choice(images.seeds())
    suffix = images.SUFFIXES[form] if choose.randrange(10) else choose.choice([*images.SUFFIXES.values()])
    return f"pictures/broken{suffix}", images.MUTATIONS[way](form, data, choose)


@functools.cache
def whole(kind: str = "entries") -> Mapping[str, bytes]:
    """The base as it is before, by path; pages and pictures stand in a smaller one, where rules have less to do."""
    if not kind.startswith("entries"):
        return {path: content.encode() for path, content in samples.FILES.items()}
    good = next(data for form, data in images.seeds() if form == "JPEG")
    return {**{path: content.encode() for path, content in WHOLE.items()}, PICTURE: good}
