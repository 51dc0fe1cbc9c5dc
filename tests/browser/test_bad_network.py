"""Networks and hosts that answer badly, and storage that is full: nothing wrong is kept, and no page breaks by it.

Which answers there are follows from HTTP (RFC 9110 status codes, RFC 9112 section 8 on incomplete messages) and from
what captive portals do (RFC 8952 describes them): another page with status 200 in the place of any file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.support import odd_answers
from tests.support.installed_site import InstalledSite
from tests.support.odd_answers import BACK_SOON, PORTAL, InParts, Stalled, always, once
from tests.support.offline_site import FAULT, OTHER, build_of, keep, kept_text, wait_for_build, wait_until_kept
from tests.support.patience import LONG, eventually, paused
from tests.support.site_server import Switch
from tests.support.two_builds import NEW_WHY, OLD_WHY
from tests.support.worker_clock import WorkerClock, worker_of

CUT_OFF = [odd_answers.cut_off, odd_answers.cut_off_silently]
TOO_LONG = 4001
"""Milliseconds of silence, a little more than `kbtools/site/README.md` says."""
MUCH_TOO_LONG = 30_001
"""The same where nobody waits for the page."""

_FILES_OF = """async (change) => {
    const name = (await caches.keys()).find((each) => each.includes(":files-"));
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
        const { pathname } = new URL(request.url);
        if (change === "drop" && pathname.includes("/data/finder-")) {
            await cache.delete(request);
        }
        if (change === "spoil" && pathname.endsWith("/js/finder.js")) {
            await cache.put(request, new Response("throw 1;", { headers: { "content-type": "text/javascript" } }));
        }
    }
}"""

_REGISTERED = "async () => Boolean(await navigator.serviceWorker.getRegistration())"


def is_finder_data(path: str) -> bool:
    return path.startswith("data/finder-")


def finder_answers(page: Page) -> None:
    expect(page.locator("#finder-results a").first).to_contain_text("Battery flat")


def shows_what_was_kept(page: Page) -> None:
    expect(page.locator("[data-kept-note]")).to_be_visible()
    expect(page.locator("main")).to_contain_text(OLD_WHY)


@pytest.fixture
def visited(page: Page, root: str) -> Page:
    """Elsewhere now, and one fault's page is kept."""
    page.goto(f"{root}{FAULT}")
    wait_until_kept(page, f"{root}{FAULT}")
    page.goto(root)
    return page


@pytest.fixture
def without_data(page: Page) -> Page:
    """The finder's data is not kept yet, as if it were too much for that, and the browser's own store is empty."""
    drop_data(page)
    return page


def drop_data(page: Page) -> None:
    page.evaluate(_FILES_OF, "drop")
    page.context.new_cdp_session(page).send("Network.clearBrowserCache")


Stall = Callable[[bool, float], Stalled]


@pytest.fixture
def stall() -> Iterator[Stall]:
    """Makes answers that stall; lets them go at the end."""
    made: list[Stalled] = []

    def make(head: bool, share: float) -> Stalled:
        made.append(Stalled(head=head, share=share))
        return made[-1]

    yield make
    for each in made:
        each.let_go()


@pytest.fixture
def clock(installed: InstalledSite) -> WorkerClock:
    installed.is_spoiled = True
    return WorkerClock(worker_of(installed.context))


def go(page: Page, address: str) -> None:
    """Leave the home page for another one, and do not wait for it."""
    page.evaluate("(address) => { location.href = address; }", address)


# Pages


def test_a_page_that_stalls_gives_way_to_the_kept_one(
    visited: Page, root: str, clock: WorkerClock, host: Switch, stall: Stall
) -> None:
    # No head, no body, half.
    for head, share, steps in ((False, 0, 1), (True, 0, 2), (True, 0.5, 3)):
        visited.goto(root)
        before = clock.count()
        host.odd = always(stall(head, share), lambda path: path == FAULT)
        go(visited, FAULT)
        clock.wait_for(before + steps)
        clock.advance(TOO_LONG)
        shows_what_was_kept(visited)


@pytest.mark.thorough
def test_a_slow_page_is_waited_for_while_it_comes(
    visited: Page, clock: WorkerClock, host: Switch, builds: tuple[Path, Path]
) -> None:
    slow = InParts(4)
    host.folder = builds[1]
    host.odd = always(slow, lambda path: path == FAULT)
    go(visited, FAULT)
    clock.wait_for(2)
    for _ in range(4):
        clock.advance(TOO_LONG - 1001)
        before = clock.count()
        slow.go_on()
        clock.wait_for(before + 1)
    slow.go_on()
    expect(visited.locator("main")).to_contain_text(NEW_WHY)
    expect(visited.locator("[data-kept-note]")).to_be_hidden()


