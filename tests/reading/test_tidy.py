"""The canonical form: whatever way a file is written, one text comes of it, with its meaning and its comments."""

from __future__ import annotations

import functools
import random
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbtools.edges.folder import source_file
from kbtools.edges.shipped import shapes
from kbtools.reading.layout import place_of
from kbtools.reading.shape import to_data
from kbtools.reading.source import SourceFile
from kbtools.reading.tidy import UntidyError, tidied
from kbtools.reading.tree import parse
from tests.support.generated_faults import ODD_TEXTS
from tests.support.places import DEMO, TESTS
from tests.support.scrambled import Scrambled
from tests.support.yaml_files import core_load

SHAPES = shapes()
FAULT = "faults/charging/x.yml"
BASES = (
    "club.yml",
    "cases/2026/bittern-900-0055.yml",
    "cases/2026/curlew-1100-0135.yml",
    "cases/2026/bittern-900-0048.yml",
    "cases/2026/dunlin-650-0004.yml",
    "models/curlew-1100.yml",
)
EXAMPLES = ("every-key.fault.yml", "every-key.checks.yml", "plain-scalars-are-text.fault.yml", "open.case.yml")


def tidy(text: str, path: str = FAULT) -> str:
    return tidied(SourceFile(path=path, data=text.encode()), SHAPES).decode()


def meaning(text: str, path: str = FAULT) -> Any:
    """What the reader of the programs makes of a text."""
    root, findings = parse(path, text)
    assert root is not None
    assert findings == []
    kind = place_of(path).kind
    assert kind is not None
    return to_data(root, SHAPES[kind].hints, (), [])


@functools.cache
def contents() -> tuple[tuple[str, str], ...]:
    """Paths with texts: of the demo and of the examples, which have every key."""
    found = [(path, (source_file(DEMO, path).data or b"").decode()) for path in BASES]
    for name in EXAMPLES:
        stem, kind, _ = name.split(".")
        path = {"fault": f"faults/charging/{stem}.yml", "case": f"cases/2026/{stem}.yml"}.get(kind, f"{kind}.yml")
        found.append((path, (TESTS / "examples/good" / name).read_text("utf-8")))
    return tuple(found)


def content(number: int, chance: random.Random) -> tuple[str, Any]:
    path, text = contents()[number % len(contents())]
    data = meaning(text, path)
    if path.startswith("faults/"):
        odd = [text for text in ODD_TEXTS if text.strip()]
        data["title"] = chance.choice(odd)
        data["symptoms"] = [chance.choice(odd) for _ in range(3)]
    return path, data


LATER = [pytest.param(start, marks=pytest.mark.thorough) for start in range(100, 500, 100)]


@pytest.mark.parametrize("start", [0, *LATER])
def test_scrambled_files_become_one_text(start: int) -> None:
    for number in range(start, start + 100):
        chance = random.Random(number)
        path, data = content(number, chance)
        scrambled = Scrambled(chance=chance)
        text = scrambled.document(data)
        assert meaning(text, path) == data, "the scrambler itself"
        done = tidy(text, path)
        assert repr(sorted_keys(meaning(done, path))) == repr(sorted_keys(data))
        said = [*scrambled.above, *scrambled.beside, *scrambled.ends]
        assert sorted(re.findall(r"# note .*", done)) == sorted(said)
        assert tidy(done, path) == done
        check_comments(done, scrambled)
        if number % 10 == 0:
            plain = [Scrambled(chance=random.Random(f"{number} {way}"), comments=False) for way in range(2)]
            one, other = (without_blank_lines(tidy(each.document(data), path)) for each in plain)
            assert one == other


def sorted_keys(data: Any) -> Any:
    if isinstance(data, dict):
        return {key: sorted_keys(data[key]) for key in sorted(data)}
    return [sorted_keys(each) for each in data] if isinstance(data, list) else data


def without_blank_lines(text: str) -> str:
    """Blank lines are the author's; in a text with line breaks they are in both alike."""
    return re.sub(r"\n{2,}", "\n", text)


def check_comments(text: str, scrambled: Scrambled) -> None:
    """A comment stands where it stood: above its key, or beside its value, or above that."""
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    keys = scrambled.above | scrambled.beside
    for number, line in enumerate(lines):
        said = line[line.find("# note") :] if "# note" in line else None
        if said is None or said not in keys:
            continue
        below = next((each for each in lines[number + 1 :] if not each.startswith("# note")), "")
        own = below if line == said else line.removeprefix("- ")
        # What becomes the first key of a row in a list has its comment above the row.
        assert own.startswith((f"{keys[said]}:", "- ")), said


