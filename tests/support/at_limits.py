"""Writes a knowledge base at its limits, to measure what the check takes: `python -m tests.support.at_limits FOLDER`.

Everything that has a limit of its own reaches it; how many faults and cases there are is said, since these are what
takes the time.
"""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from kbtools.reading.limits import MOST_ENTRY_BYTES, MOST_OF, MOST_SYSTEMS
from tests.support.synthetic import write_base

_LONG_NAME = 300
_LONG_TEXT = 10_000
"""As the schemas have them."""


def write_at_limits(folder: Path, *, faults: int, cases: int, models: int, pages: int, full: int, crammed: int) -> None:
    """Write the base.

    Args:
        folder: empty or not there.
        faults: entries as long as real ones are.
        cases: reports of these.
        models: how many more models, each of a hundred years.
        pages: hand-written pages, each as long as one may be.
        full: entries that say as much as the format takes.
        crammed: entries of more causes than a plan takes, and as many different words: an error each.
    """
    write_base(folder, faults=faults, cases=cases)
    _extend(folder / "systems.yml", _catalogue())
    _write(folder / "cautions.yml", {"cautions": [*_cautions(folder), *_rows(490, "caution", text="Take care.")]})
    _write(folder / "words.yml", [[f"word{(at * 7 + other) % 9_000}" for other in range(20)] for at in range(1_000)])
    accepted = {"rule": "KB610", "path": "club.yml", "because": "It is known."}
    _write(folder / "accepted.yml", [{**accepted, "at": f"/code_formats/{at}"} for at in range(1_000)])
    for at in range(models):
        _write(folder / "models" / f"spare-{at}.yml", _model(at))
    for at in range(pages):
        (folder / "pages" / f"page-{at}.md").write_text(_page(at), encoding="utf-8")
    (folder / "faults" / "spare").mkdir()
    for at in range(full):
        _write(folder / "faults" / "spare" / f"full-{at}.yml", _full_fault(at))
    for at in range(crammed):
        _write(folder / "faults" / "spare" / f"crammed-{at}.yml", _crammed_fault(at))


def _write(path: Path, data: Any) -> None:
    # JSON is YAML, and quick.
    path.write_text(json.dumps(data, ensure_ascii=False), encoding="utf-8")


def _extend(path: Path, blocks: dict[str, list[dict[str, Any]]]) -> None:
    """Add rows to the lists of a file."""
    text = path.read_text("utf-8")
    for key, rows in blocks.items():
        lines = "".join(f"  - {json.dumps(row)}\n" for row in rows)
        assert text.count(f"\n{key}:\n") + text.startswith(f"{key}:\n") == 1
        text = text.replace(f"{key}:\n", f"{key}:\n{lines}", 1)
    path.write_text(text, encoding="utf-8")


def _rows(count: int, name: str, **more: Any) -> Iterable[dict[str, Any]]:
    return ({"id": f"spare-{name}-{at}", **more} for at in range(count))


def _catalogue() -> dict[str, list[dict[str, Any]]]:
    systems = [{"id": f"spare-{at}", "name": f"Spare system {at}"} for at in range(MOST_SYSTEMS - 100)]
    return {
        "systems": [{"id": "spare", "name": "Spare", "children": systems}],
        "components": [
            {"id": f"spare-part-{at}", "name": f"Spare part {at}", "system": "spare"} for at in range(1_900)
        ],
        "access": [
            {
                "id": f"job-{at}",
                "name": f"Job {at}",
                "minutes": 1,
                "needs": [f"job-{other}" for other in range(max(0, at - 20), at)],
            }
            for at in range(280)
        ],
        "tools": [{"id": f"spare-tool-{at}", "name": f"Spare tool {at}"} for at in range(980)],
    }


def _cautions(folder: Path) -> Iterable[dict[str, Any]]:
    import yaml

    rows: list[dict[str, Any]] = yaml.safe_load((folder / "cautions.yml").read_text("utf-8"))["cautions"]
    return rows


def _model(at: int) -> dict[str, Any]:
    units = [{"id": f"unit-{at}-{each}", "name": f"Unit {each}", "years": "all"} for each in range(100)]
    return {"name": f"Spare {at}", "also_called": [f"S{at}-{each}" for each in range(50)], "years": "1926-2025"} | {
        "control_units": units
    }


def _page(at: int) -> str:
    paragraph = "A word, *another* one, `code` and [a link](index.md), and so on to the end. " * 10
    text = f"# Page {at}\n\n" + f"{paragraph}\n\n- an item\n- another item\n\n" * 200
    return text[: MOST_ENTRY_BYTES - 100]


def _full_fault(at: int) -> dict[str, Any]:
    """An entry with twelve causes and checks, and with as much to read as an entry may have."""
    ids = [f"cause-{each}" for each in range(12)]
    text = f"Words of entry {at}, again and again. " * 20
    fix = {"summary": text, "skill": "home", "labour_hours": [0.5, 1], "access": ["job-279"]}
    return {
        "title": f"Spare fault {at} of many".ljust(_LONG_NAME - 100, "x"),
        "system": "spare",
        "draft": True,
        "applies_to": [{"model": f"spare-{each}", "years": "all", "note": f"Row {each}."} for each in range(100)],
        "symptoms": [f"Symptom {each} of {at}" for each in range(100)],
        "causes": [{"id": each, "summary": f"Part {each} of {at}", "fix": fix} for each in ids],
        "checks": [
            {"id": f"check-{each}", "do": text, "expect": text, "points_to": ids, "minutes": 5, "skill": "home"}
            for each in range(12)
        ],
        "sources": [{"kind": "first-hand", "title": f"Source {each}"} for each in range(100)],
    }


def _crammed_fault(at: int) -> dict[str, Any]:
    """As many causes as its schema lets through, and symptoms of as many different words as they have room for."""
    symptoms = [" ".join(_made_up((at * 3 + row) * 40 + each) for each in range(_LONG_NAME // 6)) for row in range(100)]
    causes = [{"id": f"cause-{each}", "summary": " ".join(symptoms[each].split()[:12])} for each in range(100)]
    return {
        "title": symptoms[0][: _LONG_NAME - 100],
        "system": "spare",
        "draft": True,
        "applies_to": [{"model": f"spare-{each}", "years": "all"} for each in range(100)],
        "symptoms": symptoms,
        "causes": causes,
    }


def _made_up(number: int) -> str:
    return "".join("bdfgklmnprstvz"[number // 14**place % 14] + "aeiou"[place] for place in range(3))[:5]


def main() -> None:
    """Write a base; without options as large as one may be."""
    parser = argparse.ArgumentParser()
    parser.add_argument("folder", type=Path)
    parser.add_argument("--faults", type=int, default=10_000)
    parser.add_argument("--cases", type=int, default=40_000)
    parser.add_argument("--models", type=int, default=MOST_OF["model"][0] - 10)
    parser.add_argument("--pages", type=int, default=100)
    parser.add_argument("--full", type=int, default=200)
    parser.add_argument("--crammed", type=int, default=20)
    given = vars(parser.parse_args())
    write_at_limits(given.pop("folder"), **given)


if __name__ == "__main__":
    main()
