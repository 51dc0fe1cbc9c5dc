"""E-mail addresses: plain, spaced out, or written around the corner, as `name (at) host (dot) org`.

Source of the plain shape: RFC 5321 (local part up to 64 characters, labels up to 63). The words for the two signs are
common knowledge of the languages, no source.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even

_AT_WORDS = "[Aa][Tt]|[Ää][Tt]|arroba|arobase|chiocciola|Klammeraffe|apenstaartje|snabel-?a|zavináč|małpa"
_DOT_WORDS = (
    "[Dd][Oo][Tt]|[Pp][Uu][Nn][Kk][Tt]|[Pp][Oo][Ii][Nn][Tt]|[Pp][Uu][Nn][Tt][Oo]?|[Pp][Oo][Nn][Tt][Oo]|kropka|tečka"
)
_OPEN, _CLOSE = r"[\[({<*|\\/]{1,2}", r"[\])}>*|\\/]{1,2}"
_AT = re.compile(
    rf"(?P<framed> ?{_OPEN} ?(?:{_AT_WORDS}|@|%40|a) ?{_CLOSE} ?| -(?:{_AT_WORDS})- )|(?P<word> (?:{_AT_WORDS}) )"
    r"|(?P<spaced> @ ?|@ )|(?P<sign>@|%40)"
)
_DOT = re.compile(
    rf"(?P<framed> ?{_OPEN} ?(?:{_DOT_WORDS}|\.) ?{_CLOSE} ?| -(?:{_DOT_WORDS})- )|(?P<word> (?:{_DOT_WORDS}) )"
    r"|(?P<spaced> \. ?|,(?=(?:com|org|net|example|de|uk|fr|it|nl)(?!\w)))|(?P<sign>\.)"
)
"""A comma in the place of a point is a slip of the finger."""
_JOINED = re.compile(rf"[-_]({_AT_WORDS}|{_DOT_WORDS})[-_](?=\w)")
_LOCAL = re.compile(r"(?:[\w.+%'-]{0,63}\w|\"[\w.+ -]{1,62}\")$")
_LABEL = re.compile(r"\w[\w-]{0,62}")
_MOST_LABELS = 9
_LAST = re.compile(r"[^\W\d_][\w-]{1,62}")
_KNOWN_LAST = re.compile(
    r"[a-z]{2}|com|org|net|info|biz|edu|gov|name|pro|club|bike|app|dev|online|site|shop|store|email|cloud|blog|web|"
    r"example|test|invalid|xn--\w{2,58}"
)
"""Last labels that count where a sign is spelt out: codes of countries, usual others, those of RFC 2606."""
_NO_HOST = frozenset(
    [
        *("the", "a", "an", "this", "that", "each", "every", "any", "one", "no", "its", "his", "her", "my", "our"),
        *("your", "their", "another", "least", "most", "first", "last", "all", "both", "idle", "rest", "full", "half"),
    ]
)
"""What stands behind `at` in plain English."""
_CUE = re.compile("mail|writ|contact|reach|addr|schreib|kontakt|courriel|correo", re.IGNORECASE)
_LIKE_A_NAME = re.compile(r"[a-z][\w+-]*[._+][\w.+-]*|[a-z]{2,}[0-9]{1,4}")
_SPELT = re.compile(
    r"(?<![\w.])(?:[\w.+-] ){2,40}(?:@|\(at\)|at) (?:[\w-] ){2,40}(?:\.|dot) (?P<last>(?:[a-z] ){1,10}[a-z])(?!\w)"
)
_MAY_FRAMED = re.compile(rf"{_OPEN} ?(?:{_AT_WORDS}|a) ?{_CLOSE}")
_MAY_WORD = re.compile(
    rf" -(?:{_AT_WORDS})- |[ _-](?:{_AT_WORDS})[ _-][\w-]{{1,63}} ?[.\[({{<*|\\/]|[ _-](?:{_DOT_WORDS})[ _-]\w"
)


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    if "@" in text or "＠" in text or "&" in text or "%40" in text:
        return True
    flat = even(text)
    return _MAY_FRAMED.search(flat) is not None or _MAY_WORD.search(flat) is not None


def find(text: str) -> Iterator[Span]:
    """Every e-mail address of a text.

    The last label of a plain one is made of letters: `5 A @ 12.6 V` is none; of one that is spelt out it is a known
    one. The remote address of a repository (`git@host:path`) is none.
    """
    flat = even(text)
    yield from _written(flat)
    yield from (Span(*each.span()) for each in _SPELT.finditer(flat) if _is_known(each["last"].replace(" ", "")))
    if "&" in text and "@" not in text:
        decoded = html.unescape(text)
        if decoded != text and any(_written(even(decoded))):
            start = text.index("&")
            yield Span(start, start + 1)


def _written(flat: str) -> Iterator[Span]:
    flat = _JOINED.sub(lambda match: f" {match[1]} ", flat)
    done = 0
    for match in _AT.finditer(flat):
        local = _LOCAL.search(flat[max(done, match.start() - 64) : match.start()])
        end = None if local is None else _domain_end(flat, match)
        if local is None or end is None or not _is_local(flat, local[0], match, end):
            continue
        if local[0] == "git" and flat[end : end + 1] == ":":
            continue
        yield Span(match.start() - len(local[0]), end)
        done = end


def _domain_end(flat: str, at: re.Match[str]) -> int | None:
    """Where the longest domain behind the sign ends."""
    label = _LABEL.match(flat, at.end())
    if label is None or (at.lastgroup == "word" and label[0].lower() in _NO_HOST):
        return None
    plain, best = at.lastgroup == "sign", None
    for _ in range(_MOST_LABELS):
        dot = _DOT.match(flat, label.end())
        following = None if dot is None else _LABEL.match(flat, dot.end())
        if dot is None or following is None:
            break
        label, plain = following, plain and dot.lastgroup == "sign"
        # Behind a point and a blank a capital begins a sentence.
        last = label[0] if dot.lastgroup == "spaced" else label[0].lower()
        if (plain and _LAST.fullmatch(last)) or _is_known(last):
            best = label.end()
    return best


def _is_known(label: str) -> bool:
    return _KNOWN_LAST.fullmatch(label) is not None


def _is_local(flat: str, local: str, at: re.Match[str], end: int) -> bool:
    """Whether what stands before a bare `at` may be a name: `look at mail.example` has none."""
    if at.lastgroup != "word":
        return True
    if re.search(rf" (?:{_DOT_WORDS}) |[\[({{<*|\\/]", flat[at.end() : end]) is not None:
        return not local.isdigit()
    start = at.start() - len(local)
    cue = _CUE.search(flat[max(0, start - 30) : start])
    return _LIKE_A_NAME.fullmatch(local) is not None or (cue is not None and local.islower())
