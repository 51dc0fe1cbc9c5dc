"""Which addresses of the internet may be asked: public ones, and no machine behind the curator's own door.

Source of the ranges: the registries of special-purpose addresses of IANA (RFC 6890), as Python's `ipaddress` has them.
"""

from __future__ import annotations

import ipaddress
from typing import Final

_NAT64: Final = ipaddress.ip_network("64:ff9b::/96")
"""An IPv4 address in the last 32 bits (RFC 6052)."""
_UNICAST: Final = ipaddress.ip_network("2000::/3")
"""All that is given out of IPv6 (RFC 4291, 2.4)."""


def is_public(address: str) -> bool:
    """Whether an address, as a resolver gives it, is one of the public internet.

    Not: private, loopback, link-local, shared, reserved, multicast and unspecified ones, nor an IPv6 address that has
    such an IPv4 address in it; nor what is no address.
    """
    try:
        parsed = ipaddress.ip_address(address)
    except ValueError:
        return False
    if isinstance(parsed, ipaddress.IPv4Address):
        return _is_public_4(parsed)
    if parsed.scope_id is not None:
        return False
    inner = parsed.ipv4_mapped or parsed.sixtofour
    if parsed in _NAT64:
        inner = ipaddress.IPv4Address(int(parsed) & 0xFFFFFFFF)
    if inner is not None:
        return _is_public_4(inner)
    return parsed in _UNICAST and parsed.is_global and parsed.teredo is None


def _is_public_4(address: ipaddress.IPv4Address) -> bool:
    return address.is_global and not (address.is_multicast or address.is_reserved)
