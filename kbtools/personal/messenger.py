"""Links that ring, write to or open a chat with one person: `wa.me/…`, `tel:…`, `mailto:…`.

Source of the schemes: RFC 3966 (tel), 5724 (sms), 6068 (mailto), 3261 (sip), 5122 (xmpp). The hosts are those that the
messengers themselves give out for the address of a person; common knowledge, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even, has_any

_LINK = re.compile(
    r"(?<![\w.-])(?:"
    # A host, and behind it whom.
    r"(?:www\.)?(?:wa\.me|(?:api|web|chat)\.whatsapp\.com(?:/send)?|t\.me|telegram\.(?:me|dog)|m\.me|messenger\.com/t|"
    r"signal\.(?:me|group)|threema\.id|line\.me/(?:r/)?ti/p|join\.skype\.com|invite\.viber\.com|discord\.gg|"
    r"discord(?:app)?\.com/(?:users|invite)|matrix\.to/#|snapchat\.com/add|facetime\.apple\.com|u\.wechat\.com|"
    r"zalo\.me|ig\.me/m)[/?#][\w+@?#/%]"
    # A scheme, and behind it whom.
    r"|(?:tel|callto|sms|smsto|mms|mmsto|fax|facetime|facetime-audio|imessage):(?://)?[+(%]?[0-9(]"
    r"|mailto:(?://)?[^\s@:;,.)]|sips?:[^\s@:]{1,64}@|xmpp:[^\s@:]{1,64}@|skype:[\w.,-]{3,32}\?|matrix:u/"
    r"|(?:whatsapp|viber|tg|sgnl|threema|weixin|line|kakaotalk|skype|wire|fb-messenger)://\S"
    r")[^\s<>()\[\]\"]{0,200}",
    re.IGNORECASE,
)
_HINTS = (
    *("wa.me", "whatsapp", "t.me/", "telegram", "m.me/", "messenger.com", "signal.", "threema", "line.me", "skype"),
    *("viber", "discord", "matrix.to", "matrix:", "snapchat", "facetime", "wechat", "weixin:", "zalo.me", "ig.me"),
    *("tel:", "callto:", "sms:", "smsto:", "mms:", "mmsto:", "fax:", "imessage:", "mailto:", "sip:", "sips:", "xmpp:"),
    *("tg://", "sgnl:", "line:", "kakaotalk:", "wire:"),
)
"""One of these, in small letters, stands in every text that holds one."""


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    return has_any(even(text).lower(), _HINTS)


def find(text: str) -> Iterator[Span]:
    """Every link of a text that leads to one person's telephone or mailbox, also in web addresses."""
    return (Span(*match.span()) for match in _LINK.finditer(even(text)))
