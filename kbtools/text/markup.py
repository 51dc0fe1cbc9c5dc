"""What in a Markdown text does not belong there: raw HTML, links that act, characters that nobody sees.

`kbtools.text.html` makes all of it harmless when a page is built; here it is found, so that its author is told.
"""

from __future__ import annotations

import html
import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator
from typing import NamedTuple
from urllib.parse import urlsplit

_TICKS = re.compile(r"`+")
_FENCE = re.compile(r"^(?P<fence>`{3,}+|~{3,}+)[^\n]*\n(?:(?!(?P=fence))[^\n]*\n)*+(?P=fence)[`~ ]*$", re.MULTILINE)
_NOT_LINE_END = re.compile(r"[^\r\n]")

_ELEMENTS = frozenset(
    """
    abbr address area article aside audio base blockquote body br button canvas caption center cite code
    col dd del details dialog div dl dt em embed fieldset figure font footer form frame frameset h1 h2
    h3 h4 h5 h6 head header hr html iframe img input ins kbd label li link main map mark math meta nav
    noscript object ol option param picture pre script section select small source span strong style sub
    summary sup svg table tbody td template textarea tfoot th thead title tr track ul var video xmp
    """.split()  # noqa: SIM905 - a list would take a hundred lines
)
"""Names of more than one letter; the others are also what a text compares: `a <b and c> d`."""
_TAG = re.compile(
    r"</?(?P<name>[a-zA-Z][a-zA-Z0-9-]{0,60})(?P<rest>[^<>]{0,2000}+)(?P<end>>?)"
    r"|<!--|<!\[CDATA\[|<[!?][a-zA-Z]"
)
_SPACES = re.compile(r"\s*/?\s*")


class Piece(NamedTuple):
    """A piece of a text."""

    start: int
    """Index of its first code point."""
    text: str
    """The piece itself."""


def without_code(text: str) -> str:
    """The text with spaces for its code: fenced blocks and spans between backticks; every index stays what it was."""
    if "`" not in text and "~~~" not in text:
        return text
    text = _FENCE.sub(lambda match: _NOT_LINE_END.sub(" ", match[0]), text)
    ticks = [match.span() for match in _TICKS.finditer(text)]
    starts: dict[int, list[int]] = {}
    for start, end in ticks:
        starts.setdefault(end - start, []).append(start)
    pieces, done = [], 0
    for start, end in ticks:
        same = starts[end - start]
        after = bisect_right(same, start)
        if start < done or after == len(same):
            continue
        close = same[after] + (end - start)
        pieces += [text[done:start], _NOT_LINE_END.sub(" ", text[start:close])]
        done = close
    return "".join([*pieces, text[done:]])


def raw_html(text: str) -> Iterator[Piece]:
    """Every tag, comment, declaration and instruction of HTML that stands outside code.

    Source of the shapes: CommonMark 0.31, section 6.6. Words behind a name count only if it is one of HTML's or if
    there is an equals sign; so does a tag whose end is missing, because a browser finds an end.
    """
    if "<" in text:
        for match in _TAG.finditer(without_code(text)):
            if match["name"] is None or _is_tag(match["name"].lower(), match["rest"], ended=bool(match["end"])):
                yield Piece(match.start(), match[0])


def _is_tag(name: str, rest: str, *, ended: bool) -> bool:
    bare = _SPACES.fullmatch(rest) is not None
    if not bare and rest[0] not in " \t\r\n/":
        # `<https://…>`, `<anna@mail.example>`: an address between angle brackets.
        return False
    # Behind such a name a browser reads on to the next `>`, whatever stands between.
    return name in _ELEMENTS or (ended and (bare or "=" in rest))


_OPENING = re.compile(r"\]\([ \t\n]{0,20}<?|\]:[ \t\n]{0,20}<?|<")
"""What stands before a target: of a link, of a reference, of an address between angle brackets. Where the target ends
does not matter: a browser reads the scheme from its start."""
_LONGEST_START = 300
_OTHER_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]{1,30}:\S")
_UNREAD = re.compile(r"[\x00-\x20\x7f-\xa0\\]")
_SCHEME = re.compile(r"([a-z][a-z0-9+.-]{1,30}):")
_SAFE_SCHEMES = frozenset(["http", "https", "mailto", "tel"])
_ACTING_SCHEMES = frozenset(["javascript", "data", "vbscript", "file", "blob", "filesystem", "view-source", "jar"])
_MOST_DECODING = 3


def scheme(target: str) -> str | None:
    """The scheme that a browser reads at the start of a link's target, None where there is none.

    Entities are decoded, also those that were encoded twice; blanks, control characters, backslashes and characters
    that are not seen count nothing, as in the URL standard of the WHATWG, section 4.4 (basic URL parser).
    """
    if ":" not in target and "&" not in target:
        return None
    for _ in range(_MOST_DECODING):
        decoded = html.unescape(target)
        if decoded == target:
            break
        target = decoded
    bare = _UNSEEN.sub("", _UNREAD.sub("", target[:_LONGEST_START])).lower()
    match = _SCHEME.match(bare)
    return None if match is None else match[1]


