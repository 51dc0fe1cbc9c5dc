"""Opens pages that note everything that should not happen on them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from playwright.sync_api import Browser

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
