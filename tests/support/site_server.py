"""A static host for tests: a folder, at the root or below a path, with the folder's own page for what is missing."""

from __future__ import annotations

import posixpath
import threading
import urllib.parse
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any


class StaticHost(SimpleHTTPRequestHandler):
    """Answers as plain static hosts do: `index.html` in folders, `404.html` with status 404 for the rest."""

    protocol_version = "HTTP/1.1"
    # Else each answer, sent as head and body, waits 40 ms for the browser's acknowledgement of the head.
    disable_nagle_algorithm = True

    def __init__(self, *args: Any, folder: Path, below: str, **rest: Any) -> None:
        self._folder = folder
        self._below = below
        super().__init__(*args, directory=str(folder), **rest)

    def do_GET(self) -> None:
        path = urllib.parse.urlsplit(self.path).path
        if not path.startswith(self._below):
            self._missing()
            return
        inside, file = self._meant(path)
        if not file.exists():
            self._missing()
            return
        self.path = "/" + urllib.parse.quote(inside) + ("/" if path.endswith("/") and inside else "")
        super().do_GET()

    def _meant(self, path: str) -> tuple[str, Path]:
        """What lies at an address: its path below the folder, and the file."""
        inside = posixpath.normpath("/" + urllib.parse.unquote(path.removeprefix(self._below))).lstrip("/")
        file = self._folder / inside
        return inside, file / "index.html" if file.is_dir() and path.endswith("/") else file

    def _missing(self) -> None:
        page = self._folder / "404.html"
        body = page.read_bytes() if page.is_file() else b"missing"
        self.send_response(HTTPStatus.NOT_FOUND)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002
        """Nothing: a test run is no access log."""


class Wire:
    """The connection on which an odd answer goes out."""

    def __init__(self, handler: SimpleHTTPRequestHandler) -> None:
        self._handler = handler

    def head(self, status: int, kind: str, length: int | None, **more: str) -> None:
        """Send status and headers. Without a length the answer ends where the connection is closed."""
        handler = self._handler
        handler.send_response(status)
        handler.send_header("Content-Type", kind)
        if length is None:
            handler.send_header("Connection", "close")
        else:
            handler.send_header("Content-Length", str(length))
        for name, value in more.items():
            handler.send_header(name.replace("_", "-"), value)
        handler.end_headers()
        handler.wfile.flush()

    def send(self, part: bytes) -> None:
        """Send a part of the body at once."""
        self._handler.wfile.write(part)
        self._handler.wfile.flush()

    def hang_up(self) -> None:
        """Close the connection once the answer function is through."""
        self._handler.close_connection = True


Odd = Callable[[Wire, str, bytes], None]
"""Answers in another way than a host should; is given the right kind (MIME type) and body."""


class Switch:
    """What a host does at the moment; a test changes it while the host runs."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        """What it serves."""
        self.reset()

    def reset(self) -> None:
        """Serve everything rightly, and forget what was asked for."""
        self.is_lost: Callable[[str], bool] = lambda path: False
        """Whether a request for this path is lost on the way: the connection is closed without an answer."""
        self.odd: Callable[[str], Odd | None] = lambda path: None
        """How a request for this path is answered instead; None: as it should be."""
        self.asked: list[str] = []
        """Paths that were asked for and answered."""
        self.lost: list[str] = []
        """Paths that were asked for and lost."""

    def unplug(self) -> None:
        """Lose everything."""
        self.is_lost = lambda path: True

    def plug(self) -> None:
        """Lose nothing."""
        self.is_lost = lambda path: False


class _SwitchedHost(StaticHost):
    def __init__(self, *args: Any, switch: Switch, **rest: Any) -> None:
        self._switch = switch
        super().__init__(*args, folder=switch.folder, **rest)

    def do_GET(self) -> None:
        path = urllib.parse.urlsplit(self.path).path.removeprefix(self._below)
        if self._switch.is_lost(path):
            self._switch.lost.append(path)
            self.close_connection = True
            return
        self._folder = self._switch.folder
        self.directory = str(self._switch.folder)
        self._switch.asked.append(path)
        odd = self._switch.odd(path)
        _, file = self._meant(self._below + path)
        if odd and file.is_file():
            odd(Wire(self), self.guess_type(str(file)), file.read_bytes())
        else:
            super().do_GET()


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    # Of more connections than wait to be taken the system drops some, and a browser asks again a second later or more.
    request_queue_size = 128

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Nothing: a browser that closes a connection is no event."""


@contextmanager
def served(folder: Path, below: str = "/") -> Iterator[str]:
    """Serve a folder while the block runs; gives its address, which ends in a slash."""

    def handler(*args: Any, **rest: Any) -> StaticHost:
        return StaticHost(*args, folder=folder, below=below, **rest)

    with host_running(handler, below) as address:
        yield address


@contextmanager
def switched(switch: Switch, below: str = "/") -> Iterator[str]:
    """Serve what the switch says at the moment; gives the address, which ends in a slash."""

    def handler(*args: Any, **rest: Any) -> StaticHost:
        return _SwitchedHost(*args, switch=switch, below=below, **rest)

    with host_running(handler, below) as address:
        yield address


@contextmanager
def host_running(handler: Callable[..., StaticHost], below: str) -> Iterator[str]:
    server = _Server(("127.0.0.1", 0), handler)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}{below}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
