"""The reports in a text: what stands between a line `--- report` and a line `--- end`, quoted or not."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

BEGIN: Final = "--- report"
END: Final = "--- end"
_MARK: Final = re.compile(
    r"(?P<quote>(?:[ \t]*>)+[ \t]?|)(?P<pad>[ \t]*)(?:-{2,3}|[\u2013\u2014]-?) ?(?P<word>report|end)[ \t]*",
    re.IGNORECASE,
)
"""Some mail programs make one long dash of three short ones."""
_BLANKS: Final = str.maketrans("\u00a0\u202f\u2007", "   ")


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """One report in a text."""

    text: str
    """What stands between the lines, without quote signs."""
    line: int
    """So many lines of the whole text stand above it."""
    column: int = 0
    """So many characters of a line stand before it: quote signs."""
    problem: str | None = None
    """Why it cannot be taken, a sentence; None where it can."""


def marked(text: str, keys: Sequence[str]) -> list[Marked]:
    """The reports in a text, in order.

    Args:
        text: a whole mail's, say; its lines end in LF.
        keys: those with which a line of a case may begin; what else begins a line was broken by a mail program.
    """
    lines = text.split("\n")
    marks = [(number, found) for number, line in enumerate(lines) if (found := _MARK.fullmatch(line)) is not None]
    return list(_reports(lines, marks, keys))


def _reports(lines: list[str], marks: list[tuple[int, re.Match[str]]], keys: Sequence[str]) -> Iterator[Marked]:
    past = -1
    for place, (number, begin) in enumerate(marks):
        if number <= past or begin["word"].lower() != "report":
            continue
        # A note may have such a line as well: it stands further in.
        ours = ((each, found) for each, found in marks[place + 1 :] if _depth(found) == _depth(begin))
        end, found = next(ours, (len(lines), None))
        if found is None or found["word"].lower() != "end":
            problem = f"It has no line `{END}`, so something of it may be missing. Ask for it again."
            yield Marked(text="", line=number, problem=problem)
            continue
        past = end
        own = [_unquoted(line, begin["quote"], len(begin["pad"])) for line in lines[number + 1 : end]]
        text = "".join(f"{each}\n" for each in _held_together(own, keys))
        yield Marked(text=text, line=number + 1, column=len(begin["quote"]) + len(begin["pad"]))


def _depth(mark: re.Match[str]) -> tuple[int, int]:
    return mark["quote"].count(">"), len(mark["pad"])


def _unquoted(line: str, quote: str, pad: int) -> str:
    """A line without the quote signs and the blanks that stand before the first one, and no more blanks than there."""
    signs = re.match(rf"(?:[ \t]*>){{0,{quote.count('>')}}}", line)
    line = line[signs.end() if signs is not None else 0 :]
    if quote.endswith((" ", "\t")):
        line = line.removeprefix(" ")
    left = line.lstrip()
    # Pages write blanks that do not break where a line begins; in a text they are meant.
    line = line[: len(line) - len(left)].translate(_BLANKS) + left
    return (line[pad:] if not line[:pad].strip() else left).rstrip(" \t")


def _held_together(lines: Sequence[str], keys: Sequence[str]) -> Iterator[str]:
    """A line that a mail program broke goes on further in, where YAML takes it for a part of the one above."""
    begins = re.compile(rf"(?:{'|'.join(map(re.escape, keys))}|[A-Za-z_]+) ?:(?:\s|\Z)|[-#%&*!{{}}\[\]\s]|\Z")
    above = False
    for line in lines:
        broken = above and begins.match(line) is None
        yield f"      {line}" if broken else line
        above = True
