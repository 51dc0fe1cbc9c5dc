"""Opens pages that note everything that should not happen on them, and pages that a service worker looks after."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from tests.support.offline_site import two_builds, wait_for_build
from tests.support.site_server import Switch, switched
from tests.support.watched import Watch, Watched, listen, without_refresh


@pytest.fixture
def watch(browser: Browser) -> Watch:
    """Opens pages that are watched."""

    @contextmanager
    def opened(*, stay: bool = False, **options: Any) -> Iterator[Watched]:
        """`stay`: a page that sends the browser on is kept where it is, to be looked at."""
        if stay:
            # A service worker fetches pages itself, past what a test puts in their way.
            options.setdefault("service_workers", "block")
        context = browser.new_context(**{"reduced_motion": "reduce", **options})
        page = context.new_page()
        watched = Watched(page=page)
        listen(watched)
        if stay:
            page.route("**/*", without_refresh)
        try:
            yield watched
        finally:
            context.close()

    return opened


@pytest.fixture(scope="session")
def builds(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The demo in two builds."""
    return two_builds(tmp_path_factory.mktemp("builds"))


@pytest.fixture
def host(builds: tuple[Path, Path]) -> Switch:
    return Switch(builds[0])


@pytest.fixture
def root(host: Switch) -> Iterator[str]:
    with switched(host, "/club/lore/") as address:
        yield address


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    opened = browser.new_context(viewport={"width": 390, "height": 844})
    yield opened
    opened.close()


@pytest.fixture
def page(context: BrowserContext, root: str) -> Page:
    """A page on the first build, its service worker at work."""
    opened = context.new_page()
    opened.goto(root)
    wait_for_build(opened)
    return opened
