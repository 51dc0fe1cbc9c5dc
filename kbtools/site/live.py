"""The server behind `kbtools serve`: the site while it is being written, with findings on top of the last good one."""

from __future__ import annotations

import contextlib
import hashlib
import json
import logging
import os
import traceback
import urllib.parse
import webbrowser
import wsgiref.simple_server
import wsgiref.util
from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from mkdocs.livereload import LiveReloadServer

from kbtools.diagnostics import Finding
from kbtools.site import panel
from kbtools.site.answering import HTML, answer, content_type, headers, locate, redirect
from kbtools.site.earlier import FOLDER, Earlier
from kbtools.site.shown import NOTHING_THERE, Shown, file_at
from kbtools.site.watching import Watcher

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

log = logging.getLogger(__name__)


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
    """Serves the folder `root` below `mount_path`, rebuilds it when a watched file changes, and tells browsers.

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
        self._earlier = Earlier(root, self._visible_epoch)
        self._shown = Shown(root)
        self._watcher = Watcher(self.request_rebuild, leave_out=[root, self._earlier.place])
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
            self._earlier.close()

    def _build(self) -> None:
        self._watcher.renew()
        self._earlier.keep(self._visible_epoch)
        try:
            errors = [finding for finding in self._rebuild() if finding.severity == "error"]
        except (Exception, SystemExit) as error:
            log.exception("The build broke down")
            said = [*traceback.format_exception_only(error), getattr(error, "hint", "")]
            self._trouble = panel.Trouble(crash="".join(said).strip())
        else:
            self._trouble = panel.Trouble(findings=tuple(errors)) if errors else None
        self._shown.renew()

    # --- answering

    def _serve_request(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        """Answer from the last good site, at once: a build that goes on is no reason to wait."""
        method = environ["REQUEST_METHOD"]
        if method not in {"GET", "HEAD"}:
            body = b"Only GET and HEAD\n"
            return answer(start_response, "405 Method Not Allowed", "text/plain; charset=utf-8", body)
        path = environ["PATH_INFO"].encode("latin-1").decode("utf-8", "replace")
        own = f"{self.mount_path}livereload/"
        if path.startswith(own):
            chunks = self._own(path.removeprefix(own), environ, start_response)
        elif path.startswith(self.mount_path):
            chunks = self._page(path.removeprefix(self.mount_path), environ, start_response)
        elif path == "/" or f"{path}/" == self.mount_path:
            chunks = redirect(start_response, self.mount_path)
        else:
            chunks = self._missing(None, start_response)
        if method == "HEAD":
            if isinstance(chunks, wsgiref.util.FileWrapper):
                chunks.close()
            return []
        return chunks

    def _own(self, name: str, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        if name == "client.js":
            return answer(start_response, "200 OK", "text/javascript; charset=utf-8", panel.CLIENT.encode())
        if name == "panel.css":
            return answer(start_response, "200 OK", "text/css; charset=utf-8", panel.STYLES.encode())
        if name == "state":
            asked = dict(urllib.parse.parse_qsl(environ.get("QUERY_STRING", ""), keep_blank_values=True))
            return answer(start_response, "200 OK", "application/json", json.dumps(self._news(asked)).encode())
        return answer(start_response, "404 Not Found", "text/plain; charset=utf-8", b"404 Not Found\n")

    def _news(self, asked: Mapping[str, str]) -> dict[str, str]:
        """Whether a page is still what it was, and what is to be said on it; held back while both are as `asked`."""
        path = urllib.parse.unquote(asked.get("at", ""))
        name = path.removeprefix(self.mount_path) if path.startswith(self.mount_path) else None
        since = asked.get("since", "")
        news: dict[str, str] = {}

        def is_news() -> bool:
            # In each round, since a page may lose what it would fetch.
            outdated = not since.isdecimal() or int(since) < self._earlier.oldest
            said = self._said(name)
            page = "" if outdated else self._standing(name, asked.get("page", ""))
            news.update(page=page, panel=_digest(said), html=said)
            return any(news[part] != asked.get(part) for part in ("page", "panel"))

        with self._epoch_cond:
            self._epoch_cond.wait_for(is_news, timeout=self.poll_response_timeout)
        return news

    def _standing(self, name: str | None, before: str) -> str:
        """Digest of what stands at an address where the digest `before` stood; None: an address outside the site."""
        if name is None:
            return NOTHING_THERE
        if not self._is_built:
            return _digest(panel.stand_in(self._trouble, mount_path=self.mount_path))
        now = self._shown.standing(name)
        # Who shows no page of the site, but that there is none yet, has nothing to stay for.
        return "" if now == NOTHING_THERE != before and not self._shown.is_gone(name) else now

    def _said(self, name: str | None) -> str:
        """The panel on the page at an address."""
        if not self._is_built:
            return ""
        return panel.overlay(
            self._trouble, mount_path=self.mount_path, gone=name is not None and self._shown.is_gone(name)
        )

    @property
    def _is_built(self) -> bool:
        return (self._root / "index.html").is_file()

    def _page(self, name: str, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        # Read before everything else: a page that a build overtakes is then taken to be of the older site.
        epoch = self._visible_epoch
        if not self._is_built:
            page = panel.stand_in(self._trouble, mount_path=self.mount_path)
            body = self._with_additions(name, page.encode(), _digest(page), epoch)
            return answer(start_response, "503 Service Unavailable", HTML, body)
        found = file_at(self._root, name)
        if found is not None and (found / "index.html").is_file():
            plain = found.relative_to(self._root.resolve()).as_posix()
            return redirect(start_response, f"{self.mount_path}{plain}/", environ.get("QUERY_STRING", ""))
        if found is None and name.startswith(f"{FOLDER}/"):
            found = locate(self._earlier.place, name)
        try:
            file = found.open("rb") if found is not None else None
        except OSError:  # a folder, or gone in this moment
            file = None
        if found is None or file is None:
            return self._missing(name, start_response)
        if found.suffix.lower() in {".html", ".htm"}:
            with file:
                content = file.read()
            body = self._with_additions(name, content, self._shown.given(name, content), epoch)
            return answer(start_response, "200 OK", HTML, body)
        # The length of the open file: by now its name may belong to one of the next build.
        start_response("200 OK", headers(content_type(found), os.fstat(file.fileno()).st_size))
        return wsgiref.util.FileWrapper(file)

    def _missing(self, name: str | None, start_response: StartResponse) -> Iterable[bytes]:
        epoch = self._visible_epoch
        try:
            page = (self._root / "404.html").read_bytes()
        except OSError:
            inner = "<p>There is no such page.</p>"
            page = panel.plain_page("404 Not Found", inner, mount_path=self.mount_path).encode()
        body = self._with_additions(name, page, NOTHING_THERE, epoch)
        return answer(start_response, "404 Not Found", HTML, body)

    def _with_additions(self, name: str | None, page: bytes, digest: str, epoch: int) -> bytes:
        said = self._said(name)
        script = panel.page_script(mount_path=self.mount_path, page=digest, panel=_digest(said), since=epoch)
        return panel.add_to_body(page, said + script)


def _digest(said: str) -> str:
    return hashlib.blake2b(said.encode(), digest_size=12).hexdigest()
