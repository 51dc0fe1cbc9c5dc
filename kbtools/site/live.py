"""The server behind `kbtools serve`: the site while it is being written, with findings on top of the last good one."""

from __future__ import annotations

import contextlib
import itertools
import logging
import mimetypes
import os
import posixpath
import re
import traceback
import urllib.parse
import webbrowser
import wsgiref.simple_server
import wsgiref.util
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from mkdocs.livereload import LiveReloadServer

from kbtools.diagnostics import Finding
from kbtools.site import panel
from kbtools.site.watching import Watcher

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

log = logging.getLogger(__name__)

_HTML = "text/html; charset=utf-8"
_TYPES = {
    ".css": "text/css",
    ".gz": "application/gzip",
    ".js": "text/javascript",
    ".json": "application/json",
    ".mjs": "text/javascript",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
}
"""Types that browsers insist on and that some systems' tables get wrong."""


class ServeError(Exception):
    """The server cannot start."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        """What is wrong, one sentence."""
        self.hint = hint
        """What to do about it, one sentence."""


class _Requests(wsgiref.simple_server.WSGIRequestHandler):
    """Keeps requests out of MkDocs' log: one for a missing file would be a warning there, and fail a strict build."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the base class's name
        log.debug(format, *args)


class LiveSite(LiveReloadServer):
    """Serves the folder `root` below `mount_path`, rebuilds it when a watched file changes, and reloads browsers.

    `rebuild` builds the site so that `root` holds the new one afterwards, or still the last good one, and returns its
    findings. Errors among them, or anything it raises, are shown on every page until a rebuild goes well; before the
    first good build every address answers 503 with a page that shows them. It is called from the thread that calls
    `serve`, first when the server starts, never twice at once; a change during a build leads to one more.
    """

    allow_reuse_address = os.name != "nt"  # on Windows it would let two servers share a port in silence

    def __init__(
        self,
        host: str,
        port: int,
        root: Path,
        mount_path: str,
        rebuild: Callable[[], Sequence[Finding]],
    ) -> None:
        super().__init__(self._build, host, port, str(root), mount_path)
        self.RequestHandlerClass = _Requests
        self._host = host
        self._port = port
        self._root = root
        self._rebuild = rebuild
        self._trouble: panel.Trouble | None = None
        self._requests = itertools.count(1)
        self._watcher = Watcher(self.request_rebuild, leave_out=[root])
        self._bound = False

    def watch(self, path: str | Path, func: None = None, *, recursive: bool = True) -> None:  # noqa: ARG002
        """Rebuild when this file, or anything in this folder, changes. The other arguments are the base class's.

        Raises `FileNotFoundError` where the folder that holds it does not exist.
        """
        self._watcher.add(Path(path))

    def request_rebuild(self) -> None:
        """Have the site rebuilt soon; returns at once. For any thread."""
        with self._rebuild_cond:
            self._want_rebuild = True
            self._rebuild_cond.notify_all()

    def bind(self) -> str:
        """Take the port and return the site's address; with port 0 the system chose one. Raises `ServeError`."""
        try:
            self.server_bind()
            self.server_activate()
        except (OSError, OverflowError) as error:
            self.server_close()
            reason = error.strerror if isinstance(error, OSError) and error.strerror else error
            raise ServeError(
                f"Cannot serve on {self._host} port {self._port}: {reason}",
                "Stop what uses this port, or choose another address.",
            ) from error
        self._bound = True
        host = f"[{self._host}]" if ":" in self._host else self._host
        self.url = f"http://{host}:{self.server_port}{self.mount_path}"
        return self.url

    def serve(self, *, open_in_browser: bool = False) -> None:
        """Serve until Ctrl-C or `shutdown`, then return with the port free. Raises `ServeError` if it cannot start."""
        if not self._bound:
            self.bind()
        try:
            self._watcher.start()
            self.serve_thread.start()
            self.request_rebuild()
            if open_in_browser:
                webbrowser.open(self.url)
            self._build_loop()  # type: ignore[no-untyped-call]
        except KeyboardInterrupt:
            pass
        finally:
            self.shutdown(wait=True)

    def shutdown(self, wait: bool = False) -> None:
        """Stop serving and watching; for any thread. With `wait`, return only when that is done."""
        self._watcher.stop()
        # The base class would wait for an observer of its own, which never runs.
        super().shutdown(wait=False)
        if wait:
            with contextlib.suppress(RuntimeError):  # it never started
                self.serve_thread.join()

    def _build(self) -> None:
        self._watcher.renew()
        try:
            errors = [finding for finding in self._rebuild() if finding.severity == "error"]
        except (Exception, SystemExit) as error:
            log.exception("The build broke down")
            said = [*traceback.format_exception_only(error), getattr(error, "hint", "")]
            self._trouble = panel.Trouble(crash="".join(said).strip())
        else:
            self._trouble = panel.Trouble(findings=tuple(errors)) if errors else None

    # --- answering

    def _serve_request(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        """Answer from the last good site, at once: a build that goes on is no reason to wait."""
        # Read before everything else: a page that a build overtakes then asks for the older state, and is reloaded.
        epoch = self._visible_epoch
        method = environ["REQUEST_METHOD"]
        if method not in {"GET", "HEAD"}:
            body = b"Only GET and HEAD\n"
            return _answer(start_response, "405 Method Not Allowed", "text/plain; charset=utf-8", body)
        path = environ["PATH_INFO"].encode("latin-1").decode("utf-8", "replace")
        own = f"{self.mount_path}livereload/"
        if path.startswith(own):
            chunks = self._own(path.removeprefix(own), environ, start_response)
        elif not path.startswith(self.mount_path):
            chunks = self._outside(path, epoch, start_response)
        else:
            chunks = self._page(path.removeprefix(self.mount_path), epoch, environ, start_response)
        if method == "HEAD":
            if isinstance(chunks, wsgiref.util.FileWrapper):
                chunks.close()
            return []
        return chunks

    def _own(self, name: str, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        if name == "client.js":
            return _answer(start_response, "200 OK", "text/javascript; charset=utf-8", panel.CLIENT.encode())
        if name == "panel.css":
            return _answer(start_response, "200 OK", "text/css; charset=utf-8", panel.STYLES.encode())
        if re.fullmatch(r"[0-9]{1,18}/[0-9]{1,18}", name):
            held_back = super()._serve_request({**environ, "PATH_INFO": f"/livereload/{name}"}, start_response)
            return held_back or []
        return _answer(start_response, "404 Not Found", "text/plain; charset=utf-8", b"404 Not Found\n")

    def _outside(self, path: str, epoch: int, start_response: StartResponse) -> Iterable[bytes]:
        if path == "/" or f"{path}/" == self.mount_path:
            return _redirect(start_response, self.mount_path)
        return self._missing(epoch, start_response)

    def _page(self, name: str, epoch: int, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        if not (self._root / "index.html").is_file():
            page = panel.stand_in(self._trouble, mount_path=self.mount_path).encode()
            body = panel.add_to_body(page, self._reloader(epoch))
            return _answer(start_response, "503 Service Unavailable", _HTML, body)
        found = locate(self._root, f"{name}index.html" if name.endswith("/") or not name else name)
        if found is not None and (found / "index.html").is_file():
            plain = found.relative_to(self._root.resolve()).as_posix()
            return _redirect(start_response, f"{self.mount_path}{plain}/", environ.get("QUERY_STRING", ""))
        if found is None or found.is_dir():
            return self._missing(epoch, start_response)
        return self._file(found, epoch, start_response)

    def _file(self, found: Path, epoch: int, start_response: StartResponse) -> Iterable[bytes]:
        try:
            file = found.open("rb")
        except OSError:
            return self._missing(epoch, start_response)
        if found.suffix.lower() in {".html", ".htm"}:
            with file:
                return _answer(start_response, "200 OK", _HTML, self._with_additions(file.read(), epoch))
        # The length of the open file: by now its name may belong to one of the next build.
        start_response("200 OK", _headers(_content_type(found), os.fstat(file.fileno()).st_size))
        return wsgiref.util.FileWrapper(file)

    def _missing(self, epoch: int, start_response: StartResponse) -> Iterable[bytes]:
        try:
            page = (self._root / "404.html").read_bytes()
        except OSError:
            page = panel.plain_page(
                "404 Not Found", "<p>There is no such page.</p>", mount_path=self.mount_path
            ).encode()
        return _answer(start_response, "404 Not Found", _HTML, self._with_additions(page, epoch))

    def _with_additions(self, page: bytes, epoch: int) -> bytes:
        trouble = self._trouble
        shown = panel.overlay(trouble, mount_path=self.mount_path) if trouble else ""
        return panel.add_to_body(page, shown + self._reloader(epoch))

    def _reloader(self, epoch: int) -> str:
        return panel.reloader(mount_path=self.mount_path, epoch=epoch, request=next(self._requests))


def locate(root: Path, name: str) -> Path | None:
    """The file or folder below `root` that an address's path, already decoded, names; None where there is none.

    Never one outside `root`, whatever the path holds and wherever links lead.
    """
    base = root.resolve()
    plain = posixpath.normpath(f"/{name}").lstrip("/")
    try:
        found = (base / plain).resolve()
        return found if found.is_relative_to(base) and found.exists() else None
    except (OSError, RuntimeError, ValueError):  # too long, a ring of links, a null character
        return None


def _content_type(path: Path) -> str:
    suffix = path.suffix.lower()
    kind = _TYPES.get(suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return f"{kind}; charset=utf-8" if kind.startswith("text/") else kind


def _headers(content_type: str, length: int) -> list[tuple[str, str]]:
    return [("Content-Type", content_type), ("Content-Length", str(length)), ("Cache-Control", "no-store")]


def _answer(start_response: StartResponse, status: str, content_type: str, body: bytes) -> Iterable[bytes]:
    start_response(status, _headers(content_type, len(body)))
    return [body]


def _redirect(start_response: StartResponse, path: str, query: str = "") -> Iterable[bytes]:
    location = urllib.parse.quote(path) + (f"?{query}" if query else "")
    start_response("302 Found", [("Location", location), ("Content-Length", "0"), ("Cache-Control", "no-store")])
    return []
