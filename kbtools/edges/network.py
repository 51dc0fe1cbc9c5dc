"""One question to one host of the web, with everything about it bounded; nothing else here speaks to a network.

The name is looked up once, its addresses are judged, and the connection goes to one of those that were judged: a name
that changes in between leads nowhere else. Only the head of an answer is read, whatever comes behind it.
"""

from __future__ import annotations

import queue
import re
import selectors
import socket
import ssl
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, TypeVar
from urllib.parse import quote, urlsplit

from kbtools import __version__
from kbtools.links.public import is_public

T = TypeVar("T")

_MOST_HEAD: Final = 32_768
"""Bytes of an answer that are read."""
_MOST_ADDRESSES: Final = 3
"""Of one name that are tried."""
_PORTS: Final = frozenset({80, 443})
"""Besides those from 1024 on: nobody publishes pages at the others, and mail and the like listen there."""
_STATUS: Final = re.compile(rb"HTTP/1\.[01] ([1-5][0-9]{2})(?: [^\r\n]*)?\r?\n")
_HEAD_END: Final = re.compile(rb"\r?\n\r?\n")
_LOCATION: Final = re.compile(rb"\nlocation:[ \t]*([^\r\n]*)", re.IGNORECASE)
_KEPT_SIGNS: Final = "!$%&'()*+,-./:;=?@_~"
_UNKNOWN_NAME: Final = frozenset({socket.EAI_NONAME, getattr(socket, "EAI_NODATA", socket.EAI_NONAME)})


