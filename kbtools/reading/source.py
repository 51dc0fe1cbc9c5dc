"""What is read: the bytes of a file, decoded so that places count as an editor counts."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass, field

from kbtools.diagnostics import START, Finding, Mark
from kbtools.reading.limits import MAX_BYTES as MAX_BYTES  # noqa: PLC0414 - whoever reads bytes asks here
from kbtools.reading.limits import MAX_PICTURE_BYTES as MAX_PICTURE_BYTES  # noqa: PLC0414

_LINE_END = re.compile(r"\r\n|\n|\r")
_FORBIDDEN = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]|\ufeff")
"""What YAML 1.2 (section 5.1) does not count as printable; a byte order mark inside the text as well."""

_BYTE_ORDER_MARKS = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\x00\x00\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceFile:
    """One file of the knowledge base."""

    path: str
    """POSIX path relative to the knowledge base's folder."""
    data: bytes | None
    """Its content; None where it could not be read."""
    problem: str | None = None
    """Why it could not be read, in words; None where it could."""
    hint: str | None = None
    """What to do about that; None: the usual."""
    _digest: bytes | None = field(default=None, init=False, repr=False, compare=False)

    @property
    def digest(self) -> bytes:
        """SHA-256 of its content, of none as of an empty one; worked out once, since many ask."""
        if self._digest is None:
            object.__setattr__(self, "_digest", hashlib.sha256(self.data or b"").digest())
        return self._digest or b""


def form_error(rule: str, path: str, mark: Mark, message: str, hint: str) -> Finding:
    """A finding of the reading layer; all of its findings are errors."""
    return Finding(rule=rule, severity="error", path=path, mark=mark, message=message, hint=hint)


def decode(file: SourceFile, most: int = MAX_BYTES) -> tuple[str | None, list[Finding]]:
    """The text of a file of at most so many bytes, or why there is none.

    A UTF-8 byte order mark is taken off: some editors always write it.
    """
    if file.data is None:
        hint = "Mend the file or its permissions, or take it out of the folder."
        return None, [form_error("KB101", file.path, START, f"The file cannot be read: {file.problem}.", hint)]
    if len(file.data) > most:
        message = f"The file has more than {most:,} bytes, and is not read."
        return None, [
            form_error("KB110", file.path, START, message, "Split it, or take out what does not belong there.")
        ]
    for mark, name in _BYTE_ORDER_MARKS:
        if file.data.startswith(mark):
            hint = "Save it again as UTF-8."
            return None, [form_error("KB106", file.path, START, f"The file is written in {name}, not in UTF-8.", hint)]
    try:
        text = file.data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = file.data[: error.start].decode("utf-8-sig", errors="replace")
        bad = file.data[error.start]
        message = f"The byte 0x{bad:02X} is not UTF-8."
        hint = "Save the file again as UTF-8; it is probably in an old Windows or Latin encoding."
        return None, [form_error("KB106", file.path, place(before, len(before)), message, hint)]
    forbidden = _FORBIDDEN.search(text)
    if forbidden is not None:
        message = f"The character U+{ord(forbidden[0]):04X} cannot stand in YAML."
        hint = "Delete it; it came along with a paste."
        return None, [form_error("KB101", file.path, place(text, forbidden.start()), message, hint)]
    return text, []


def lines_of(data: bytes) -> list[str]:
    """The lines as findings count them, to be shown: what is no UTF-8 becomes U+FFFD, and too much is left out."""
    return _LINE_END.split(data[:MAX_BYTES].decode("utf-8-sig", "replace"))


def line_starts(text: str) -> list[int]:
    """The code points at which the lines of a text begin."""
    return [0, *(match.end() for match in _LINE_END.finditer(text))]


def place(text: str, index: int) -> Mark:
    """The line and column of the code point at `index`."""
    line, last_end = 1, 0
    for match in _LINE_END.finditer(text, 0, index):
        # A position between CR and LF is still on the line that they end.
        if match.end() > index:
            break
        line, last_end = line + 1, match.end()
    return Mark(line=line, column=index - last_end + 1)
