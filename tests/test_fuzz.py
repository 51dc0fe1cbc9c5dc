"""Files that are broken in a thousand ways: never a breakdown, and every finding's place is inside its file."""

from __future__ import annotations

import datetime as dt
import random

from kbtools.lint import lint
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.repository import shapes
from kbtools.rules import samples

FILES = 3_000
SEED = 20261125
TODAY = dt.date(2026, 6, 1)
NASTY = [
    "~",
    "null",
    "[]",
    "{}",
    "-1",
    "1e999",
    "[[1]]",
    "*x",
    "&x",
    "!!int",
    "!",
    "%",
    "@",
    "'",
    '"',
    "?",
    "-",
    "..",
    "/",
    "0",
    "on",
    "all",
    "2003-",
    "9999-0000",
    "2026-13-45",
    "unlisted",
]
NASTY += ["{a: b}", '"\u202e', "\t", "\x00", "\u2028", "99999999999999999999", "[low, high]", '""', "- -", "? x"]


def broken(text: str, choose: random.Random) -> str:
    """The text with one to three mistakes: a value, a line gone or doubled, a piece put in, an indentation."""
    for _ in range(choose.randint(1, 3)):
        lines = text.split("\n")
        at = choose.randrange(len(lines))
        line = lines[at]
        way = choose.randrange(5)
        if way == 0 and ": " in line:
            lines[at] = f"{line.split(': ', 1)[0]}: {choose.choice(NASTY)}"
        elif way == 1:
            del lines[at]
        elif way == 2:
            lines.insert(at, choose.choice(lines))
        elif way == 3:
            cut = choose.randrange(len(line) + 1)
            lines[at] = line[:cut] + choose.choice(NASTY) + line[cut:]
        else:
            lines[at] = " " * choose.randrange(5) + line.lstrip()
        text = "\n".join(lines)
    return text


def test_no_broken_file_breaks_the_check() -> None:
    known, choose, readable = shapes(), random.Random(SEED), 0
    for _ in range(FILES):
        path = choose.choice(list(samples.FILES))
        files = {**samples.FILES, path: broken(samples.FILES[path], choose)}
        sources = [SourceFile(path=name, data=text.encode()) for name, text in files.items()]
        findings = lint(read(sources, known), TODAY)
        readable += not any(each.rule.startswith("KB1") and each.path == path for each in findings)
        for each in findings:
            assert each.rule != "KB001", (each, files[path])
            lines = files.get(each.path, "").split("\n")
            assert 1 <= each.mark.line <= len(lines), (each, files[path])
            assert 1 <= each.mark.column <= len(lines[each.mark.line - 1]) + 1, (each, files[path])
    # Most of what goes wrong must be beyond YAML, or little is tried.
    assert readable > FILES / 3
