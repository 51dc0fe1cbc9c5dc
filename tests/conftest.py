"""What several test modules need: the demo's site, a browser, a static host. Made at most once a process."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, sync_playwright

from tests.support.places import ROOT
from tests.support.site_server import served

# How long one example takes says nothing on a busy machine.
settings.register_profile("patient", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("patient")

Serve = Callable[..., str]
"""From a folder (and `below="/a/path/"`) to the address at which it is served."""


@pytest.fixture(autouse=True, scope="session")
def own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test reads or fills the cache of whoever runs it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("KBTOOLS_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo knowledge base, built by the command line."""
    site = tmp_path_factory.mktemp("demo") / "site"
    command = [sys.executable, "-m", "kbtools", "build", "--kb", "kb", "--site-dir", str(site)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        pytest.fail(f"The demo could not be built:\n{done.stdout}\n{done.stderr}", pytrace=False)
    return site


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """The system's Chromium; `KBTOOLS_CHROMIUM` names another one."""
    named = os.environ.get("KBTOOLS_CHROMIUM")
    if named:
        if shutil.which(named) is None:
            pytest.fail(f"KBTOOLS_CHROMIUM names {named}, which is no program that can be run.", pytrace=False)
        return named
    for name in ("/usr/bin/chromium", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable"):
        found = shutil.which(name)
        if found is not None:
            return found
    pytest.fail(
        "These tests need a browser. Install Chromium (Debian, Ubuntu: apt install chromium; Fedora: dnf install "
        "chromium; macOS: brew install --cask chromium), or set KBTOOLS_CHROMIUM to the path of one.",
        pytrace=False,
    )


@pytest.fixture(scope="session")
def browser(chromium_path: str) -> Iterator[Browser]:
    """One browser for the whole run; tests open contexts of their own in it."""
    arguments = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium_path, args=arguments)
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def serve() -> Iterator[Serve]:
    """Serves folders until the end of the run, each folder once at each path."""
    with ExitStack() as stack:
        known: dict[tuple[Path, str], str] = {}

        def serve_folder(folder: Path, below: str = "/") -> str:
            if (folder, below) not in known:
                known[folder, below] = stack.enter_context(served(folder, below))
            return known[folder, below]

        yield serve_folder
