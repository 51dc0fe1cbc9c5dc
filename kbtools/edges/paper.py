"""The edge that prints: a page without a site, and a browser on this machine that makes a PDF of it.

The page brings its styles and may fetch nothing, and the browser is told that there is no network. It runs with a
profile of its own that is thrown away, and is ended with all that it started if it takes too long.
"""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from markupsafe import Markup

from kbtools.edges.rendering import Renderer
from kbtools.edges.shipped import shipped
from kbtools.pages.spec import PageSpec

BROWSERS: Final = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
"""Names under which a browser that prints is looked for, the first one that is there is taken."""
PATIENCE: Final = 180.0
"""Seconds for printing; a handbook takes a few."""

_STYLES: Final = ("tokens", "base", "shell", "article", "handbook")
_FLAGS: Final = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-extensions"),
    *("--no-first-run", "--no-default-browser-check", "--host-resolver-rules=MAP * ~NOTFOUND"),
    "--no-pdf-header-footer",
)
_A4: Final = "@page { size: A4 }"
"""A browser without a printer takes another size."""
_SHEET: Final = re.compile(rb"/Type\s*/Page\b")


class PrintError(Exception):
    """Nothing was printed."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        """What is wrong, one sentence."""
        self.hint = hint
        """What to do about it, one sentence."""


def browser() -> str:
    """The path of a browser that prints.

    Raises:
        PrintError: there is none.
    """
    found = next((path for name in BROWSERS if (path := shutil.which(name)) is not None), None)
    if found is None:
        raise PrintError(
            f"No browser that prints was found: none of {', '.join(BROWSERS)} is on the PATH",
            "Install Chromium, or print the handbook's page of the site from any browser.",
        )
    return found


def paper_page(spec: PageSpec, renderer: Renderer, made: str, **extra: object) -> bytes:
    """A page as a file of its own, its styles in it.

    Args:
        spec: the page.
        renderer: knows the addresses that it links to, and how.
        made: day, for the foot of each sheet.
        extra: what its template is given besides its context.
    """
    folder = shipped("site_overrides") / "assets" / "css"
    styles = "\n".join([*((folder / f"{name}.css").read_text(encoding="utf-8") for name in _STYLES), _A4])
    page = renderer.partial(
        "_paper.html",
        title=spec.title,
        kind=spec.kind,
        made=made,
        styles=Markup(styles),  # noqa: S704 - our own files, in which no element ends
        article=renderer.article(spec, **extra),
    )
    return str(page).encode()


def printed(page: bytes, command: Sequence[str], patience: float = PATIENCE) -> bytes:
    """The PDF of a page.

    Args:
        page: HTML that needs no other file.
        command: the browser, and what it needs to be started with.
        patience: seconds after which it is ended.

    Raises:
        PrintError: the browser does not start, takes too long, fails, or leaves no whole PDF.
    """
    with tempfile.TemporaryDirectory(prefix="kbtools-paper-", ignore_cleanup_errors=True) as name:
        folder = Path(name)
        source, target = folder / "page.html", folder / "page.pdf"
        source.write_bytes(page)
        own = (f"--user-data-dir={folder / 'profile'}", f"--print-to-pdf={target}", source.as_uri())
        _run([*command, *_FLAGS, *own], patience)
        content = target.read_bytes() if target.is_file() else b""
    if not content.startswith(b"%PDF-") or b"%%EOF" not in content[-1024:]:
        raise PrintError("The browser left no whole PDF", "Try again, or print the handbook's page of the site.")
    return content


def sheets(pdf: bytes) -> int:
    """How many sheets a PDF of such a browser has: it writes its list of pages unpacked."""
    return len(_SHEET.findall(pdf))


def _run(command: Sequence[str], patience: float) -> None:
    hint = "Try it by hand, or print the handbook's page of the site."
    try:
        # A session of its own, so that all that it starts can be ended with it.
        process = subprocess.Popen(  # noqa: S603 - no shell; what is started was found on the PATH
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
    except OSError as error:
        raise PrintError(f"{command[0]} does not start ({error.strerror or error})", hint) from error
    try:
        status = process.wait(patience)
    except subprocess.TimeoutExpired as error:
        raise PrintError(f"{command[0]} did not end within {patience:.0f} seconds", hint) from error
    finally:
        _end(process)
    if status != 0:
        raise PrintError(f"{command[0]} ended with {status}", hint)


def _end(process: subprocess.Popen[bytes]) -> None:
    """End what still runs of a browser, its helpers among it."""
    if hasattr(os, "killpg"):
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGKILL)
    else:
        process.kill()
    process.wait()
