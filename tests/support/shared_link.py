"""Links that carry a plan's state, as tests make them and as a page hands them on."""

from __future__ import annotations

import string
import zlib

from playwright.sync_api import Page, expect


def signed(text: str) -> str:
    """A fragment with its check value: CRC-32 as zlib has it, to the base of 36 in seven digits."""
    number, digits = zlib.crc32(text.encode()), ""
    while number:
        number, digit = divmod(number, 36)
        digits = (string.digits + string.ascii_lowercase)[digit] + digits
    return f"state={text};z{digits.rjust(7, '0')}"


def shared_from(page: Page) -> str:
    """The link that the page's button hands to the system."""
    page.evaluate(
        "() => { navigator.share = async (what) => { window.handed = what; };"
        "const writeText = async (text) => { window.copied = text; };"
        "Object.defineProperty(navigator, 'clipboard', { value: { writeText } }); }"
    )
    place = page.locator(".plan-share")
    place.get_by_role("button", name="Share this state").click()
    expect(place.get_by_role("status")).to_have_text("Shared.")
    page.evaluate("() => { delete navigator.share; navigator.share = undefined; }")
    place.get_by_role("button", name="Share this state").click()
    expect(place.get_by_role("status")).to_have_text("The link is copied.")
    link: str = page.evaluate("() => window.handed.url")
    assert page.evaluate("() => window.copied") == link
    assert "?" not in link
    return link