BY_HAND = """\
# yaml-language-server: $schema=../../../schemas/fault.schema.json
# About the file.

# About the causes.
causes:
- id:   a   # beside the id
  fix: {labour_hours: [ 0.5,1 ],
    # above the skill
    skill: home,
    summary: 'Clean it.'}  # beside the fix
  summary: "It's green"
  # behind the last key of a cause
# behind the causes
system: 'charging'
title: >-
  Lamp
  glows
symptoms: ["Horn, quiet", no]
applies_to: [{years: "2007", model: wren-400}]


ride_advice: {level: ride-with-care, why: "One line.\\n\\nAnother."}
x-unknown: {b: 1, a: "2"}
"""
"""Written by hand, as is what comes of it below: by the words of the module that writes it."""

DONE_BY_HAND = """\
# yaml-language-server: $schema=../../../schemas/fault.schema.json
# About the file.

title: Lamp glows
# behind the causes
system: charging
applies_to:
  - {model: wren-400, years: 2007}
symptoms:
  - Horn, quiet
  - no

ride_advice:
  level: ride-with-care
  why: |-
    One line.

    Another.
# About the causes.
causes:
  - id: a  # beside the id
    summary: It's green
    fix:  # beside the fix
      summary: Clean it.
      # above the skill
      skill: home
      labour_hours: [0.5, 1]
    # behind the last key of a cause
x-unknown: {b: 1, a: "2"}
"""


def test_by_hand() -> None:
    assert tidy(BY_HAND) == DONE_BY_HAND
    assert tidy("\ufeff" + BY_HAND.replace("\n", "\r\n")) == DONE_BY_HAND


@pytest.mark.parametrize("text", ["no", "0123", "1E10", "12:30", "-2008", "2026-03-14", "=", "What?", "a: b", "~", ""])
def test_a_text_stays_a_text_with_quotes_or_without(text: str) -> None:
    """Source of what needs quotes for others: YAML 1.2, section 10.3.2; PyYAML by those rules is such a reader."""
    written = [tidy(f"title: {way}\nsystem: charging\n") for way in (f'"{text}"', f"'{text}'")]
    assert written[0] == written[1]
    assert meaning(written[0]) == {"title": text, "system": "charging"}
    assert core_load(written[0]) == {"title": text, "system": "charging"}


def test_what_is_plain_and_a_text_to_us_alone_gets_quotes_and_no_is_left_plain() -> None:
    assert tidy("title: 0123\nsystem: no\n") == 'title: "0123"\nsystem: no\n'


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("title: a\ntitle: b\n", "line 2: The key"),
        ("title: &x a\nsystem: *x\n", "line 1"),
        ("title: [a\n", "line 1: "),
        ("title: a\n---\ntitle: b\n", "line 2: A second document"),
        ("\ttitle: a\n", "line 1: A tab"),
        ("title: a\x00b\n", "line 1: The character"),
    ],
)
def test_what_cannot_be_read_is_named(text: str, why: str) -> None:
    with pytest.raises(UntidyError, match=re.escape(why)):
        tidy(text)


def test_an_empty_list_of_accepted_findings_stays() -> None:
    assert tidy("# nothing yet\n", "accepted.yml") == "# nothing yet\n"


def test_a_nest_of_lists_takes_no_time() -> None:
    deep = "x: " + "[" * 22 + "a" + "]" * 22 + "\n"
    lines = "x:\n" + "".join(f"{'  ' * level}- # {level}\n" for level in range(1, 22)) + "  " * 22 + "- a\n"
    assert tidy(deep) == f"x:\n  {'- ' * 21}[a]\n"
    assert sorted(re.findall(r"# \d+", tidy(lines))) == sorted(f"# {level}" for level in range(1, 22))


@settings(max_examples=150)
@given(st.text(alphabet=st.sampled_from("ab:-[]{}!#'\"|>?, \n\té"), max_size=40).map(lambda text: f"title: a\n{text}"))
def test_whatever_stands_there_stays_or_is_refused(text: str) -> None:
    try:
        done = tidy(text)
    except UntidyError:
        return
    assert tidy(done) == done
    assert meaning(done) == meaning(text)
