"""What git leaves in a file that two people have changed at the same place: both versions, between lines of signs."""

from __future__ import annotations

import re

from kbtools.diagnostics import Finding, Mark
from kbtools.reading.source import form_error, place

_START = re.compile(r"^<{7}(?: .*)?$", re.MULTILINE)
_MIDDLE = re.compile(r"^={7}\r?$", re.MULTILINE)
_END = re.compile(r"^>{7}(?: .*)?$", re.MULTILINE)


def conflict_in(path: str, text: str) -> Finding | None:
    """The finding that two versions stand in a file; None where there is one only.

    All three lines are asked for: `=======` alone may underline a heading.
    """
    if "<<<<<<<" not in text:
        return None
    start = _START.search(text)
    middle = None if start is None else _MIDDLE.search(text, start.end())
    end = None if middle is None else _END.search(text, middle.end())
    if start is None or end is None:
        return None
    first, last = place(text, start.start()), place(text, end.start())
    message = (
        f"A conflict stands here, lines {first.line} to {last.line}: two versions that git could not put together."
    )
    hint = "Keep what is right of the two, and delete the lines with <<<<<<<, ======= and >>>>>>>."
    return form_error("KB115", path, Mark(line=first.line, column=1), message, hint)
