"""`kbtools serve`: build at each change, keep the last good site, show what is wrong on top of it."""

from __future__ import annotations

import functools
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path

from kbtools.diagnostics import START, Finding
from kbtools.edges import cache, clock
from kbtools.edges.checking import check
from kbtools.edges.publish import publish
from kbtools.edges.shipped import shipped, templates
from kbtools.site.building import BuildProblemError, build_site, config_file, own_overrides
from kbtools.site.last_build import Stood
from kbtools.site.live import LiveSite


def serve_site(folder: Path, host: str, port: int, *, open_browser: bool, tell: Callable[[str], None]) -> None:
    """Serve until Ctrl-C.

    Args:
        folder: the knowledge base.
        host: address to listen on.
        port: 0 lets the system choose one.
        open_browser: whether to open the site.
        tell: is given each line for the user.

    Raises:
        ServeError: the address is taken.
    """
    with tempfile.TemporaryDirectory(prefix="kbtools-serve-") as place:
        root = Path(place) / "site"
        server = LiveSite(host, port, root, "/", lambda: rebuild(folder, root))
        config, _ = config_file(folder)
        for watched in {
            folder,
            shipped("site_overrides"),
            shipped("schemas"),
            templates(),
            config,
            *own_overrides(folder),
        }:
            server.watch(watched)
        tell(f"Serving {folder} at {server.bind()} (Ctrl-C ends it)")
        server.serve(open_in_browser=open_browser)


def rebuild(folder: Path, root: Path) -> Sequence[Finding]:
    """Check and build once; the site in `root` stays if anything is wrong."""
    today = clock.today()
    result = check(folder, today, cache.place())
    if not result.sound:
        return result.findings
    try:
        build = functools.partial(build_site, today=today, findings=result.findings, serving=True)
        spare = root.with_name("spare")
        stood = Stood(site=root, spare=spare)
        publish(root, lambda target: build(result.base, folder, target, stood=stood), durable=False, spare=spare)
    except BuildProblemError as error:
        return [
            Finding(
                rule="MkDocs", severity="error", path=str(folder), mark=START, message=error.message, hint=error.hint
            )
        ]
    return result.findings
