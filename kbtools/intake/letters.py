"""What somebody handed in, as the texts in it: a mail's parts, or the text itself. Nothing of it is believed."""

from __future__ import annotations

import email
import email.policy
import html.parser
import re
from collections.abc import Iterator
from dataclasses import dataclass
from email.message import EmailMessage, Message
from typing import Final

MOST_BYTES: Final = 25_000_000
"""Of what is handed in; mail servers take about as much, pictures included."""
_MOST_PARTS: Final = 200
"""Of a mail that are looked at."""
_HEAD: Final = re.compile(
    rb"(?:From [^\n]*\n)?(?:(?:from|to|subject|date|received|mime-version|content-type|message-id|return-path"
    rb"|delivered-to|reply-to|x-[\w-]+|[\w-]+):[^\n]*\r?\n(?:[ \t][^\n]*\r?\n)*)+\r?\n",
    re.IGNORECASE,
)
"""A mail's head: lines of name and value, and an empty one."""
_OF_A_MAIL: Final = re.compile(
    rb"^(?:from|subject|received|mime-version|message-id|return-path):", re.IGNORECASE | re.MULTILINE
)
_MARKS: Final = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))
_BREAKS: Final = frozenset({"br", "p", "div", "tr", "li", "blockquote", "pre", "h1", "h2", "h3", "h4"})
_UNSEEN: Final = frozenset({"script", "style", "head", "title"})


class NoTextError(ValueError):
    """What was handed in holds no text; the words say why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """A text that somebody handed in."""

    text: str
    """Its lines end in LF."""
    whole: bool
    """Whether it is the file itself, so that its lines are those of the file."""


def letters(data: bytes) -> list[Letter]:
    """The texts in what was handed in: of a mail each part that a person reads, else the one text.

    Raises:
        NoTextError: there is none, or too much of it.
    """
    if len(data) > MOST_BYTES:
        raise NoTextError(f"It has more than {MOST_BYTES // 1_000_000} MB, and is not read")
    head = _HEAD.match(data)
    if head is not None and _OF_A_MAIL.search(head[0]):
        return [Letter(text=each, whole=False) for each in _parts(data)]
    return [Letter(text=text_of(data), whole=True)]


def text_of(data: bytes, encoding: str | None = None) -> str:
    """Bytes as text, whose lines end in LF.

    Args:
        data: with or without a byte order mark.
        encoding: as somebody says; None: by the mark, else UTF-8, else Windows' western one.

    Raises:
        NoTextError: it is no text, or none in that encoding.
    """
    name = encoding or next((each for mark, each in _MARKS if data.startswith(mark)), None)
    try:
        if name is not None:
            text = data.decode(name)
        elif b"\0" in data:
            raise NoTextError("It is no text")
        else:
            text = _decoded(data)
    except (UnicodeError, LookupError):
        raise NoTextError(f"It is no text in {name}") from None
    if "\0" in text:
        raise NoTextError("It is no text")
    return _even(text.removeprefix("\ufeff"))


def _decoded(data: bytes) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        # cp1252 leaves five bytes open; what has those is shown, and refused where it matters.
        return data.decode("cp1252", "replace")


def _even(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _parts(data: bytes) -> Iterator[str]:
    """The texts of a mail, plain ones first; an attached mail's as well. What is no text is passed over."""
    message = email.message_from_bytes(data, policy=email.policy.default)
    plain: list[Message] = []
    marked_up: list[Message] = []
    for number, part in enumerate(message.walk()):
        if number >= _MOST_PARTS:
            break
        if part.get_content_maintype() == "text" and not part.is_multipart():
            (marked_up if part.get_content_subtype() == "html" else plain).append(part)
    for each in plain:
        text = _content(each)
        yield _unfolded(text, delsp=_parameter(each, "delsp") == "yes") if _is_flowed(each) else text
    for each in marked_up:
        reader = _Reader()
        reader.feed(_content(each))
        reader.close()
        yield "".join(reader.pieces)


def _content(part: Message) -> str:
    """The text of a part, whatever its head claims of it."""
    payload = part.get_payload(decode=True)
    data = payload if isinstance(payload, bytes) else b""
    try:
        text = data.decode(part.get_content_charset("utf-8"))
    except (UnicodeError, LookupError):
        text = _decoded(data)
    return _even(text.replace("\0", "\ufffd").removeprefix("\ufeff"))


def _parameter(part: Message, name: str) -> str:
    params = part["content-type"].params if isinstance(part, EmailMessage) and "content-type" in part else {}
    return str(params.get(name, "")).lower()


def _is_flowed(part: Message) -> bool:
    return part.get_content_subtype() == "plain" and _parameter(part, "format") == "flowed"


_FLOWED: Final = re.compile(r"(>*) ?(.*)", re.DOTALL)


def _unfolded(text: str, *, delsp: bool) -> str:
    """Lines that a program broke put together again (RFC 3676, sections 4.2, 4.4 and 4.5)."""
    lines: list[str] = []
    open_at = None
    for line in text.split("\n"):
        found = _FLOWED.fullmatch(line)
        depth, said = (found[1], found[2]) if found is not None else ("", line)
        head = f"{depth} " if depth else ""
        soft = said.endswith(" ") and said != "-- "
        kept = said[:-1] if soft and delsp else said
        if open_at == depth:
            lines[-1] += kept
        else:
            lines.append(head + kept)
        open_at = depth if soft else None
    return "\n".join(lines)


class _Reader(html.parser.HTMLParser):
    """The words of a page, with line ends where it shows some."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.pieces: list[str] = []
        self._unseen = 0
        self._as_written = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002 - its signature
        """A line end before what begins on a line of its own."""
        self._unseen += tag in _UNSEEN
        self._as_written += tag == "pre"
        self._break(tag)

    def handle_endtag(self, tag: str) -> None:
        """Likewise behind it."""
        self._unseen -= tag in _UNSEEN and self._unseen > 0
        self._as_written -= tag == "pre" and self._as_written > 0
        self._break("" if tag == "br" else tag)

    def handle_data(self, data: str) -> None:
        """Blanks of the source are one; those that do not break are meant."""
        if self._unseen:
            return
        text = data if self._as_written else re.sub(r"[ \t\n\r\f]+", " ", data)
        if not self._as_written and (not self.pieces or self.pieces[-1].endswith("\n")):
            text = text.lstrip(" ")
        self.pieces.append(text.replace("\u00a0", " "))

    def _break(self, tag: str) -> None:
        if tag in _BREAKS and not self._unseen and (tag == "br" or (self.pieces and self.pieces[-1][-1:] != "\n")):
            self.pieces.append("\n")
