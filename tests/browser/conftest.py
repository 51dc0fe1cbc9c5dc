"""Opens pages that note everything that should not happen on them, and pages that a service worker looks after."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from kbtools.checkplan.problem import Problem
from kbtools.index.answers import Index
from tests.support.demo_plans import demo_index, demo_problems
from tests.support.installed_site import InstalledSite, InstalledSites
from tests.support.lent_pages import Pages
from tests.support.patience import LONG
from tests.support.site_server import Switch, switched
from tests.support.two_builds import BELOW
from tests.support.watched import Watch, Watched, listen, without_refresh

# What is expected of a page comes in the end; how soon says nothing on a busy machine.
expect.set_options(timeout=1000 * LONG)


@pytest.fixture(scope="session")
def index() -> Index:
    """The demo, indexed; only read."""
    return demo_index()


@pytest.fixture(scope="session")
def problems(index: Index) -> dict[str, Problem]:
    """Fault of the demo → what its plan is made from."""
    return demo_problems(index)


@pytest.fixture(scope="session")
def lent_pages(browser: Browser) -> Pages:
    """The worker's pages, which go from test to test."""
    return Pages(browser)


@pytest.fixture
def watch(browser: Browser, lent_pages: Pages) -> Watch:
    """Opens pages that are watched."""

    @contextmanager
    def own_page(**options: Any) -> Iterator[Page]:
        context = browser.new_context(reduced_motion="reduce", **options)
        context.set_default_timeout(1000 * LONG)
        try:
            yield context.new_page()
        finally:
            context.close()

    @contextmanager
    def opened(*, stay: bool = False, **options: Any) -> Iterator[Watched]:
        """`stay`: a page that sends the browser on is kept where it is, to be looked at.

        No service worker, unless asked for by `service_workers="allow"`: it would fetch half the site for each test.
        """
        with (own_page if "service_workers" in options else lent_pages.page)(**options) as page:
            watched = Watched(page=page)
            listen(watched)
            if stay:
                # Only where it must be: every request of every page makes a detour by it.
                page.route("**/*", without_refresh)
            yield watched

    return opened


@pytest.fixture(scope="session")
def installed_sites(browser: Browser, builds: tuple[Path, Path]) -> Iterator[InstalledSites]:
    """The worker's one installation, which goes from test to test."""
    sites = InstalledSites(browser, builds[0])
    yield sites
    sites.close()


@pytest.fixture
def installed(installed_sites: InstalledSites) -> Iterator[InstalledSite]:
    """A site, and a browser that has its service worker."""
    with installed_sites.site() as site:
        yield site


@pytest.fixture
def host(installed: InstalledSite) -> Switch:
    return installed.host


@pytest.fixture
def root(installed: InstalledSite) -> str:
    return installed.root


@pytest.fixture
def page(installed: InstalledSite) -> Page:
    """A page on the first build, its service worker at work."""
    return installed.page


@pytest.fixture
def new_host(builds: tuple[Path, Path]) -> Switch:
    """One that nobody has visited yet."""
    return Switch(builds[0])


@pytest.fixture
def new_root(new_host: Switch) -> Iterator[str]:
    with switched(new_host, BELOW) as address:
        yield address


@pytest.fixture
def new_page(browser: Browser) -> Iterator[Page]:
    """A page of a browser that has visited nothing."""
    context = browser.new_context(viewport={"width": 390, "height": 844})
    context.set_default_timeout(1000 * LONG)
    yield context.new_page()
    context.close()
