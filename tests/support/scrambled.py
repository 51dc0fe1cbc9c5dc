"""The same content written in many ways: keys in any order, lines or brackets, any quotes, comments, blank lines.

An emitter of its own, by YAML 1.2's grammar, so that it shares nothing with what brings files in order.
"""

from __future__ import annotations

import json
import random
import re
from dataclasses import dataclass, field
from typing import Any, Final

_BARE: Final = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9 ./'-]*[A-Za-z0-9.])?")
"""Texts that may stand without quotes anywhere, whatever is around them."""
_FOLDS: Final = re.compile(r"[A-Za-z0-9][!-~°é]*(?: [!-~°é]+)*")


@dataclass(kw_only=True)
class Scrambled:
    """A way of writing."""

    chance: random.Random
    comments: bool = True
    """Whether there are some."""
    above: dict[str, str] = field(default_factory=dict)
    """Comment that stands on a line of its own → the key below it."""
    beside: dict[str, str] = field(default_factory=dict)
    """Comment that stands behind a value on one line → its key."""
    ends: list[str] = field(default_factory=list)
    """Comments behind the last row of something."""

    def document(self, data: Any) -> str:
        lines = self._lines(data, 0)
        text = "\n".join([*([""] if self._one_in(4) else []), *lines, ""])
        return text.replace("\n", "\r\n") if self._one_in(5) else text

    def _one_in(self, many: int) -> bool:
        return self.chance.randrange(many) == 0

    def _new(self) -> str:
        return f"# note {self.chance.getrandbits(60):x} of {len(self.above) + len(self.beside)}: 'a' # b"

    def _lines(self, data: Any, pad: int) -> list[str]:
        """A list or mapping in lines."""
        lines = []
        rows = list(data.items()) if isinstance(data, dict) else [(None, each) for each in data]
        if isinstance(data, dict):
            self.chance.shuffle(rows)
        for number, (key, value) in enumerate(rows):
            if self._one_in(8):
                lines.append("" if self._one_in(2) else "  ")
            if self.comments and self._one_in(6):
                said = self._new()
                lines.append(f"{' ' * pad}{said}")
                # What stands above the first row may be about all of them.
                if key is not None and number and not isinstance(data, list):
                    self.above[said] = key
                else:
                    self.ends.append(said)
            lines += self._row(key, value, pad)
        if self.comments and self._one_in(9):
            self.ends.append(said := self._new())
            lines.append(f"{' ' * pad}{said}")
        return lines

    def _row(self, key: str | None, value: Any, pad: int) -> list[str]:
        head = f"{' ' * pad}-" if key is None else f"{' ' * pad}{self._key(key)}:"
        blank = " " * self.chance.choice((1, 1, 1, 3))
        deeper = pad + self.chance.choice((2, 2, 4))
        if isinstance(value, dict | list) and value and (self._one_in(2) or self._has_breaks(value)):
            inner = self._lines(value, deeper)
            # A comment or a blank line cannot stand beside the dash without being the row's own.
            if key is None and self._one_in(2) and inner[0].strip() and inner[0].strip()[0] != "#":
                return [f"{head}{' ' * (deeper - pad - 1)}{inner[0][deeper:]}", *inner[1:]]
            return [head, *inner]
        if isinstance(value, str) and self._has_breaks(value):
            return [f"{head}{blank}{_quoted(value)}"]
        if isinstance(value, str) and key is not None and _FOLDS.fullmatch(value) and self._one_in(5):
            words = value.split(" ")
            cut = self.chance.randrange(len(words))
            pieces = [" ".join(words[:cut]), " ".join(words[cut:])] if cut else [value]
            if not any(piece.startswith("#") for piece in pieces):
                return [f"{head} >-", *(f"{' ' * deeper}{piece}" for piece in pieces)]
        line = f"{head}{blank}{self._inline(value)}"
        if self.comments and self._one_in(8):
            said = self._new()
            if key is not None:
                self.beside[said] = key
            else:
                self.ends.append(said)
            line = f"{line} {said}"
        return [line]

    def _has_breaks(self, value: Any) -> bool:
        if isinstance(value, dict | list):
            return any(map(self._has_breaks, value.values() if isinstance(value, dict) else value))
        return isinstance(value, str) and "\n" in value

    def _inline(self, value: Any) -> str:
        gap = " " * self.chance.randrange(2)
        if isinstance(value, dict):
            rows = list(value.items())
            self.chance.shuffle(rows)
            pieces = [f"{self._key(key)}: {self._inline(inner)}" for key, inner in rows]
            return f"{{{gap}{', '.join(pieces)}{gap}}}"
        if isinstance(value, list):
            return f"[{gap}{f',{gap}'.join(map(self._inline, value))}{gap}]"
        if isinstance(value, bool):
            return str(value).lower()
        return self._text(value) if isinstance(value, str) else str(value)

    def _key(self, key: str) -> str:
        return self.chance.choice((key, key, key, f'"{key}"', f"'{key}'"))

    def _text(self, text: str) -> str:
        ways = [_quoted(text)]
        if text.isprintable() and text.isascii():
            quote = "'"
            ways.append(f"'{text.replace(quote, quote * 2)}'")
        if _BARE.fullmatch(text):
            ways.append(text)
        return self.chance.choice(ways)


def _quoted(text: str) -> str:
    """YAML has no pairs of surrogates."""
    return "".join(f"\\U{ord(each):08x}" if ord(each) > 0xFFFF else json.dumps(each)[1:-1] for each in text).join('""')
