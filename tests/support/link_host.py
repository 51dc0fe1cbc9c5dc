"""A host that answers links in every good and bad way, on this machine only."""

from __future__ import annotations

import contextlib
import socketserver
import threading
from collections.abc import Iterator
from typing import Any, cast

from kbtools.edges.network import Network
from kbtools.links.public import is_public

INSIDE = "10.0.0.7"
"""An address behind a curator's own door (RFC 1918)."""
_HEADS = {
    "/there": "200 OK",
    "/": "200 OK",
    "/gone": "404 Not Found",
    "/left": "410 Gone",
    "/login": "403 Forbidden",
    "/busy": "503 Service Unavailable",
    "/moved": "301 Moved Permanently\r\nLocation: there",
    "/to-the-front": "302 Found\r\nLocation: /",
    "/circle": "302 Found\r\nLocation: /circle-2",
    "/circle-2": "302 Found\r\nLocation: /circle",
    "/to-inside": "302 Found\r\nLocation: http://inside.zz/",
    "/to-a-file": "302 Found\r\nLocation: file:///etc/hostname",
    "/early": "103 Early Hints\r\nLink: </a.css>\r\n\r\nHTTP/1.1 404 Not Found",
}


class _Handler(socketserver.StreamRequestHandler):
    def handle(self) -> None:
        method, path, *_ = self.rfile.readline(4000).decode("latin-1").split(" ")
        head = b""
        while (line := self.rfile.readline(4000)) not in {b"\r\n", b""}:
            head += line
        host = cast(LinkHost, self.server)
        host.asked.append((method, path))
        host.heads.append(head.decode("latin-1"))
        # Whoever asked may hang up at any time.
        with contextlib.suppress(OSError):
            self._answer(method, path, host.closing)

    def _answer(self, method: str, path: str, closing: threading.Event) -> None:
        if path == "/no-head":
            self._head("405 Method Not Allowed" if method == "HEAD" else "200 OK")
        elif path.startswith("/on/"):
            self._head(f"302 Found\r\nLocation: /on/{int(path[4:]) + 1}")
        elif path == "/cut":
            self.wfile.write(b"HTTP/1.1 2")
        elif path == "/garbage":
            self.wfile.write(b"SSH-2.0-x\r\n\r\n")
        elif path == "/silent":
            closing.wait()
        elif path == "/drip":
            self.wfile.write(b"HTTP/1.1 200 OK\r\nX: ")
            while not closing.wait(0.02):
                self.wfile.write(b"x")
        elif path in {"/huge-head", "/huge-body"}:
            self.wfile.write(b"HTTP/1.1 200 OK\r\nX: x" if path == "/huge-head" else b"HTTP/1.1 200 OK\r\n\r\n")
            while not closing.is_set():
                self.wfile.write(b"x" * 65536)
        else:
            self._head(_HEADS[path])

    def _head(self, status: str) -> None:
        self.wfile.write(f"HTTP/1.1 {status}\r\nConnection: close\r\n\r\n".encode())


class LinkHost(socketserver.ThreadingTCPServer):
    """The host; `asked` is what it was asked, in order."""

    daemon_threads = True
    allow_reuse_address = True

    def __init__(self) -> None:
        super().__init__(("127.0.0.1", 0), _Handler)
        self.asked: list[tuple[str, str]] = []
        self.heads: list[str] = []
        self.closing = threading.Event()

    def url(self, path: str, name: str = "notes.zz") -> str:
        """The address of a page here, below one of the names that lead here."""
        return f"http://{name}:{self.server_address[1]}{path}"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Nothing: who hangs up is part of the play."""


@contextlib.contextmanager
def link_host() -> Iterator[LinkHost]:
    """The host, for as long as it is needed."""
    with LinkHost() as host:
        serving = threading.Thread(target=host.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True)
        serving.start()
        try:
            yield host
        finally:
            host.closing.set()
            host.shutdown()
            serving.join()


def _lookup(host: str, port: int) -> list[str]:
    if host == "nobody.zz":
        import socket

        raise socket.gaierror(socket.EAI_NONAME, "no such name")
    return [INSIDE] if host == "inside.zz" else ["127.0.0.1"]


def playground() -> Network:
    """A network in which every name leads to this machine, but `nobody.zz` to nobody and `inside.zz` behind a door."""
    return Network(lookup=_lookup, allowed=lambda address: address == "127.0.0.1" or is_public(address))
