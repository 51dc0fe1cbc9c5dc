"""Texts on their way to a terminal, a log or another program: what a reader of lines would obey is shown instead.

Two kinds of readers obey texts: terminals (control characters) and the runners of a job, which take a line such as
`::add-mask::x`, `##[group]x` or `##vso[…]x` for a command of their own. Sources: ECMA-48 for control characters;
the commands are those that the runners document, from memory.
"""

from __future__ import annotations

import json
import re
from typing import Final

_COMMAND: Final = re.compile(r"::(?=\s*[a-zA-Z])|##(?=\s*(?:\[|[a-zA-Z]+\[))")
_OBEYED: Final = re.compile("[\x00-\x08\x0b-\x1a\x1c-\x1f\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]")
"""Control characters but line breaks, tabs and escape; line and paragraph separators; marks of direction; no width."""
_COLOUR: Final = re.compile("\x1b(?!\\[[0-9;]*m)")
_ESCAPE: Final = re.compile("\x1b")


def shown(text: str) -> str:
    """The text with every character written out that a terminal would obey, hide or reorder; for one line.

    So are control characters, marks of direction, blanks other than the common one, and halves of surrogate pairs.
    """
    if text.isprintable():
        return text
    return "".join(map(written, text))


def for_terminal(text: str, *, colour: bool = False) -> str:
    """Whole output, several lines, ready to print: nothing that an author wrote acts in it.

    Args:
        text: lines of ours with texts of authors in them.
        colour: whether our own colours (`ESC [ … m`) are in it and stay.
    """
    text = _OBEYED.sub(lambda match: written(match[0]), text)
    text = (_COLOUR if colour else _ESCAPE).sub(lambda match: written(match[0]), text)
    return _COMMAND.sub(lambda match: f"{match[0][0]} {match[0][1]}", text)


def json_text(value: object) -> str:
    """JSON with a line break at its end, indented by two; what would be obeyed is an escape, and reads the same."""
    return escaped(json.dumps(value, ensure_ascii=False, indent=2)) + "\n"


def is_obeyed(text: str) -> bool:
    """Whether `escaped` would write something of a text otherwise."""
    return escaped(text) != text


def escaped(text: str) -> str:
    """JSON, or YAML that has such texts in double quotes, with what would be obeyed as escapes: it reads the same."""
    text = text.replace("::", ":\\u003a").replace("##", "#\\u0023")
    return _OBEYED.sub(lambda match: written(match[0]), text)


def written(character: str) -> str:
    """One character as `shown` shows it."""
    if character.isprintable():
        return character
    if character == "\t":
        return "\\t"
    return f"\\u{ord(character):04x}" if ord(character) <= 0xFFFF else f"\\U{ord(character):08x}"
