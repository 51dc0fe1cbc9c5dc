"""Without a network: what was visited and what was kept still shows, always of one build, and says how old it is."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.support.offline_site import (
    FAULT,
    OTHER,
    build_of,
    keep,
    kept_text,
    shown_build,
    wait_for_build,
    wait_until_kept,
)
from tests.support.patience import eventually, paused
from tests.support.plan_page import SAGS, opened_note
from tests.support.shared_link import shared_from, signed
from tests.support.site_server import Switch
from tests.support.two_builds import NEW_WHY, OLD_WHY

_NONE_ON_ITS_WAY = """async () => {
    const found = await navigator.serviceWorker.getRegistration();
    return found.installing === null && found.waiting === null;
}"""


def test_finder_and_visited_pages_work_without_a_network(page: Page, root: str, host: Switch) -> None:
    page.goto(f"{root}{FAULT}")
    expect(page.locator("main")).to_contain_text(OLD_WHY)
    page.goto(root)
    host.unplug()
    page.goto(f"{root}{FAULT}")
    expect(page.locator("main")).to_contain_text(OLD_WHY)
    expect(page.locator("[data-kept-note]")).to_be_visible()
    expect(page.locator("[data-kept-note]")).to_contain_text("Ride advice may have changed since")
    page.goto(f"{root}?q=batery+flat")
    expect(page.locator("#finder-results a").first).to_contain_text("Battery flat")
    page.fill("#finder", "P0562")
    expect(page.locator("#finder-results a").first).to_contain_text("P0562")
    # How it ended is written in the garage: the words are those of the page that was seen.
    page.goto(f"{root}report/?fault=battery-flat-overnight")
    expect(page.locator("[name=cause]").first).to_be_attached()
    expect(page.locator("[data-report-about]")).to_contain_text("Battery flat")


def test_one_plan_for_several_faults_is_there_where_the_code_was_seen(page: Page, root: str, host: Switch) -> None:
    """The code's page fetches those of its faults, and so keeps them; the page of several codes is kept in any case."""
    ready = page.locator("[data-joint][data-plan-ready]")
    page.goto(f"{root}codes/p0562/")
    expect(ready).to_have_count(1)
    for each in ("codes/p0562/", "faults/battery-flat-overnight/", "faults/voltage-sags-when-wet/"):
        wait_until_kept(page, f"{root}{each}")
    title = page.locator(".now__title").inner_text()
    host.unplug()
    for address in ("codes/p0562/", "several/?codes=P0562"):
        page.goto(f"{root}{address}")
        expect(ready).to_have_count(1)
        expect(page.locator(".now__title")).to_have_text(title)
    # A fault that was not kept has a sentence, and its advice is known all the same.
    page.goto(f"{root}several/?codes=P0230")
    expect(page.locator("[data-joint-told]")).to_contain_text("Did not come")
    expect(page.locator("[data-verdict]")).to_have_attribute("data-verdict", "ride-to-workshop")


def test_a_shared_link_opens_without_a_network_and_so_does_what_only_a_press_fetches(
    page: Page, root: str, host: Switch
) -> None:
    page.goto(f"{root}faults/{SAGS}/")
    wait_until_kept(page, f"{root}faults/{SAGS}/")
    page.goto(root)
    host.unplug()
    fragment = signed(f"1;f={SAGS};b=bittern-900,2007;r=look-at-plug:g")
    page.goto(f"{root}faults/{SAGS}/#{fragment}")
    expect(page.locator(".shared")).to_contain_text("You look at a shared state: Bittern 900, 2007, one answer.")
    expect(opened_note(page).locator("[data-sheet-bike]")).to_have_text("Bittern 900, 2007")
    assert shared_from(page).endswith(f"/faults/{SAGS}/#{fragment}")
    page.fill("#finder", "P0562")
    expect(page.locator("#finder-results a").first).to_contain_text("P0562")


def test_the_page_on_which_the_worker_started_is_kept_too(new_page: Page, new_root: str, new_host: Switch) -> None:
    new_page.goto(f"{new_root}{OTHER}")
    wait_for_build(new_page)
    new_host.unplug()
    new_page.reload()
    expect(new_page.locator("main")).to_contain_text(OLD_WHY)


def test_a_page_that_was_not_kept_says_so_and_never_that_one_may_ride(page: Page, root: str, host: Switch) -> None:
    host.unplug()
    answer = page.goto(f"{root}{OTHER}")
    assert answer
    assert answer.status == 503
    expect(page.locator("main")).to_contain_text("Whether you may ride is not known")


