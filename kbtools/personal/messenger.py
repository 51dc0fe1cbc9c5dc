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
    r"zalo\.me|ig\.me/m|kik\.me|vk\.me|qm\.qq\.com|simplex\.chat|keybase\.io|meet\.jit\.si|join\.slack\.com|zoom\.us/j|"
    r"meet\.google\.com|teams\.(?:microsoft|live)\.com/l|signal\.link|session\.contact|groups\.google\.com/g|"
    r"facebook\.com/(?:messages/t|groups)|element\.io/#|chat\.google\.com|hangouts\.google\.com|wire\.com/user)"
    r"[/?#][\w+@?#/%~!]"
    # A scheme, and behind it whom.
    r"|(?:tel|callto|sms|smsto|mms|mmsto|fax|facetime|facetime-audio|imessage):(?://)?[+(%]?[0-9(]"
    r"|(?:callto|facetime|facetime-audio|imessage|aim|ymsgr|icq|jabber|h323|ms-teams|"
    r"gtalk):(?://)?[\w.+-]{3,60}(?:@|\?|[\w.])"
    r"|(?:whatsapp|viber|signal|telegram|threema|wire|skype)://[^\s]|(?:whatsapp|viber|signal):\+?[0-9]{7,15}"
    r"|ircs?://[^\s/]{1,80}/[^\s,]{2,40},isnick"
    r"|mailto:(?://)?[^\s@:;,.)]|sips?:[^\s@:]{1,64}@|xmpp:[^\s@:]{1,64}@|skype:[\w.,-]{3,32}\?|matrix:u/"
    r"|(?:whatsapp|viber|tg|sgnl|threema|weixin|line|kakaotalk|skype|wire|fb-messenger|slack|steam|msteams|zoommtg|"
    r"discord|wechat|session|simplex|briar|tox|keybase|icq)://\S"
    r")[^\s<>()\[\]\"]{0,200}",
    re.IGNORECASE,
)
_HINTS = (
    *("wa.me", "whatsapp", "t.me/", "telegram", "m.me/", "messenger.com", "signal.", "threema", "line.me", "skype"),
    *("viber", "discord", "matrix.to", "matrix:", "snapchat", "facetime", "wechat", "weixin:", "zalo.me", "ig.me"),
    *("tel:", "callto:", "sms:", "smsto:", "mms:", "mmsto:", "fax:", "imessage:", "mailto:", "sip:", "sips:", "xmpp:"),
    *("kik.me", "vk.me", "qq.com", "simplex", "keybase", "jit.si", "slack", "zoom", "google.com", "teams", "session"),
    *("facebook.com", "element.io", "wire.com", "aim:", "ymsgr:", "icq:", "jabber:", "h323:", "gtalk:", "steam:"),
    *("irc:", "ircs:", "briar:", "tox:"),
    *("tg://", "sgnl:", "line:", "kakaotalk:", "wire:"),
)
"""One of these, in small letters, stands in every text that holds one."""


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    return has_any(even(text).lower(), _HINTS)


def find(text: str) -> Iterator[Span]:
    """Every link of a text that leads to one person's telephone or mailbox, also in web addresses."""
    return (Span(*match.span()) for match in _LINK.finditer(even(text)))
