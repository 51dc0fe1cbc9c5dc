"""Texts that end at a ` #`, since what follows is a comment: "Pull plug #3" says "Pull plug"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from kbtools.diagnostics import Finding
from kbtools.reading.comments import Comment
from kbtools.reading.source import form_error, place

_TEXT = re.compile(r"^ *(?:- +)*(?:([A-Za-z_][\w-]*): +)?(?![\"'\[{|>])(\S+ +\S.*?) +$")
"""A key, or a row of a list, with a text of two words or more that nothing closes."""


def cut_off(path: str, text: str, comments: Iterable[Comment]) -> Iterator[Finding]:
    """Texts of which a `#` cuts the end off.

    A comment has a space behind its `#`, by habit; a `#` that stands at its word is a part of the text.
    """
    for comment in comments:
        if not comment.text[:1].isalnum():
            continue
        sign = comment.start - 1
        line = text.rfind("\n", 0, sign) + 1
        written = _TEXT.match(text[line:sign])
        if written is None:
            continue
        whole = f"{written[2]} #{comment.text.rstrip()}"
        key = f"`{written[1]}`" if written[1] else "this row"
        message = f"The text of {key} ends here: what stands behind a space and # is a comment."
        escaped = whole.replace("\\", "\\\\").replace('"', '\\"')
        hint = f'Put quotes around it: "{escaped}".'
        if len(whole) > 80:
            hint = "Put quotes around the whole text."
        yield form_error("KB116", path, place(text, sign), message, hint)
