"""The steps that are timed, one process each: `python -m tests.benchmarks.steps KIND FOLDER` prints seconds as JSON.

The seconds are those of the processor, so that others on the machine count for little.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import json
import os
import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar
from unittest import mock

import yaml
from jsonschema import Draft202012Validator, FormatChecker
from referencing import Registry, Resource

from kbtools.edges.garbage import held_back
from kbtools.model.base import KnowledgeBase
from tests.support.places import ROOT

T = TypeVar("T")

TODAY = dt.date(2026, 6, 1)
SCHEMAS = ROOT / "schemas"
SINGLE = ("club", "systems", "cautions", "words")
FOLDERS = {"models": "model", "faults": "fault", "cases": "case"}


class _Timer:
    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}

    def __call__(self, name: str, work: Callable[[], T]) -> T:
        started = _busy()
        result = work()
        self.seconds[name] = self.seconds.get(name, 0.0) + _busy() - started
        return result


def _busy() -> float:
    """Of this process and of those that it has begun and waited for."""
    begun = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + begun.ru_utime + begun.ru_stime


class _PlainLoader(yaml.CSafeLoader):
    """Leaves dates and the key `on` as the text that the schemas ask for; there is nothing else between the two."""


def _only_as_the_schemas_have_them() -> None:
    resolvers = {
        first: [(tag, pattern) for tag, pattern in rows if tag.rsplit(":", 1)[-1] not in {"timestamp", "bool"}]
        for first, rows in yaml.CSafeLoader.yaml_implicit_resolvers.items()
    }
    _PlainLoader.yaml_implicit_resolvers = resolvers
    import re

    _PlainLoader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(?:true|false)$"), list("tf"))


def _validators() -> dict[str, Draft202012Validator]:
    contents = {path.name: json.loads(path.read_text("utf-8")) for path in sorted(SCHEMAS.glob("*.json"))}
    registry: Registry[Any] = Registry().with_resources(
        (name, Resource.from_contents(content)) for name, content in contents.items()
    )
    dates = FormatChecker(["date"])
    return {
        name.removesuffix(".schema.json"): Draft202012Validator(content, registry=registry, format_checker=dates)
        for name, content in contents.items()
    }


def _plain(folder: Path) -> int:
    """YAML and JSON Schema as everybody would do it first: no places, no findings in words, no types."""
    validators = _validators()
    found = 0
    for path in sorted(folder.rglob("*.yml")):
        data = yaml.load(path.read_bytes(), Loader=_PlainLoader)
        kind = FOLDERS.get(path.relative_to(folder).parts[0], path.stem)
        found += sum(1 for _ in validators[kind].iter_errors(data))
    return found


def plain(folder: Path, timed: _Timer) -> None:
    """The yardstick of reading."""
    _only_as_the_schemas_have_them()
    found = timed("plain", lambda: _plain(folder))
    if found:
        raise SystemExit(f"The yardstick finds {found} mistakes in a sound base: it does not measure the same work.")


def check(folder: Path, timed: _Timer) -> None:
    """What `kbtools check` does, in its two halves."""
    from kbtools.diagnostics import has_errors
    from kbtools.edges.folder import load
    from kbtools.edges.rulebook import rulebook
    from kbtools.linting.run import lint

    reading = timed("reading", lambda: load(folder))
    findings = timed("lint", lambda: lint(reading, rulebook(), TODAY))
    if has_errors(findings):
        raise SystemExit("The synthetic base has errors.")


def cached(folder: Path, timed: _Timer) -> None:
    """`kbtools check` without a cache, filling one, with nothing changed, and with one file changed."""
    import tempfile

    from kbtools.edges.checking import findings_in

    with tempfile.TemporaryDirectory() as place:
        kept = Path(place)
        cold = timed("cold", lambda: findings_in(folder, TODAY))
        timed("filling", lambda: findings_in(folder, TODAY, kept))
        if timed("unchanged", lambda: findings_in(folder, TODAY, kept)) != cold:
            raise SystemExit("The cache gives other findings.")
        changed = min(folder.glob("faults/*/*.yml"))
        text = changed.read_bytes()
        # A word more, so that what the others' words count for changes too.
        changed.write_bytes(text.replace(b"summary: ", b"summary: Sometimes ", 1))
        try:
            after = timed("one changed", lambda: findings_in(folder, TODAY, kept))
            if after != findings_in(folder, TODAY):
                raise SystemExit("After an edit the cache gives other findings.")
        finally:
            changed.write_bytes(text)


def everything(folder: Path, timed: _Timer) -> None:
    """Every step from files to pages, without MkDocs."""
    from kbtools.browser_data.finder import finder_files
    from kbtools.edges.folder import load
    from kbtools.edges.rulebook import rulebook
    from kbtools.index.build import build_index
    from kbtools.linting.run import lint
    from kbtools.replay import replay

    reading = timed("reading", lambda: load(folder))
    timed("lint", lambda: lint(reading, rulebook(), TODAY))
    timed("replay", lambda: replay(build_index(reading.base, TODAY)))
    timed("finder data", lambda: finder_files(reading.base, TODAY.year, ()))
    _pages(reading.base, timed)


def _pages(base: KnowledgeBase, timed: _Timer) -> None:
    """Each page made and rendered and let go before the next, as a build does it."""
    from kbtools.edges.rendering import Renderer
    from kbtools.index.build import build_index
    from kbtools.pages.spec import PageSpec
    from tests.support.all_pages import catalogue_of
    from tests.support.factories import rendered

    # The index by itself is done in a moment, and its figure is mostly about how much the processor's cache holds.
    catalogue = timed("index and pages", lambda: catalogue_of(build_index(base, TODAY), TODAY))
    renderer = Renderer([*(page.address for page in catalogue.pages), "safety/", "contribute/"])
    for each in catalogue.in_order():
        made = timed("index and pages", each.make)
        if isinstance(made, PageSpec):
            timed("rendering", lambda spec=made: rendered(spec, renderer))  # type: ignore[misc]


def similar(folder: Path, timed: _Timer) -> None:
    """`kbtools similar` once the base is read."""
    from kbtools.edges.folder import load
    from kbtools.similarity.pairs import similar as find

    base = load(folder).base
    timed("faults", lambda: find(base, "fault"))
    timed("cases", lambda: find(base, "case"))


def every(folder: Path, timed: _Timer) -> None:
    """The same comparison of every fault with every other."""
    from kbtools.edges.folder import load
    from kbtools.similarity.comparison import comparable
    from kbtools.similarity.faults import THRESHOLD, matcher
    from kbtools.similarity.features import Readier

    base = load(folder).base
    faults = comparable(base)
    readier = Readier(base, faults)
    ready = [readier.ready(fault) for fault in faults]
    score = matcher(readier.lexicon).score
    timed(
        "every pair",
        lambda: sum(score(one, other, THRESHOLD) > 0 for at, one in enumerate(ready) for other in ready[:at]),
    )


def served(folder: Path, timed: _Timer) -> None:
    """`kbtools serve`: its first build, and from saving an entry to the new page."""
    import tempfile
    import threading

    from kbtools.site.live import LiveSite
    from kbtools.site.serving import rebuild
    from tests.benchmarks.edited import NEW, one_entry_edited

    with tempfile.TemporaryDirectory() as place, mock.patch.dict(os.environ, {"KBTOOLS_CACHE": f"{place}/cache"}):
        root = Path(place) / "site"
        server = LiveSite("127.0.0.1", 0, root, "/", lambda: rebuild(folder, root))
        server.watch(folder)
        address = server.bind()
        serving = threading.Thread(target=server.serve)
        try:
            serving.start()
            timed("first build", lambda: _shows(address, "</html>"))
            with one_entry_edited(folder) as entry:
                page = f"{address}faults/{entry.stem}/"
                timed("saved to shown", lambda: _shows(page, NEW))
        finally:
            server.shutdown(wait=True)
            serving.join()


def _shows(address: str, text: str) -> bool:
    """True once the page has this text. Whoever waits asks seldom, and costs little."""
    import urllib.error
    import urllib.request

    while True:
        with contextlib.suppress(urllib.error.HTTPError), urllib.request.urlopen(address) as answer:
            if text in answer.read().decode():
                return True
        time.sleep(0.5)


KINDS: dict[str, Callable[[Path, _Timer], None]] = {
    "plain": plain,
    "check": check,
    "cached": cached,
    "everything": everything,
    "similar": similar,
    "every": every,
    "served": served,
}


def timed(kind: str, folder: Path) -> dict[str, float]:
    """Seconds of the processor by step, in this process."""
    timer = _Timer()
    # As the commands do it, and for the yardsticks too.
    with held_back():
        KINDS[kind](folder, timer)
    return timer.seconds


def main() -> None:
    kind, folder = sys.argv[1:]
    print(json.dumps(timed(kind, Path(folder))))


if __name__ == "__main__":
    main()
