"""What several test modules need: the demo's site, a browser, a static host; and how tests run side by side.

Sites are built once a run and shared by all workers; browser and hosts are each worker's own.
"""

from __future__ import annotations

import gc
import importlib
import os
import shutil
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, sync_playwright

from tests.support.places import DEMO, ROOT, TESTS
from tests.support.shared import Shared, built
from tests.support.site_server import served
from tests.support.two_builds import build_twice

# How long one example takes says nothing on a busy machine. Each run tries others, so a few of them do each time.
for name, examples in (("patient", 20), ("thorough", 100)):
    settings.register_profile(name, deadline=None, max_examples=examples, suppress_health_check=[HealthCheck.too_slow])

# Modules, tests and what is made once stay to the end: looking through them for garbage again and again takes a quarter
# of what collecting them takes, and a twentieth of the tests.
gc.set_threshold(50_000, 20, 50)

_LEFT_OUT = (
    # Two lists that drop down from the address bar, each a page with a process of its own for every window. Nobody
    # types an address here, and they cost more than the pages under test.
    *("WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "PreloadTopChromeWebUI", "SpareRendererForSitePerProcess"),
    # Chromium heeds the last of such lists only, so what Playwright leaves out that bears on pages stands here as well.
    *("AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades", "LensOverlay"),
    *("HttpsFirstBalancedModeAutoEnable", "MediaRouter", "PaintHolding", "ThirdPartyStoragePartitioning"),
    *("AvoidCorsURLLoaderRestartOnRedirect", "OptimizationHints", "NetworkTimeServiceQuerying", "AimEnabled"),
    "PreconnectToSearch",
)
"""Features of Chromium; names that a version does not know mean nothing to it."""
CHROMIUM_FLAGS = [
    *("--no-sandbox", "--disable-gpu", "--disable-background-networking"),
    # Nothing here needs drawing in three dimensions, and a page's scripts are through before making them faster pays:
    # together a fifth of what a page costs.
    *("--disable-software-rasterizer", "--js-flags=--interrupt-budget=4000000"),
    f"--disable-features={','.join(_LEFT_OUT)}",
]

Serve = Callable[..., str]
"""From a folder (and `below="/a/path/"`) to the address at which it is served."""


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--thorough`: all of what is tried, where a run by itself takes a sample."""
    parser.addoption("--thorough", action="store_true", help="all of what is otherwise sampled: twice as long")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what is marked as thorough, unless it is asked for, all of it or by name."""
    if config.option.thorough or any("::" in each for each in config.args):
        return
    left = [each for each in items if each.get_closest_marker("thorough") is not None]
    items[:] = [each for each in items if each.get_closest_marker("thorough") is None]
    config.hook.pytest_deselected(items=left)


def pytest_configure(config: pytest.Config) -> None:
    """Choose how many examples a property is tried with, unless its own test says so."""
    settings.load_profile("thorough" if config.option.thorough else "patient")


@pytest.hookimpl(tryfirst=True)
def pytest_collection(session: pytest.Session) -> None:
    """Each worker begins with other modules, so that one alone rewrites the assertions of each and compiles it."""
    worker = os.environ.get("PYTEST_XDIST_WORKER", "")
    if not worker or sys.dont_write_bytecode:
        return
    asked = [ROOT / each.partition("::")[0] for each in session.config.args]
    modules = [each for each in sorted(TESTS.rglob("test_*.py")) if any(map(each.is_relative_to, asked))]
    first = int(worker.removeprefix("gw")) * len(modules) // int(os.environ["PYTEST_XDIST_WORKER_COUNT"])
    for path in modules[first:] + modules[:first]:
        # What cannot be imported is told where it is collected.
        with suppress(Exception, pytest.skip.Exception):
            importlib.import_module(".".join(path.relative_to(ROOT).with_suffix("").parts))


def pytest_collection_finish() -> None:
    """Have the collector of garbage leave alone what is there by now."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session")
def thorough(pytestconfig: pytest.Config) -> bool:
    """Whether all is tried, for tests that otherwise take a sample of many alike."""
    return bool(pytestconfig.option.thorough)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """No workers for a choice of few tests, which would be done before the workers have started; `-n 2` asks for them.

    Else one more than there are cores: tests of servers and of pages wait a good part of their time.
    """
    chosen = config.option.keyword or getattr(config.option, "lf", False) or all(".py" in each for each in config.args)
    return 0 if chosen else (os.cpu_count() or 1) + 1


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    """With `--durations`, also the files whose tests took longest, with all that was made for them."""
    if not config.option.durations:
        return
    seconds: defaultdict[str, float] = defaultdict(float)
    for reports in terminalreporter.stats.values():
        for each in reports:
            if isinstance(each, pytest.TestReport):
                seconds[each.location[0]] += each.duration
    terminalreporter.write_sep("=", "slowest files")
    slowest = sorted(seconds.items(), key=lambda row: -row[1])
    for name, took in slowest[: config.option.durations]:
        terminalreporter.write_line(f"{took:.1f}s {name}")


@pytest.fixture(scope="session")
def of_the_run(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """A folder that all workers have."""
    own = tmp_path_factory.getbasetemp()
    # xdist: each worker's folder lies in that of the run.
    return own if worker_id == "master" else own.parent


@pytest.fixture(autouse=True, scope="session")
def own_cache(of_the_run: Path) -> Iterator[None]:
    """No test reads or fills the cache of whoever runs it; the workers have one for all, as several commands do."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("KBTOOLS_CACHE", str(of_the_run / "cache"))
        yield


@pytest.fixture(scope="session")
def shared(of_the_run: Path) -> Shared:
    """Folders that are made once a run."""
    return Shared(of_the_run)


@pytest.fixture(scope="session")
def demo_site(shared: Shared) -> Path:
    """The demo knowledge base, built by the command line."""
    return shared.folder("demo", lambda folder: built(DEMO, folder / "site")) / "site"


@pytest.fixture(scope="session")
def builds(shared: Shared) -> tuple[Path, Path]:
    """A part of the demo twice, for a site below a path; on the second every fault has another reason in its advice."""
    folder = shared.folder("builds", build_twice)
    return folder / "first", folder / "second"


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """The system's Chromium, without windows if there is such a one; `KBTOOLS_CHROMIUM` names another."""
    named = os.environ.get("KBTOOLS_CHROMIUM")
    if named:
        if shutil.which(named) is None:
            pytest.fail(f"KBTOOLS_CHROMIUM names {named}, which is no program that can be run.", pytrace=False)
        return named
    # The first one has no windows that must be drawn around each page: a quarter less work, and the same pages.
    whole = ("/usr/bin/chromium", "chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
    for name in ("chromium-headless-shell", *whole):
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
    """One browser for each worker; tests open contexts of their own in it, and close them."""
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium_path, args=CHROMIUM_FLAGS)
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
