"""Opens pages that note everything that should not happen on them, and pages that a service worker looks after."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from kbtools.checkplan.problem import Problem
from kbtools.index.answers import Index
from tests.support.demo_plans import demo_index, demo_problems
from tests.support.lent_pages import Pages
from tests.support.offline_site import wait_for_build
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


@pytest.fixture
def host(builds: tuple[Path, Path]) -> Switch:
    return Switch(builds[0])


@pytest.fixture
def root(host: Switch) -> Iterator[str]:
    with switched(host, BELOW) as address:
        yield address


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    opened = browser.new_context(viewport={"width": 390, "height": 844})
    opened.set_default_timeout(1000 * LONG)
    yield opened
    opened.close()


@pytest.fixture
def page(context: BrowserContext, root: str) -> Page:
    """A page on the first build, its service worker at work."""
    opened = context.new_page()
    opened.goto(root)
    wait_for_build(opened)
    return opened
