"""A site whose service worker is installed, handed from test to test: to install it costs more than most tests do.

Behind a test it is as it was after the first visit: what was kept since is dropped, what the test did to the host is
taken back. Where more was done, such as another build in the place of the first, the next test has it installed anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page

from tests.support.offline_site import wait_for_build, wait_until_kept
from tests.support.patience import LONG
from tests.support.site_server import Switch, switched
from tests.support.two_builds import BELOW

_NEXT = "systems/"
"""A page that no test asks for."""
_KEPT = """async () => Promise.all((await caches.keys()).sort().map(async (name) =>
    [name, (await (await caches.open(name)).keys()).map(({ url }) => url).sort()]))"""
"""The names of all caches, each with the addresses in it."""
_DROP = """async (known) => {
    localStorage.clear();
    sessionStorage.clear();
    const before = new Map(known);
    for (const name of await caches.keys()) {
        if (!before.has(name)) {
            await caches.delete(name);
            continue;
        }
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
            if (!before.get(name).includes(request.url)) await cache.delete(request);
        }
    }
}"""
"""Drops what was kept since."""


class InstalledSite:
    """A host that a test can change, and a browser that has visited its home page and has the service worker."""

    def __init__(self, browser: Browser, folder: Path) -> None:
        self._folder = folder
        self.is_spoiled = False
        """Set by who changes more than can be put back: the worker itself, or what the browser lets it do."""
        self.host = Switch(folder)
        self._hosting = ExitStack()
        self.root = self._hosting.enter_context(switched(self.host, BELOW))
        self.context: BrowserContext = browser.new_context(viewport={"width": 390, "height": 844})
        self._hosting.callback(self.context.close)
        self.context.set_default_timeout(1000 * LONG)
        self.page: Page = self.context.new_page()
        self.page.goto(self.root)
        wait_for_build(self.page)
        self._kept = self._all_that_is_kept()

    def _all_that_is_kept(self) -> object:
        kept: object = self.page.evaluate(_KEPT)
        return kept

    def restored(self) -> bool:
        """Put everything back; False where that cannot be done."""
        page = self.page
        if self.is_spoiled or self.host.folder != self._folder or page.is_closed():
            return False
        self.host.reset()
        # The worker has come past the pages of the test when it has kept the next.
        page.goto(f"{self.root}{_NEXT}")
        wait_until_kept(page, f"{self.root}{_NEXT}")
        page.goto(self.root)
        page.evaluate(_DROP, self._kept)
        self.context.new_cdp_session(page).send("Network.clearBrowserCache")
        self.host.reset()
        return self._all_that_is_kept() == self._kept

    def close(self) -> None:
        """End the host, and close the browser's window."""
        self._hosting.close()


class InstalledSites:
    """Keeps an installation for the next test."""

    def __init__(self, browser: Browser, folder: Path) -> None:
        self._browser = browser
        self._folder = folder
        self._free: InstalledSite | None = None

    @contextmanager
    def site(self) -> Iterator[InstalledSite]:
        """One with the first build, as it is after the first visit."""
        site = self._free or InstalledSite(self._browser, self._folder)
        self._free = None
        is_whole = False
        try:
            yield site
            is_whole = site.restored()
        finally:
            if is_whole:
                self._free = site
            else:
                site.close()

    def close(self) -> None:
        """Close what is kept."""
        if self._free:
            self._free.close()
