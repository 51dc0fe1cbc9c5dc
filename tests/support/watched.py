"""Pages that note everything that should not happen on them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import axe_playwright_python
from playwright.sync_api import Page, Route

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
AXE_TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
_SENT_ON = re.compile(r'<meta http-equiv="refresh"[^>]*>| data-moved="[^"]*"')


@dataclass(kw_only=True)
class Watched:
    """A page and what went wrong on it."""

    page: Page
    complaints: list[str] = field(default_factory=list)
    """Errors on the console, errors of scripts, dialogs, requests that fail."""
    foreign: list[str] = field(default_factory=list)
    """Requests to another host."""

    def axe(self) -> list[str]:
        """What axe-core finds under WCAG 2.2 AA: rule, then the elements."""
        if not self.page.evaluate("() => 'axe' in window"):
            self.page.evaluate(AXE)
        options = {"runOnly": {"type": "tag", "values": AXE_TAGS}, "resultTypes": ["violations"]}
        found: dict[str, Any] = self.page.evaluate("(options) => axe.run(document, options)", options)
        return [
            f"{each['id']}: {node['target']} {node['html'][:120]} {node.get('failureSummary', '')}"
            for each in found["violations"]
            for node in each["nodes"]
        ]


Watch = Callable[..., Any]
"""Opens a context with the given options; a context manager that gives a `Watched`."""


def listen(watched: Watched) -> None:
    """Note what should not happen."""
    page, complaints = watched.page, watched.complaints

    def on_console(message: Any) -> None:
        # A browser reports the status of a missing page as an error; that status is what the test asks for.
        is_own_status = message.location.get("url") == page.url and "status of 404" in message.text
        is_blocked_worker = "Service Worker registration blocked by Playwright" in message.text
        if message.type in {"error", "warning"} and not is_own_status and not is_blocked_worker:
            complaints.append(f"console: {message.text}")

    def on_request(request: Any) -> None:
        parts = urlsplit(request.url)
        if parts.scheme in {"http", "https", "ws", "wss"} and parts.hostname != "127.0.0.1":
            watched.foreign.append(request.url)

    def on_response(response: Any) -> None:
        if response.status >= 400 and not response.request.is_navigation_request():
            complaints.append(f"{response.status}: {response.url}")

    def on_dialog(dialog: Any) -> None:
        complaints.append(f"dialog: {dialog.message}")
        dialog.dismiss()

    page.on("console", on_console)
    page.on("pageerror", lambda error: complaints.append(f"script: {error}"))
    page.on("request", on_request)
    page.on("response", on_response)
    page.on("dialog", on_dialog)


def without_refresh(route: Route) -> None:
    """Let a page through without what sends the browser on."""
    if route.request.resource_type != "document":
        route.continue_()
        return
    answer = route.fetch()
    route.fulfill(response=answer, body=_SENT_ON.sub("", answer.text()))