class NoAnswerError(Exception):
    """No answer came that says anything about the page."""

    def __init__(self, said: str, *, dead: bool, again: bool = False, heard: bool = True) -> None:
        super().__init__(said)
        self.said = said
        """What happened, in words of ours."""
        self.dead = dead
        """Whether a reader who follows the link meets the same."""
        self.again = again
        """Whether another try may tell more."""
        self.heard = heard
        """Whether anybody was at the other end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """The head of an answer."""

    status: int
    """Of HTTP."""
    location: str | None
    """Where a redirect leads, as written, hostile; None: it names no place."""


def looked_up(host: str, port: int) -> Sequence[str]:
    """The addresses of a name, as the system has them.

    Raises:
        OSError: there are none, or nobody can be asked.
    """
    found = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)
    return tuple(dict.fromkeys(str(each[4][0]) for each in found))


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """How hosts are reached; tests put a network of their own in its place."""

    lookup: Callable[[str, int], Sequence[str]] = looked_up
    """From a name and a port to addresses."""
    allowed: Callable[[str], bool] = is_public
    """Whether an address may be connected to."""
    said_by: str = f"kbtools/{__version__} (looks whether links still lead somewhere)"
    """Who asks: the `User-Agent`."""

    def ask(self, method: str, url: str, seconds: float) -> Reply:
        """Ask for a page, and read the head of the answer.

        Args:
            method: `HEAD` or `GET`.
            url: an absolute address of the web.
            seconds: within which all of it is done.

        Raises:
            NoAnswerError: there is no answer, or none that can be read, or nobody may be asked.
        """
        until = time.monotonic() + seconds
        try:
            parts = urlsplit(url)
            host, port = _place(parts.scheme, parts.hostname, parts.port)
        except ValueError as error:
            raise NoAnswerError("it is no address of the web", dead=True) from error
        try:
            line = self._connected(host, port, until)
            with line, _secured(line, host, until) if parts.scheme == "https" else line as secure:
                _send(secure, self._question(method, url), until)
                return _head(secure, until)
        except TimeoutError as error:
            raise NoAnswerError("no answer in time", dead=True, again=True, heard=False) from error
        except ssl.SSLError as error:
            # Whether a reader's browser takes it cannot be told: ours may lack a certificate.
            raise NoAnswerError("no safe connection comes about", dead=False) from error
        except ConnectionError as error:
            raise NoAnswerError("the host ends the connection", dead=True, again=True) from error
        except OSError as error:
            raise NoAnswerError("the host cannot be reached", dead=True, again=True, heard=False) from error

    def _connected(self, host: str, port: int, until: float) -> socket.socket:
        addresses = [each for each in self._addresses(host, port, until) if self.allowed(each)]
        if not addresses:
            raise NoAnswerError("it leads to an address that is not of the public internet", dead=True, heard=False)
        *others, last = addresses[:_MOST_ADDRESSES]
        for address in others:
            try:
                return socket.create_connection((address, port), timeout=_left(until))
            except OSError:
                # Often the one family of addresses is there, and the other leads nowhere.
                continue
        return socket.create_connection((last, port), timeout=_left(until))

    def _addresses(self, host: str, port: int, until: float) -> Sequence[str]:
        """Looked up beside, since the system takes its own time."""
        found: queue.SimpleQueue[Sequence[str] | OSError] = queue.SimpleQueue()

        def look() -> None:
            try:
                found.put(self.lookup(host, port))
            except OSError as error:
                found.put(error)
            except UnicodeError as error:
                found.put(OSError(socket.EAI_NONAME, str(error)))

        threading.Thread(target=look, daemon=True).start()
        try:
            got = found.get(timeout=_left(until))
        except queue.Empty as error:
            raise TimeoutError from error
        if isinstance(got, OSError):
            known = got.errno not in _UNKNOWN_NAME
            said = "the name of the host cannot be looked up" if known else "there is no host of that name"
            raise NoAnswerError(said, dead=not known, again=known, heard=False) from got
        return got

    def _question(self, method: str, url: str) -> bytes:
        parts = urlsplit(url)
        path = quote(parts.path or "/", safe=_KEPT_SIGNS) + (
            f"?{quote(parts.query, safe=_KEPT_SIGNS)}" if parts.query else ""
        )
        lines = (
            f"{method} {path} HTTP/1.1",
            f"Host: {_ascii(parts.netloc)}",
            f"User-Agent: {self.said_by}",
            "Accept: text/html, */*;q=0.5",
            "Accept-Encoding: identity",
            "Connection: close",
        )
        # What an author wrote was quoted above, or is ASCII without line breaks.
        return ("\r\n".join(lines) + "\r\n\r\n").encode("ascii", "replace")


def _place(scheme: str, host: str | None, port: int | None) -> tuple[str, int]:
    """Host and port to connect to.

    Raises:
        ValueError: it is no address of the web.
        NoAnswerError: nobody asks there.
    """
    if scheme not in {"http", "https"} or not host:
        raise ValueError(scheme)
    number = port or (443 if scheme == "https" else 80)
    if number < 1024 and number not in _PORTS:
        raise NoAnswerError(f"it leads to port {number}, where no pages are", dead=False)
    return _ascii(host), number


def _ascii(host: str) -> str:
    """A host's name as the network has it.

    Raises:
        ValueError: it cannot be one.
    """
    name = host if host.isascii() else host.encode("idna").decode("ascii")
    if re.search(r"[^!-~]|[/\\?#@]", name):
        raise ValueError(name)
    return name


def _left(until: float) -> float:
    left = until - time.monotonic()
    if left <= 0:
        raise TimeoutError
    return left


def _secured(line: socket.socket, host: str, until: float) -> ssl.SSLSocket:
    line.setblocking(False)
    secure = ssl.create_default_context().wrap_socket(line, server_hostname=host, do_handshake_on_connect=False)
    _patiently(secure, secure.do_handshake, until)
    return secure


def _patiently(line: socket.socket, act: Callable[[], T], until: float) -> T:
    """Do what may have to wait for the other side; a timeout of the socket would begin anew with each byte."""
    while True:
        try:
            return act()
        except ssl.SSLWantWriteError:
            events = selectors.EVENT_WRITE
        except (ssl.SSLWantReadError, BlockingIOError):
            events = selectors.EVENT_READ
        with selectors.DefaultSelector() as ready:
            ready.register(line, events)
            ready.select(_left(until))


def _send(line: socket.socket, data: bytes, until: float) -> None:
    """A question is far shorter than what a system takes at once, so that nobody waits here but for TLS."""
    line.setblocking(False)
    while data:
        data = data[_patiently(line, lambda rest=data: line.send(rest), until) :]  # type: ignore[misc]


def _head(line: socket.socket, until: float) -> Reply:
    got = b""
    while len(got) < _MOST_HEAD:
        _left(until)
        more = _patiently(line, lambda: line.recv(4096), until)
        got += more
        # Answers ahead of the answer (1xx) are passed over.
        while (end := _HEAD_END.search(got)) and got.startswith((b"HTTP/1.1 1", b"HTTP/1.0 1")):
            got = got[end.end() :]
        if not more or end:
            break
    status = _STATUS.match(got)
    if status is None:
        raise NoAnswerError("what comes back is no answer of the web", dead=False)
    head = got[: end.start()] if (end := _HEAD_END.search(got)) else got
    location = _LOCATION.search(head)
    return Reply(
        status=int(status[1]), location=None if location is None else location[1].decode("utf-8", "replace").strip()
    )
