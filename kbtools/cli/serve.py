"""`kbtools serve`: the site while it is being written."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import kb_option
from kbtools.cli.output import say


@click.command()
@kb_option
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option("--port", type=click.IntRange(0, 65535), default=8000, show_default=True)
@click.option("--open", "open_browser", is_flag=True, help="Open the site in a browser.")
def serve(folder: Path, host: str, port: int, *, open_browser: bool) -> None:
    """Show the site and build it again whenever a file changes.

    A mistake is shown on top of the last good site; the server goes on. Ctrl-C ends it.
    """
    # MkDocs takes long to load, and the other commands do without it.
    from kbtools.site.live import ServeError  # noqa: PLC0415
    from kbtools.site.serving import serve_site  # noqa: PLC0415

    try:
        serve_site(folder, host, port, open_browser=open_browser, tell=lambda line: say(f"{line}\n"))
    except ServeError as error:
        say(f"{error.message}\n    {error.hint}\n", err=True)
        raise SystemExit(1) from error