def test_with_a_network_the_page_is_the_newest_and_carries_no_note(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    page.goto(f"{root}{FAULT}")
    host.folder = builds[1]
    page.goto(f"{root}{FAULT}")
    expect(page.locator("main")).to_contain_text(NEW_WHY)
    expect(page.locator("[data-kept-note]")).to_be_hidden()


def test_a_new_build_takes_the_place_of_all_that_was_kept(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    for address in (FAULT, OTHER):
        page.goto(f"{root}{address}")
    page.goto(root)
    host.folder = builds[1]
    page.goto(f"{root}{FAULT}")
    wait_for_build(page, builds[1])
    host.unplug()
    for address in (FAULT, OTHER):
        page.goto(f"{root}{address}")
        expect(page.locator("main")).to_contain_text(NEW_WHY)
        assert shown_build(page) == build_of(builds[1])
    page.goto(f"{root}?q=batery+flat")
    expect(page.locator("#finder-results a").first).to_contain_text("Battery flat")
    assert shown_build(page) == build_of(builds[1])


def break_off(page: Page, root: str, host: Switch, lost: str) -> None:
    """Visit a new build of which everything below a path is lost, until the worker has given it up; then unplug."""
    asked, before = len(host.asked), len(host.lost)
    host.is_lost = lambda path: path.startswith(lost)
    page.goto(f"{root}{FAULT}")
    # It has tried and given up: the worker's script of the second build was fetched, what it asked for was lost, and
    # no worker is on its way.
    eventually(lambda: "sw.js" in host.asked[asked:], pause=paused(page))
    page.wait_for_timeout(200)
    eventually(lambda: len(host.lost) > before, pause=paused(page))
    eventually(lambda: bool(page.evaluate(_NONE_ON_ITS_WAY)), pause=paused(page))
    host.unplug()


@pytest.mark.thorough
def test_a_new_build_that_breaks_off_leaves_the_old_one_whole(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    for address in (FAULT, OTHER):
        page.goto(f"{root}{address}")
    page.goto(root)
    host.folder = builds[1]
    # The data, a page, the list.
    for lost in ("data/finder-", OTHER, f"build/{build_of(builds[1])}"):
        break_off(page, root, host, lost)
        for address in (FAULT, OTHER, ""):
            page.goto(f"{root}{address}")
            assert shown_build(page) == build_of(builds[0])
    page.goto(f"{root}{FAULT}")
    expect(page.locator("main")).to_contain_text(OLD_WHY)
    page.goto(f"{root}?q=batery+flat")
    expect(page.locator("#finder-results a").first).to_contain_text("Battery flat")
    # The next visit with a whole network brings the second one.
    host.plug()
    page.goto(root)
    wait_for_build(page, builds[1])


def test_pages_of_another_build_are_never_put_beside_those_of_the_worker(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    host.folder = builds[1]
    host.is_lost = lambda path: path == "sw.js"
    page.goto(f"{root}{FAULT}")
    expect(page.locator("main")).to_contain_text(NEW_WHY)
    # Time to put the page by, which it must not.
    page.wait_for_timeout(300)
    host.unplug()
    answer = page.goto(f"{root}{FAULT}")
    assert answer
    assert answer.status == 503


@pytest.mark.thorough
def test_a_file_that_did_not_change_is_not_fetched_again(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    host.folder = builds[1]
    before = len(host.asked)
    page.goto(root)
    wait_for_build(page, builds[1])
    again = [path for path in host.asked[before:] if path.startswith("data/finder-") and "/bikes/" in path]
    # Which entries concern a machine did not change.
    assert again == []
    assert any("/entries/" in path for path in host.asked[before:])


def test_one_press_keeps_everything_about_my_bike(
    page: Page, root: str, host: Switch, builds: tuple[Path, Path]
) -> None:
    keep(page, root)
    text = kept_text(page)
    assert re.search(r"Kept on \d+ \w+ 20\d\d: \d+ pages, [\d.]+ MB\. Ride advice may have changed since", text)
    host.unplug()
    page.goto(f"{root}my-bike/")
    assert kept_text(page) == text
    for address in (FAULT, "models/bittern-900/2007/", "models/bittern-900/2007/handbook/", "codes/p0562/"):
        answer = page.goto(f"{root}{address}")
        assert answer
        assert answer.status == 200
        expect(page.locator("[data-kept-note]")).to_be_visible()
    # Its pictures in the narrow width, whichever the browser asks for.
    narrow = (builds[0] / "pictures/640/battery-posts.png").stat().st_size
    ask = "async (address) => (await (await fetch(address)).blob()).size"
    for name in ("battery-posts.png", "640/battery-posts.png"):
        assert page.evaluate(ask, f"{root}pictures/{name}") == narrow
    # Another model's fault was not asked for.
    answer = page.goto(f"{root}faults/carburettors-flood/")
    assert answer
    assert answer.status == 503


@pytest.mark.thorough
def test_my_bike_follows_a_new_build(page: Page, root: str, host: Switch, builds: tuple[Path, Path]) -> None:
    keep(page, root)
    kept_text(page)
    host.folder = builds[1]
    page.goto(root)
    wait_for_build(page, builds[1])
    host.unplug()
    for address in (FAULT, "faults/voltage-sags-when-wet/"):
        page.goto(f"{root}{address}")
        expect(page.locator("main")).to_contain_text(NEW_WHY)


def test_keeping_that_breaks_off_is_told_and_claims_nothing(page: Page, root: str, host: Switch) -> None:
    host.is_lost = lambda path: path.startswith("faults/voltage-sags")
    keep(page, root)
    status = page.locator("[data-my-bike-status]")
    expect(status).to_contain_text("Not everything arrived")
    expect(status).not_to_contain_text("Kept on")
    host.plug()
    page.get_by_role("button", name="Keep on this device").click()
    kept_text(page)


def test_my_bike_is_removed_with_one_press(page: Page, root: str, host: Switch) -> None:
    keep(page, root)
    kept_text(page)
    page.get_by_role("button", name="Remove from this device").click()
    expect(page.locator("[data-my-bike-status]")).to_be_empty()
    host.unplug()
    answer = page.goto(f"{root}{FAULT}")
    assert answer
    assert answer.status == 503


def test_a_served_site_has_no_service_worker(demo_site: Path) -> None:
    """`kbtools serve` would show old pages to whoever is writing; the built site has one, at its root."""
    assert (demo_site / "sw.js").is_file()
    home = (demo_site / "index.html").read_text("utf-8")
    assert "data-offline" in home