def unsafe_links(text: str) -> Iterator[tuple[Piece, str]]:
    """Every link outside code whose scheme is unsafe: the start of its target, and the scheme.

    Of links and images in a line every scheme but http, https, mailto and tel; of references and addresses between
    angle brackets those that act, since a label and a tag may be followed by a colon as well.
    """
    if "](" not in text and "]:" not in text and "<" not in text:
        return
    bare = without_code(text)
    for match in _OPENING.finditer(bare):
        target = bare[match.end() : match.end() + _LONGEST_START]
        found = scheme(target)
        if found in _ACTING_SCHEMES or (found not in _SAFE_SCHEMES and _is_link(match[0], target)):
            yield Piece(match.end(), target), found or ""


def _is_link(opening: str, target: str) -> bool:
    """Whether a colon behind other words than those of schemes that act makes a scheme, and is not one of prose."""
    return opening.startswith("](") and _OTHER_SCHEME.match(target) is not None


_ADDRESS = re.compile(r"[^\s<>()]{0,2000}")


def no_addresses(text: str) -> Iterator[Piece]:
    """Every target of a link, outside code, that cannot be taken apart as an address, such as `http://[`."""
    if "//" in html.unescape(text):
        bare = without_code(text)
        for match in _OPENING.finditer(bare):
            target = _ADDRESS.match(bare, match.end())
            if target is not None and not _is_address(html.unescape(target[0])):
                yield Piece(match.end(), target[0])


def _is_address(target: str) -> bool:
    try:
        urlsplit(target)
    except ValueError:
        return False
    return True


_BIDI = {
    0x200E: "left-to-right mark",
    0x200F: "right-to-left mark",
    0x061C: "Arabic letter mark",
    0x202A: "left-to-right embedding",
    0x202B: "right-to-left embedding",
    0x202C: "end of a direction",
    0x202D: "left-to-right override",
    0x202E: "right-to-left override",
    0x2066: "left-to-right isolate",
    0x2067: "right-to-left isolate",
    0x2068: "first strong isolate",
    0x2069: "end of an isolate",
}
_UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u2028-\u202e"
    "\u2060-\u206f\u3164\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufffb\ud800-\udfff"
    "\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)
"""Source: the Unicode Character Database, Default_Ignorable_Code_Point and the general categories Cf (but for the
Arabic, Syriac and Kaithi signs that are seen), Zl, Zp, Cc (but for tab and line ends) and Cs."""

_JOINING = re.compile("[\u0600-\u08ff\u0900-\u0dff\u0f00-\u109f\u1780-\u18af\ua840-\ua87f\ufb50-\ufdff\ufe70-\ufefc]")
"""Letters of scripts in which ZWJ and ZWNJ decide how a word is written: Arabic and its kin, the Indic ones, Tibetan,
Myanmar, Khmer, Mongolian (Unicode Standard, chapters 9, 12, 13, 16; section 23.2)."""


def unseen(text: str) -> Iterator[Piece]:
    """Every character that is not seen, or turns the direction of what follows, where its script does not need it.

    Needed: ZWJ and ZWNJ behind a letter of a script that joins (`_JOINING`), ZWJ between two pictures, a variation
    selector behind a symbol, an ideograph or a Mongolian letter.
    """
    if text.isascii() and text.isprintable():
        return
    for match in _UNSEEN.finditer(text):
        if not _is_needed(text, match.start()):
            yield Piece(match.start(), match[0])


def unseen_name(character: str) -> str | None:
    """What a character that is not seen is called; None for any other one."""
    if _UNSEEN.match(character) is None:
        return None
    return _BIDI.get(ord(character)) or unicodedata.name(character, "control character").lower()


def turns(character: str) -> bool:
    """Whether a character changes the direction of what follows."""
    return ord(character) in _BIDI


def _is_needed(text: str, index: int) -> bool:
    character = text[index]
    before = text[index - 1] if index else ""
    after = text[index + 1 : index + 2]
    if character in "\u200c\u200d":
        joins = _JOINING.match(before) is not None
        return joins or (character == "\u200d" and _is_picture(before) and _is_picture(after))
    if "\ufe00" <= character <= "\ufe0f":
        return before != "" and (before in "0123456789#*" or unicodedata.category(before) in {"So", "Sm", "Po", "Lo"})
    if "\U000e0100" <= character <= "\U000e01ef":
        return before != "" and unicodedata.category(before) == "Lo"
    return "\u180b" <= character <= "\u180f" and "\u1800" <= before <= "\u18af"


def _is_picture(character: str) -> bool:
    if character == "":
        return False
    return character == "\ufe0f" or unicodedata.category(character) in {"So", "Sk"}