def test_a_host_that_fails_gives_way_to_the_kept_page(visited: Page, root: str, host: Switch) -> None:
    for odd in (odd_answers.unavailable, *CUT_OFF):
        host.odd = always(odd, lambda path: path == FAULT)
        visited.goto(f"{root}{FAULT}")
        shows_what_was_kept(visited)
        host.odd = lambda path: None
        visited.goto(f"{root}{FAULT}")
        expect(visited.locator("[data-kept-note]")).to_be_hidden()


def test_where_nothing_was_kept_the_host_says_itself_why_it_fails(page: Page, root: str, host: Switch) -> None:
    host.odd = always(odd_answers.unavailable, lambda path: path == OTHER)
    answer = page.goto(f"{root}{OTHER}")
    assert answer
    assert answer.status == 503
    expect(page.locator("h1")).to_have_text(BACK_SOON)


def test_a_wrong_answer_is_not_kept_as_a_page(page: Page, root: str, host: Switch) -> None:
    for odd in (odd_answers.portal, odd_answers.unavailable, odd_answers.cut_off_silently):
        host.odd = always(odd, lambda path: path == OTHER)
        page.goto(f"{root}{OTHER}")
    # The worker has come past those when it has kept the next.
    page.goto(f"{root}{FAULT}")
    wait_until_kept(page, f"{root}{FAULT}")
    host.unplug()
    answer = page.goto(f"{root}{OTHER}")
    assert answer
    assert answer.status == 503
    expect(page.locator("main")).to_contain_text("Whether you may ride is not known")


def test_a_portal_shows_itself_and_takes_no_kept_page_away(visited: Page, root: str, host: Switch) -> None:
    host.odd = always(odd_answers.portal, lambda path: True)
    visited.goto(f"{root}{FAULT}")
    # Shown, or nobody could log in.
    expect(visited.locator("h1")).to_have_text(PORTAL)
    host.unplug()
    visited.goto(f"{root}{FAULT}")
    shows_what_was_kept(visited)
    visited.goto(f"{root}?q=batery+flat")
    finder_answers(visited)


# Files


def test_a_wrong_file_is_asked_for_again(page: Page, root: str, host: Switch) -> None:
    for odd in (odd_answers.portal, odd_answers.cut_off):
        drop_data(page)
        host.odd = once(odd, is_finder_data)
        before = len(host.asked)
        page.goto(f"{root}?q=batery+flat")
        finder_answers(page)
        again = [path for path in host.asked[before:] if is_finder_data(path)]
        assert len(again) > len(set(again))
        host.unplug()
        page.goto(f"{root}?q=batery+flat")
        finder_answers(page)
        host.plug()


@pytest.mark.thorough
def test_a_wrong_file_is_not_kept_for_the_rest_of_the_build(page: Page, root: str, host: Switch) -> None:
    for odd in (odd_answers.garbled, odd_answers.cut_off_silently):
        drop_data(page)
        host.odd = always(odd, is_finder_data)
        before = len(host.asked)
        with page.expect_response(lambda answer: "/data/finder-" in answer.url):
            page.goto(f"{root}?q=batery+flat")
        assert any(is_finder_data(path) for path in host.asked[before:])
        host.odd = lambda path: None
        page.goto(f"{root}?q=batery+flat")
        finder_answers(page)


@pytest.mark.thorough
def test_a_wrong_file_in_the_browsers_own_store_does_not_stop_the_worker(
    new_page: Page, new_root: str, new_host: Switch
) -> None:
    new_host.odd = once(odd_answers.portal, is_finder_data)
    new_page.goto(new_root)
    wait_for_build(new_page)
    new_host.unplug()
    new_page.goto(f"{new_root}?q=batery+flat")
    finder_answers(new_page)


@pytest.mark.thorough
def test_a_portal_keeps_the_first_worker_away_only_as_long_as_it_stands(
    new_page: Page, new_root: str, new_host: Switch
) -> None:
    new_host.odd = always(odd_answers.portal, lambda path: path.startswith("build/"))
    new_page.goto(new_root)
    eventually(lambda: any(path.startswith("build/") for path in new_host.asked), pause=paused(new_page))
    # It has given up.
    eventually(lambda: not new_page.evaluate(_REGISTERED), pause=paused(new_page))
    assert new_page.evaluate("async () => (await caches.keys()).filter((name) => /:(?:files|pages)-/.test(name))") == []
    new_host.odd = lambda path: None
    new_page.goto(new_root)
    wait_for_build(new_page)


