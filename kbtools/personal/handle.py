"""What looks like the name under which a person writes elsewhere: `@name`, `username name`, `name_77 on the forum`.

A guess, and only ever warned of. The words are common knowledge, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, apart, even, has_any

_NICK = r"(?P<nick>[^\W\d_][\w-]{1,29}(?:\.[^\W\d][\w-]{1,20})?|[0-9_][\w-]{0,8}[^\W\d_]{3}[\w-]{0,20})(?!\w)"
_AT_SIGN = re.compile(r"(?<![\w.%+@/)=°Ω-])(?<![0-9] )@(?P<nick>[A-Za-z_][\w.]{0,28}\w)(?![\w@/-]|:\S)")
_LABEL = re.compile(
    r"(?<!\w)(?i:(?:user|screen|account|login|profile|forum|nick)[ -]?names?|nick|benutzername|pseudo|pseudonyme|"
    r"gebruikersnaam|insta(?:gram)?|ig|facebook|telegram|discord|mastodon|threema)"
    rf"(?: ?[:=] ?|(?: is| ist| est)? [\"'“„‘«]|(?<=name) (?:is |ist |est )?){_NICK}"
)
_QUOTED = re.compile(rf"(?<!\w)(?i:user|nick|usuario|utente) [\"'“„‘«]{_NICK}[\"'”“’»]")
_SAID_TO_BE = re.compile(
    r"(?<!\w)(?i:user|nick|member|poster|seller|handle|goes by|known as|posts? as|writes? as|posting as|alias|aka|"
    r"a\.k\.a\.|nutzer|mitglied|utilisateur|membre|usuario|utente|by|from|ask|thanks to|message|pm|dm|contact)"
    rf"(?: |: ?){_NICK}"
)
_WHERE = (
    r"(?:(?:the|our|your|this|that|his|her|old|club'?s?|owners'?) ){0,3}(?i:forums?|boards?|message boards?|reddit|"
    r"discord|telegram|insta(?:gram)?|facebook|fb|youtube|twitter|mastodon|tiktok|whatsapp|irc|skype|mailing list|chat)"
)
_ON_FORUM = re.compile(
    rf"(?<![\w@./-]){_NICK},?(?: \(|(?: (?:posts?|posted|writes?|wrote|is|says|said|over|here))? )"
    rf"(?:on|over on|in|at|im|auf|sur|en) (?:{_WHERE}|(?:dem |le |el |il |der )?(?:Forum|foro|forum))(?!\w)"
)
_CUE = re.compile(
    r"(?:as|I'm|I am|user|by|from|member|find|find me|called|message|contact|thanks to|ask|he is|she is|he's|she's|dm|"
    r"pm|follow|me|nick|handle|name is|is) [\"'“„‘«]?$",
    re.IGNORECASE,
)
_REDDIT = re.compile(r"(?<![\w/.])/?u/(?P<nick>[\w-]{3,20})(?![\w/])")
_PROFILE = re.compile(
    r"(?:https?://|www\.)[^\s<>\"/]{1,100}(?:/[^\s<>\"/]{1,40}){0,2}?/"
    r"(?:(?:u|users?|members?|profiles?|profil|membre|mitglied|usuario|utente)/|(?=@))(?P<nick>[\w.%@-]{2,60})",
    re.IGNORECASE,
)
_SOCIAL = re.compile(
    r"(?<![\w-])(?:instagram|facebook|twitter|tiktok|youtube|twitch|threads)\.(?:com|net|tv)/(?:user/|c/)?"
    r"(?P<nick>@?[\w.-]{3,40})(?=[?#\s).,]|/?$|/\s)",
    re.IGNORECASE,
)
_MIXED = re.compile(r"[0-9_A-Z](?:(?<=[a-z]{2}.)|(?<=[a-z]-.)|(?<=[0-9_])(?=[a-z]{3}))")
"""A digit, an underscore or a capital among small letters."""
_THREE_SMALL = re.compile("[a-z]{3}")
"""Which no fault code and no part number has."""
_PLAIN_WORDS = frozenset(
    [
        *("idle", "rest", "full", "half", "cold", "hot", "low", "high", "wot", "tdc", "btdc", "rpm", "room", "load"),
        *("pin", "startup", "start", "stop", "home", "work", "all", "the", "each", "key", "ignition", "max", "min"),
        *("once", "least", "most", "noon", "night", "media", "import", "param", "type", "kph", "mph", "zero", "top"),
        *(
            "bottom",
            "front",
            "rear",
            "speed",
            "temp",
            "ambient",
            "fuse",
            "relay",
            "battery",
            "sensor",
            "video",
            "photo",
        ),
        *("thread", "threads", "post", "posts", "posted", "guide", "group", "ask", "asked", "seen", "found", "read"),
        *("page", "channel", "it", "this", "that", "me", "us", "him", "her", "them", "someone", "somebody", "others"),
        *("people", "member", "members", "owner", "owners", "one", "discussed", "advice", "help", "told", "reported"),
        *("picture", "pictures", "drawing", "list", "written", "shown", "report", "reports", "answer", "answers", "is"),
        *("manual", "profile", "name", "user", "users", "hand", "mistake", "part", "number", "none", "unknown", "and"),
        *("input", "error", "default", "menu", "interface", "mode", "friendly", "setting", "settings", "level", "data"),
        *(
            "posting",
            "search",
            "searching",
            "question",
            "questions",
            "you",
            "we",
            "they",
            "a",
            "an",
            "my",
            "our",
            "your",
        ),
        *("not", "no", "needed", "to", "of", "in", "on", "or", "for", "with", "required", "missing", "field"),
    ]
)
_ROLE = re.compile(r"(?:curator|mechanic|owner|reader|editor|tester|workshop|member)-[0-9]+", re.IGNORECASE)
_HINTS = (
    *("@", "u/", "user", "nick", "name", "profil", "member/", "members/", "membre/", "mitglied/", "usuario", "utente"),
    *("benutzer", "pseudo", "forum", "foro", " board", "reddit", "discord", "telegram", "insta", "facebook", " fb"),
    *("youtube", "twitter", "mastodon", "tiktok", "whatsapp", " irc", "skype", "mailing list", " chat", "ig:", "ig ="),
    *("threema", "twitch.", "threads."),
)
"""One of these, in small letters, stands in every text with such a name that is not mixed."""


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    return _MIXED.search(flat) is not None or has_any(flat.lower(), _HINTS)


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like such a name, and profiles in web addresses."""
    return apart(_seen(even(text)))


def _seen(flat: str) -> Iterator[Span]:
    for pattern in (_AT_SIGN, _LABEL, _QUOTED, _REDDIT, _PROFILE, _SOCIAL):
        for match in pattern.finditer(flat):
            if _may_be(match["nick"]):
                yield Span(*match.span("nick"))
    for match in _SAID_TO_BE.finditer(flat):
        if _is_made_up(match["nick"]) and _may_be(match["nick"]):
            yield Span(*match.span("nick"))
    for match in _ON_FORUM.finditer(flat):
        cue = _CUE.search(flat[max(0, match.start() - 16) : match.start()])
        if _may_be(match["nick"]) and (cue is not None or _is_made_up(match["nick"])):
            yield Span(*match.span("nick"))


def _is_made_up(nick: str) -> bool:
    return _MIXED.search(nick) is not None and _THREE_SMALL.search(nick) is not None


def _may_be(nick: str) -> bool:
    if _ROLE.fullmatch(nick) is not None:
        return False
    return nick.lower().strip("@0123456789") not in _PLAIN_WORDS
