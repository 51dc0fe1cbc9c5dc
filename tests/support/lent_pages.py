"""Pages that are lent to one test after the other: to open one anew costs more than what most tests do on it.

A page comes back empty: nothing stored, nobody listening, no route, no emulation. One of which that is not certain,
since it was changed in a way that cannot be undone or since its test failed, is closed instead.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any
from urllib.parse import urlsplit

from playwright.sync_api import Browser, CDPSession, Page

from tests.support.patience import LONG

_USUAL = {"color_scheme": "light", "reduced_motion": "reduce"}
_ON_THE_PAGE = {"viewport", *_USUAL}
"""Options that a page can be given at any time; with others a context of its own is made for each value."""
_VIEWPORT = {"width": 1280, "height": 720}
_LEAVE = """() => {
    sessionStorage.clear();
    return Date.toString().includes("[native code]");
}"""
"""Forgets what the tab remembers, and tells whether the clock is the browser's own."""


class _Lent:
    """One page, and what its test does to it."""

    def __init__(self, browser: Browser, made_of: dict[str, Any]) -> None:
        self._context = browser.new_context(service_workers="block", **made_of)
        self._context.set_default_timeout(1000 * LONG)
        self.page = self._context.new_page()
        self._chrome: CDPSession = self._context.new_cdp_session(self.page)
        self._origins: set[str] = set()
        self._listeners: list[tuple[str, Callable[..., Any]]] = []
        self._scripts: list[str] = []
        self._on = self.page.on
        self._on("request", self._note)
        self.page.on = self._listen  # type: ignore[assignment,method-assign]
        self.page.add_init_script = self._begin_with  # type: ignore[assignment,method-assign]
        self._chrome.send("Page.enable")

    def _note(self, request: Any) -> None:
        parts = urlsplit(request.url)
        if request.is_navigation_request() and parts.scheme == "http":
            self._origins.add(f"{parts.scheme}://{parts.netloc}")

    def _listen(self, event: Any, handler: Callable[..., Any]) -> None:
        self._listeners.append((event, handler))
        self._on(event, handler)

    def _begin_with(self, script: str) -> None:
        # As Playwright does it, which has no way to take a script out again.
        told = self._chrome.send("Page.addScriptToEvaluateOnNewDocument", {"source": script})
        self._scripts.append(told["identifier"])

    def dress(self, options: dict[str, Any]) -> None:
        """Give it the look that is asked for."""
        self.page.set_viewport_size(options.get("viewport", _VIEWPORT))
        self.page.emulate_media(**{**_USUAL, **{name: options[name] for name in _USUAL if name in options}})

    def empty(self) -> bool:
        """Make it as if it were new; False where that cannot be done."""
        page = self.page
        if page.is_closed() or len(self._origins) != 1:
            return False
        for other in self._context.pages:
            if other is not page:
                other.close()
        for event, handler in self._listeners:
            page.remove_listener(event, handler)
        for script in self._scripts:
            self._chrome.send("Page.removeScriptToEvaluateOnNewDocument", {"identifier": script})
        self._listeners.clear()
        self._scripts.clear()
        page.unroute_all()
        if page.url.startswith("http") and not page.evaluate(_LEAVE):
            return False
        page.goto("about:blank")
        page.mouse.move(0, 0)
        page.emulate_media(media="null", forced_colors="null")
        origin = self._origins.pop()
        self._chrome.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": "all"})
        self._context.clear_cookies()
        return True

    def close(self) -> None:
        """For good."""
        self._context.close()


class Pages:
    """Lends pages of one browser."""

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._free: defaultdict[str, list[_Lent]] = defaultdict(list)

    @contextmanager
    def page(self, **options: Any) -> Iterator[Page]:
        """An empty page in a context with these options, without service workers."""
        made_of = {name: value for name, value in options.items() if name not in _ON_THE_PAGE}
        free = self._free[repr(sorted(made_of.items()))]
        lent = free.pop() if free else _Lent(self._browser, made_of)
        is_empty = False
        try:
            lent.dress(options)
            yield lent.page
            is_empty = lent.empty()
        finally:
            if is_empty:
                free.append(lent)
            else:
                lent.close()
