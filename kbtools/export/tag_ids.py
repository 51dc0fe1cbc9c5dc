"""Names of feeds and of what stands in them, which stay for ever: tag URIs (RFC 4151)."""

from __future__ import annotations

import hashlib
from typing import Final
from urllib.parse import quote, urlsplit

_SINCE: Final = "2026"
"""A tag names a day on which its authority held the name; the first year of these files stands for it."""
_URLS: Final = bytes.fromhex("6ba7b8119dad11d180b400c04fd430c8")
"""The namespace of addresses, RFC 4122, appendix C."""


def tag(name: str, site_url: str | None, club: str) -> str:
    """The id of a thing.

    Without an address of the site nobody holds a name, and it is a UUID made of the club's name (RFC 4122, version 5).

    Args:
        name: of the thing within the site: `faults/battery-flat-overnight/reviewed/2026-03-14`.
        site_url: of the published site.
        club: its name.
    """
    if site_url is None:
        return f"urn:uuid:{_uuid5(f'{club} {name}')}"
    parts = urlsplit(site_url)
    path = parts.path.strip("/")
    specific = quote(f"{path}/{name}" if path else name, safe="/-._~!$&'()*+,;=:@%")
    return f"tag:{(parts.hostname or '').lower()},{_SINCE}:{specific}"


def _uuid5(name: str) -> str:
    digest = bytearray(hashlib.sha1(_URLS + name.encode(), usedforsecurity=False).digest()[:16])
    digest[6] = digest[6] & 0x0F | 0x50
    digest[8] = digest[8] & 0x3F | 0x80
    text = digest.hex()
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))
