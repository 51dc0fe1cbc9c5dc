"""A live server with a build that costs nothing: each file of plain text is a page, and all are on the home page."""

from __future__ import annotations

import contextlib
import http.client
import json
import re
import threading
import time
import urllib.parse
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from kbtools.diagnostics import Finding, Mark
from kbtools.edges.publish import publish
from kbtools.site.live import LiveSite
from tests.support.patience import LONG, eventually

POLICY = "<meta http-equiv=Content-Security-Policy content=\"script-src 'self'; style-src 'self'; connect-src 'self'\">"
"""What the site's own pages carry, as far as it bears on what may be added to them."""


HOSTILE = "</aside><script>document.title = 'ran'</script><img src=x onerror=alert(1)> & \"q\" \x00\u202e"


class Desk:
    """A knowledge base of plain text, a build of it, and the server."""

    def __init__(self, folder: Path, mount_path: str = "/") -> None:
        self.kb = folder / "kb"
        self.kb.mkdir()
        self.root = folder / "served"
        self.config = folder / "config.txt"
        self.config.write_text("config")
        self.builds = 0
        self.mount = mount_path
        self.before_build: Callable[[], None] = lambda: None
        self.server = LiveSite("127.0.0.1", 0, self.root, mount_path, self.rebuild)
        self.server.watch(self.kb)
        self.server.watch(self.config)
        self.thread = threading.Thread(target=self.server.serve)

    def rebuild(self) -> Sequence[Finding]:
        """The texts of all files on the home page; `!error` in one is a finding, `!crash` a fault of the build."""
        self.builds += 1
        files = sorted(path for path in self.kb.rglob("*") if path.is_file()) if self.kb.is_dir() else []
        text = " ".join(path.read_text() for path in [*files, self.config])
        self.before_build()
        if "!crash" in text:
            raise RuntimeError(text)
        if "!error" in text:
            return [finding(text, "error"), finding("Only a warning", "warning")]

        def build(folder: Path) -> None:
            page = (
                f"<!doctype html><html lang=en><head>{POLICY}<title>t</title></head><body><p>{text}</p></body></html>"
            )
            (folder / "index.html").write_text(page)
            (folder / "404.html").write_text("<html><body>own not found page</body></html>")
            (folder / "faults" / "wet").mkdir(parents=True)
            (folder / "faults" / "wet" / "index.html").write_text("<html><body>wet</body></html>")
            (folder / "favicon.ico").write_bytes(b"")  # browsers ask for it unbidden
            (folder / "data.json").write_text('{"a": 1}')
            (folder / "data" / f"finder-{self.builds:012}").mkdir(parents=True)
            (folder / "data" / f"finder-{self.builds:012}" / "root.json").write_text(f"[{self.builds}]")
            for path in files:
                (folder / path.stem).mkdir()
                (folder / path.stem / "index.html").write_text(_page(path.read_text(), self.builds))

        publish(self.root, build, durable=False)
        return [finding("Only a warning", "warning")]

    def get(self, path: str = "", method: str = "GET") -> tuple[int, dict[str, str], str]:
        """Status, headers (lower case) and text for an address below the mount path, or an absolute one."""
        connection = http.client.HTTPConnection("127.0.0.1", self.server.server_port, timeout=LONG)
        with contextlib.closing(connection):
            connection.request(method, path if path.startswith("/") else self.mount + path)
            answer = connection.getresponse()
            headers = {name.lower(): value for name, value in answer.getheaders()}
            return answer.status, headers, answer.read().decode()

    def wait(self, shows: Callable[[], bool]) -> None:
        eventually(shows, lambda: f"the page is\n{self.get()[2]}")

    def wait_for(self, word: str) -> None:
        self.wait(lambda: word in self.get()[2])

    def rest(self, pause: float = 0.8) -> int:
        """Builds so far, once none came for `pause` seconds: notices of moves out of a folder take half a second."""
        before = -1
        while before != self.builds:
            before = self.builds
            time.sleep(pause)
        return before


def _page(text: str, build: int) -> str:
    """A page higher than any screen, with what a reader may change on it; the build and its data differ each time."""
    rows = "".join(f"<p id=row-{number}>Row {number}</p>" for number in range(200))
    return (
        f'<!doctype html><html lang=en><head>{POLICY}<meta name="build" content="{build}"><title>t</title></head><body>'
        f"<main><h1>{text}</h1><details><summary>More</summary>Folded</details><label>Find "
        f'<input id=finder type=search data-src="../data/finder-{build:012}/root.json"></label>'
        f"{rows}</main></body></html>"
    )


def finding(message: str, severity: str) -> Finding:
    assert severity in {"error", "warning"}
    return Finding(
        rule="KB201",
        severity="error" if severity == "error" else "warning",
        path="kb/faults/<b>.yml",
        mark=Mark(line=7, column=3),
        message=message,
        hint="Write <one> of them",
    )


@contextlib.contextmanager
def running(desk: Desk, word: str = "first") -> Iterator[Desk]:
    (desk.kb / "a.txt").write_text(word)
    desk.server.bind()
    desk.thread.start()
    try:
        desk.wait(lambda: desk.builds > 0)
        desk.rest(0.2)
        yield desk
    finally:
        desk.server.shutdown(wait=True)
        desk.thread.join(LONG)
        assert not desk.thread.is_alive()


def write(desk: Desk) -> None:
    """An edit, as plain as can be."""
    (desk.kb / "a.txt").write_text("second")


def state_of(desk: Desk, path: str = "") -> dict[str, str]:
    """What a page knows of itself when it asks."""
    page = desk.get(path)[2]
    return {"at": f"{desk.mount}{path}", **dict(re.findall(r'data-(page|panel|since)="([^"]*)"', page))}


def news(desk: Desk, asked: dict[str, str]) -> dict[str, str]:
    """What a page that knows this of itself is told, once there is something to tell."""
    told: dict[str, str] = json.loads(desk.get(f"livereload/state?{urllib.parse.urlencode(asked)}")[2])
    return told
