"""Opens pages that note everything that should not happen on them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from tests.support.patience import LONG
from tests.support.shared import Shared
from tests.support.two_builds import build_twice
from tests.support.watched import Watch, Watched, listen, without_refresh

# What is expected of a page comes in the end; how soon says nothing on a busy machine.
expect.set_options(timeout=1000 * LONG)


@pytest.fixture(scope="session")
def builds(shared: Shared) -> tuple[Path, Path]:
    """The demo twice, for a site below a path; on the second one every fault has another reason in its ride advice."""
    folder = shared.folder("builds", build_twice)
    return folder / "first", folder / "second"


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
        context.set_default_timeout(1000 * LONG)
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
