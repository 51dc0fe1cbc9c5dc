"""Which addresses are asked at all. Source of the ranges: IANA's registries of special-purpose addresses (RFC 6890)."""

from __future__ import annotations

import pytest

from kbtools.links.answer import is_reserved, of_status
from kbtools.links.public import is_public
from kbtools.links.who import user_agent
from tests.support import factories as make


@pytest.mark.parametrize(
    "address",
    [
        *(
            "0.0.0.0",
            "10.1.2.3",
            "100.64.0.1",
            "127.0.0.1",
            "127.8.8.8",
            "169.254.169.254",
            "172.16.0.1",
            "172.31.255.255",
        ),
        *("192.0.0.1", "192.0.2.1", "192.168.1.1", "198.18.0.1", "203.0.113.9", "224.0.0.1", "239.1.1.1", "240.0.0.1"),
        *("255.255.255.255", "::", "::1", "fe80::1", "fe80::1%eth0", "fc00::1", "fd12::1", "fec0::1", "ff02::1"),
        *("::ffff:127.0.0.1", "::ffff:10.0.0.1", "64:ff9b::7f00:1", "2002:7f00:1::1", "2001:db8::1", "2001:0:1::1"),
        *("::7f00:1", "100::1", "4000::1", "localhost", "", "2130706433", "0x7f.1"),
    ],
)
def test_an_inward_address_is_never_asked(address: str) -> None:
    assert not is_public(address)


# Of the registries' space that is given out, as each starts: RIPE and ARIN, RIPE's IPv6, and forms that hold IPv4.
@pytest.mark.parametrize(
    "address", ["193.0.0.1", "8.0.0.1", "2a00::1", "2600::1", "::ffff:193.0.0.1", "64:ff9b::c100:1", "2002:c100:1::1"]
)
def test_a_public_address_may_be_asked(address: str) -> None:
    assert is_public(address)


def test_a_name_for_examples_is_not_asked() -> None:
    """RFC 2606."""
    reserved = ["https://a.example/", "http://x.test:8080/", "https://b.invalid./", "https://www.example.org/a"]
    assert [is_reserved(each) for each in [*reserved, "https://myexample.org/", "https://example.zz/"]] == [
        *[True] * 4,
        False,
        False,
    ]


@pytest.mark.parametrize(
    ("status", "state"),
    # RFC 9110: 404 and 410 say that there is nothing; the others refuse, often programs only.
    [
        *[(200, "there"), (206, "there"), (404, "dead"), (410, "dead")],
        *[(status, "unsure") for status in (304, 401, 403, 429, 500, 503)],
    ],
)
def test_what_a_status_means(status: int, state: str) -> None:
    assert of_status(status, "https://a.zz/page", "https://a.zz/page").state == state


def test_a_host_is_told_who_asks_and_no_name_breaks_the_line() -> None:
    club = make.club(name="Circle (Owners)\r\nX: y", site_url="https://lore.zz/")
    said = user_agent("1", club)
    assert said == "kbtools/1 (link check; Circle ?Owners???X: y; https://lore.zz/)"