@pytest.mark.thorough
def test_a_spoiled_file_is_not_handed_on_to_the_next_build(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    page.evaluate(_FILES_OF, "spoil")
    host.folder = builds[1]
    page.goto(f"{root}{FAULT}")
    wait_for_build(page, builds[1])
    host.unplug()
    page.goto(f"{root}?q=batery+flat")
    finder_answers(page)


@pytest.mark.thorough
def test_a_new_build_is_kept_whole_though_its_first_answers_were_wrong(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    host.folder = builds[1]
    host.odd = once(odd_answers.garbled, is_finder_data)
    page.goto(f"{root}{FAULT}")
    wait_for_build(page, builds[1])
    host.unplug()
    page.goto(f"{root}?q=batery+flat")
    finder_answers(page)
    expect(page.locator('meta[name="build"]')).to_have_attribute("content", build_of(builds[1]))


# My bike


def test_of_my_bike_nothing_is_left_out_silently(page: Page, root: str, host: Switch) -> None:
    status = page.locator("[data-my-bike-status]")
    for odd in (odd_answers.missing, odd_answers.unavailable, odd_answers.cut_off_silently):
        host.odd = always(odd, lambda path: path.startswith("faults/voltage-sags"))
        keep(page, root)
        expect(status).to_contain_text("Not everything arrived")
        expect(status).not_to_contain_text("Kept on")
    host.odd = lambda path: None
    page.get_by_role("button", name="Keep on this device").click()
    kept_text(page)


@pytest.mark.thorough
def test_keeping_my_bike_ends_though_a_page_stalls(
    page: Page, clock: WorkerClock, root: str, host: Switch, stall: Stall
) -> None:
    stalled = stall(True, 0.5)
    host.odd = always(stalled, lambda path: path.startswith("faults/voltage-sags"))
    keep(page, root)
    assert stalled.silent.wait(LONG)
    clock.wait_for_last()
    clock.advance(MUCH_TOO_LONG)
    expect(page.locator("[data-my-bike-status]")).to_contain_text("Not everything arrived")


# Storage


@pytest.fixture
def full(installed: InstalledSite, page: Page, root: str) -> Page:
    """The browser has no room left."""
    installed.is_spoiled = True
    origin = root.removesuffix("/club/lore/")
    page.context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": 1})
    refused = page.evaluate(
        "() => caches.open('more').then((more) => more.put('more', new Response('more'))).catch(({ name }) => name)"
    )
    assert refused == "QuotaExceededError"
    return page


@pytest.fixture
def forbidden(installed: InstalledSite, page: Page) -> Page:
    """The browser lets the worker keep nothing, nor look at what it kept."""
    installed.is_spoiled = True
    worker_of(installed.context).evaluate(
        """() => {
            const no = () => Promise.reject(new DOMException("no", "SecurityError"));
            CacheStorage.prototype.open = no;
            CacheStorage.prototype.keys = no;
        }"""
    )
    return page


@pytest.mark.parametrize("trouble", ["full", pytest.param("forbidden", marks=pytest.mark.thorough)])
def test_without_storage_a_page_is_shown_as_it_comes(
    request: pytest.FixtureRequest, without_data: Page, root: str, trouble: str
) -> None:
    page: Page = request.getfixturevalue(trouble)
    answer = page.goto(f"{root}{FAULT}")
    assert answer
    assert answer.status == 200
    expect(page.locator("main")).to_contain_text(OLD_WHY)
    expect(page.locator("[data-kept-note]")).to_be_hidden()
    page.goto(f"{root}?q=batery+flat")
    finder_answers(page)
    # Keeping my bike claims nothing.
    keep(page, root)
    status = page.locator("[data-my-bike-status]")
    expect(status).to_contain_text("Not everything arrived")
    expect(status).not_to_contain_text("Kept on")


def test_without_storage_and_network_the_page_says_that_nothing_was_kept(
    forbidden: Page, root: str, host: Switch
) -> None:
    host.unplug()
    answer = forbidden.goto(f"{root}{FAULT}")
    assert answer
    assert answer.status == 503
    expect(forbidden.locator("main")).to_contain_text("Whether you may ride is not known")
