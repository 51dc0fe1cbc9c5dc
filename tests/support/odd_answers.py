"""Answers as bad networks and busy hosts give them."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event, Semaphore

from tests.support.site_server import Odd, Wire

PORTAL = "Log in to the hotel's network"
"""What stands on the page of a captive portal."""
BACK_SOON = "Back soon"
"""What stands on the page of a host that cannot serve."""


def portal(wire: Wire, kind: str, body: bytes) -> None:
    """Status 200 and a page that nobody asked for, to be kept for a day."""
    page = f"<!doctype html><html><title>Log in</title><h1>{PORTAL}</h1></html>".encode()
    wire.head(200, "text/html", len(page), Cache_Control="max-age=86400")
    wire.send(page)


def unavailable(wire: Wire, kind: str, body: bytes) -> None:
    """A host that is busy, in a page of its own."""
    page = f"<!doctype html><html><title>Sorry</title><h1>{BACK_SOON}</h1></html>".encode()
    wire.head(503, "text/html", len(page))
    wire.send(page)


def missing(wire: Wire, kind: str, body: bytes) -> None:
    """A host that says there is no such page, though there is."""
    wire.head(404, "text/html", 0)


def cut_off(wire: Wire, kind: str, body: bytes) -> None:
    """The first half; the length that was announced shows that something is missing."""
    wire.head(200, kind, len(body))
    wire.send(body[: len(body) // 2])
    wire.hang_up()


def cut_off_silently(wire: Wire, kind: str, body: bytes) -> None:
    """The first half of an answer whose length nobody announced, as HTTP/1.0 does it: to a browser that is all."""
    wire.head(200, kind, None)
    wire.send(body[: len(body) // 2])
    wire.hang_up()


def garbled(wire: Wire, kind: str, body: bytes) -> None:
    """The right kind and length, and one wrong letter at the end."""
    wire.head(200, kind, len(body))
    wire.send(body[:-2] + b"?" + body[-1:])


class Stalled:
    """Stops at a point and says nothing more until it is let go."""

    def __init__(self, *, head: bool, share: float) -> None:
        self._head = head
        self._share = share
        self.silent = Event()
        """Set once it has sent what it sends."""
        self._go = Event()

    def __call__(self, wire: Wire, kind: str, body: bytes) -> None:
        if self._head:
            wire.head(200, kind, len(body))
        if self._share:
            wire.send(body[: int(len(body) * self._share)])
        self.silent.set()
        self._go.wait()
        wire.hang_up()

    def let_go(self) -> None:
        """Let it end."""
        self._go.set()


class InParts:
    """Sends a few bytes each time it is told to, and then the rest."""

    def __init__(self, parts: int) -> None:
        self._parts = parts
        self._told = Semaphore(0)

    def __call__(self, wire: Wire, kind: str, body: bytes) -> None:
        wire.head(200, kind, len(body))
        for at in range(self._parts):
            self._told.acquire()
            wire.send(body[at * 100 : at * 100 + 100])
        self._told.acquire()
        wire.send(body[self._parts * 100 :])

    def go_on(self) -> None:
        """Send one part more, the last time the rest."""
        self._told.release()


def once(odd: Odd, where: Callable[[str], bool]) -> Callable[[str], Odd | None]:
    """Answer so the first time that each such path is asked for, and rightly from then on."""
    seen: set[str] = set()

    def answer(path: str) -> Odd | None:
        if path in seen or not where(path):
            return None
        seen.add(path)
        return odd

    return answer


def always(odd: Odd, where: Callable[[str], bool]) -> Callable[[str], Odd | None]:
    """Answer so whenever such a path is asked for."""
    return lambda path: odd if where(path) else None
