"""The live server: an edit shows soon, a mistake shows instead of the server dying, and nothing outside is served."""

from __future__ import annotations

import dataclasses
import json
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
import urllib.parse
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from playwright.sync_api import Browser

from kbtools.site import panel, watching
from kbtools.site.answering import locate
from kbtools.site.earlier import Earlier
from kbtools.site.live import LiveSite, ServeError
from tests.support.live_desk import HOSTILE, Desk, finding, running
from tests.support.patience import LONG


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with running(Desk(tmp_path)) as desk:
        yield desk


# --- edits


def write(desk: Desk) -> None:
    (desk.kb / "a.txt").write_text("second")


def rename_over(desk: Desk) -> None:
    (desk.kb / ".a.txt.new").write_text("second")
    (desk.kb / ".a.txt.new").replace(desk.kb / "a.txt")


def rename_over_from_outside(desk: Desk) -> None:
    (desk.kb.parent / "a.new").write_text("second")
    (desk.kb.parent / "a.new").replace(desk.kb / "a.txt")


def write_into_new_folders(desk: Desk) -> None:
    (desk.kb / "x" / "y" / "z").mkdir(parents=True)
    (desk.kb / "x" / "y" / "z" / "b.txt").write_text("second")


def move_a_folder_in(desk: Desk) -> None:
    (desk.kb.parent / "outside").mkdir()
    (desk.kb.parent / "outside" / "b.txt").write_text("second")
    (desk.kb.parent / "outside").rename(desk.kb / "inside")


def replace_everything(desk: Desk) -> None:
    shutil.rmtree(desk.kb)
    desk.kb.mkdir()
    (desk.kb / "a.txt").write_text("second")


def exchange_the_whole_folder(desk: Desk) -> None:
    (desk.kb.parent / "kb2").mkdir()
    (desk.kb.parent / "kb2" / "a.txt").write_text("second")
    desk.kb.rename(desk.kb.parent / "kb1")
    (desk.kb.parent / "kb2").rename(desk.kb)


def write_the_single_file(desk: Desk) -> None:
    desk.config.write_text("second")


def rename_over_the_single_file(desk: Desk) -> None:
    (desk.config.parent / "config.new").write_text("second")
    (desk.config.parent / "config.new").replace(desk.config)


EDITS = [
    *(write, rename_over, rename_over_from_outside, write_into_new_folders, move_a_folder_in),
    *(replace_everything, exchange_the_whole_folder, write_the_single_file, rename_over_the_single_file),
]


@pytest.mark.parametrize("edit", EDITS)
def test_an_edit_shows_soon_and_so_does_the_next(desk: Desk, edit: Callable[[Desk], None]) -> None:
    edit(desk)
    desk.wait_for("second")
    desk.rest()
    (desk.kb / "a.txt").write_text("third")  # the watch has to survive what the first edit did
    desk.wait_for("third")


@pytest.mark.parametrize("edit", EDITS)
def test_polling_takes_over_where_the_system_refuses_more_watches(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, edit: Callable[[Desk], None]
) -> None:
    def refuse() -> None:
        raise OSError(28, "inotify watch limit reached")

    desk = Desk(tmp_path)
    monkeypatch.setattr(desk.server._watcher._observer, "on_thread_start", refuse)
    with running(desk):
        edit(desk)
        desk.wait_for("second")


@pytest.mark.parametrize("remove", ["a file", "a folder", "a folder moved away"])
def test_a_removal_shows_soon(desk: Desk, remove: str) -> None:
    (desk.kb / "sub").mkdir()
    (desk.kb / "sub" / "b.txt").write_text("extra")
    desk.wait_for("extra")
    desk.rest()
    if remove == "a file":
        (desk.kb / "sub" / "b.txt").unlink()
    elif remove == "a folder":
        shutil.rmtree(desk.kb / "sub")
    else:
        (desk.kb / "sub").rename(desk.kb.parent / "away")
    desk.wait(lambda: "extra" not in desk.get()[2])


def test_an_edit_during_a_build_leads_to_another(desk: Desk) -> None:
    once = iter([True])

    def edit_behind_the_builds_back() -> None:
        if next(once, False):
            (desk.kb / "a.txt").write_text("third")

    desk.before_build = edit_behind_the_builds_back
    (desk.kb / "a.txt").write_text("second")  # read before the edit above, so only another build can show that one
    desk.wait_for("third")


def test_many_edits_at_once_are_built_together(desk: Desk) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def linger() -> None:
        begun.set()
        go_on.wait(LONG)

    before = desk.rest()
    desk.before_build = linger
    write(desk)
    assert begun.wait(LONG)
    # However long the machine takes to write them, it is while one build goes on.
    for number in range(200):
        (desk.kb / f"n{number}.txt").write_text(f"word{number}")
    go_on.set()
    desk.wait_for("word199")
    assert desk.rest() - before < 10


def test_reading_scratch_files_and_the_site_itself_cause_no_build(desk: Desk) -> None:
    def causes_no_build() -> bool:
        before = desk.rest()
        (desk.kb / "a.txt").read_text()
        for name in (".a.txt.swp", "a.txt~", "#a.txt#", "4913"):
            (desk.kb / name).write_text("scratch")
            (desk.kb / name).unlink()
        (desk.kb.parent / "unwatched.txt").write_text("x")
        (desk.root / "index.html").touch()
        return desk.rest() == before

    # Where a notice of what was done before is late, it counts against the first time; what causes builds always does.
    assert any(causes_no_build() for _ in range(4))


def test_a_server_whose_site_lies_in_a_watched_folder_does_not_build_for_ever(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.server.watch(tmp_path)
    with running(desk):
        assert desk.rest() == desk.builds <= 2


def test_the_page_asks_and_is_told_of_a_newer_one(desk: Desk) -> None:
    before = state_of(desk)
    answers: list[dict[str, str]] = []
    asking = threading.Thread(target=lambda: answers.append(news(desk, before)))
    asking.start()
    time.sleep(0.5)
    assert answers == []
    write(desk)
    asking.join(LONG)
    assert answers
    assert answers[0]["page"] == state_of(desk)["page"] != before["page"]


def test_a_page_of_a_server_that_was_ended_is_loaded_anew(desk: Desk) -> None:
    # What it would fetch went with that server.
    assert news(desk, {**state_of(desk), "since": "0"})["page"] == ""


def test_data_of_the_last_builds_are_kept(tmp_path: Path) -> None:
    kept = Earlier(tmp_path / "site", 3, most=2)
    for moment, name in enumerate(("two", "one", "two", "three"), start=10):
        (tmp_path / "site" / "data" / name).mkdir(parents=True, exist_ok=True)
        (tmp_path / "site" / "data" / name / "root.json").write_text(name)
        kept.keep(moment)
        shutil.rmtree(tmp_path / "site")
    assert {each.name: (each / "root.json").read_text() for each in (kept.place / "data").iterdir()} == {
        "two": "two",
        "three": "three",
    }
    assert kept.oldest == 12
    kept.close()
    assert not kept.place.exists()


def state_of(desk: Desk, path: str = "") -> dict[str, str]:
    """What a page knows of itself when it asks."""
    page = desk.get(path)[2]
    return {"at": f"{desk.mount}{path}", **dict(re.findall(r'data-(page|panel|since)="([^"]*)"', page))}


def news(desk: Desk, asked: dict[str, str]) -> dict[str, str]:
    told: dict[str, str] = json.loads(desk.get(f"livereload/state?{urllib.parse.urlencode(asked)}")[2])
    return told


def test_pages_are_answered_while_a_build_goes_on(desk: Desk) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def linger() -> None:
        begun.set()
        go_on.wait(LONG)

    desk.before_build = linger
    write(desk)
    assert begun.wait(LONG)
    try:
        # It would wait for `go_on` otherwise.
        assert "first" in desk.get()[2]
        assert not go_on.is_set()
    finally:
        go_on.set()
    desk.wait_for("second")


# --- mistakes


def test_a_mistake_shows_on_the_last_good_page_until_it_is_mended(desk: Desk) -> None:
    (desk.kb / "a.txt").write_text(f"!error {HOSTILE}")
    desk.wait_for("kbtools-panel")
    for address in ("", "faults/wet/", "no-such-page/"):
        page = desk.get(address)[2]
        assert "Not rebuilt: 1 error" in page
        assert "kb/faults/&lt;b&gt;.yml:7:3" in page
        assert "KB201" in page
        assert "!error &lt;/aside&gt;&lt;script&gt;" in page
        assert "&lt;img src=x onerror=alert(1)&gt; &amp; &quot;q&quot; \ufffd" in page
        assert "Write &lt;one&gt; of them" in page
        assert "Only a warning" not in page
        assert "<script>" not in page
        assert "<img" not in page
    assert "<p>first config</p>" in desk.get()[2]
    assert "wet" in desk.get("faults/wet/")[2]
    (desk.kb / "a.txt").write_text("mended")
    desk.wait(lambda: "mended" in desk.get()[2] and "kbtools-panel" not in desk.get()[2])


def test_a_build_that_breaks_down_shows_and_the_server_lives_on(desk: Desk) -> None:
    (desk.kb / "a.txt").write_text("!crash <script>x</script>")
    desk.wait_for("kbtools-panel")
    page = desk.get()[2]
    assert "RuntimeError: !crash &lt;script&gt;x&lt;/script&gt;" in page
    assert "<p>first config</p>" in page
    (desk.kb / "a.txt").write_text("mended")
    desk.wait(lambda: "mended" in desk.get()[2] and "kbtools-panel" not in desk.get()[2])


def test_a_build_that_wants_to_exit_does_not_end_the_server(desk: Desk) -> None:
    def leave() -> None:
        raise SystemExit("strict mode")

    desk.before_build = leave
    write(desk)
    desk.wait_for("strict mode")
    desk.before_build = lambda: None
    (desk.kb / "a.txt").write_text("mended")
    desk.wait_for("mended")


def test_without_any_good_build_every_address_shows_the_findings(tmp_path: Path) -> None:
    with running(Desk(tmp_path), word=f"!error {HOSTILE}") as desk:
        for address in ("", "faults/wet/", "data.json"):
            status, headers, page = desk.get(address)
            assert status == 503
            assert headers["content-type"] == "text/html; charset=utf-8"
            assert "!error &lt;/aside&gt;&lt;script&gt;" in page
            assert "<script>" not in page
            assert "/livereload/client.js" in page
        (desk.kb / "a.txt").write_text("mended")
        desk.wait_for("mended")
        assert desk.get()[0] == 200


def test_before_the_first_build_is_done_the_page_says_so(tmp_path: Path) -> None:
    go_on = threading.Event()
    desk = Desk(tmp_path)

    def linger() -> None:
        go_on.wait(LONG)

    desk.before_build = linger
    desk.server.bind()
    desk.thread.start()
    try:
        status, _, page = desk.get()
        assert status == 503
        assert "being built" in page
        go_on.set()
        desk.wait(lambda: desk.get()[0] == 200)
    finally:
        go_on.set()
        desk.server.shutdown(wait=True)
        desk.thread.join(LONG)


def test_a_thousand_findings_do_not_bury_the_page() -> None:
    trouble = panel.Trouble(findings=[finding(f"number {number}", "error") for number in range(1000)])
    shown = panel.overlay(trouble, mount_path="/")
    assert shown.count("<li>") == panel.SHOWN_AT_MOST
    assert f"And {1000 - panel.SHOWN_AT_MOST} more" in shown


@given(st.text())
def test_no_text_leaves_its_place_in_the_panel(text: str) -> None:
    shown = panel.overlay(panel.Trouble(findings=[finding(text, "error")], crash=text or "x"), mount_path="/")
    plain = panel.overlay(panel.Trouble(findings=[finding("", "error")], crash="x"), mount_path="/")
    assert re.findall(r"<[^>]*>", shown) == re.findall(r"<[^>]*>", plain)
    shown.encode()


def test_a_rule_in_the_panel_leads_to_its_page_where_there_is_a_site() -> None:
    ours = panel.Trouble(findings=[finding("wrong", "error")])
    assert '<a href="/lore/rules/kb201/">KB201</a>' in panel.overlay(ours, mount_path="/lore/")
    # Before the first good build there is no page to go to, and MkDocs' own complaints have none at all.
    assert "<a " not in panel.stand_in(ours, mount_path="/lore/")
    theirs = panel.Trouble(findings=[dataclasses.replace(ours.findings[0], rule="MkDocs")])
    assert "<a " not in panel.overlay(theirs, mount_path="/lore/")


# --- addresses


def test_only_links_are_added_since_the_policy_forbids_code_in_the_page(desk: Desk) -> None:
    (desk.kb / "a.txt").write_text("!error")
    desk.wait_for("kbtools-panel")
    page = desk.get()[2]
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*\ssrc=)|\son[a-z]+=", page)
    for address in re.findall(r'<(?:script|link)[^>]*(?:src|href)="([^"]+)"', page):
        status, headers, text = desk.get(address)
        assert status == 200
        assert headers["content-type"].split(";")[0] in {"text/javascript", "text/css"}
        assert text


def test_types_lengths_and_caching(desk: Desk) -> None:
    status, headers, text = desk.get("data.json")
    assert (status, headers["content-type"], text) == (200, "application/json", '{"a": 1}')
    for address in ("", "data.json", "livereload/client.js", "no-such-page"):
        assert desk.get(address)[1]["cache-control"] == "no-store"
    status, headers, text = desk.get("data.json", method="HEAD")
    assert (status, headers["content-length"], text) == (200, "8", "")
    assert desk.get("", method="POST")[0] == 405


def test_a_folder_gets_its_slash_and_keeps_its_question(desk: Desk) -> None:
    status, headers, _ = desk.get("faults/wet?q=P0562")
    assert (status, headers["location"]) == (302, "/faults/wet/?q=P0562")
    assert desk.get("//faults/wet")[1]["location"] == "/faults/wet/"  # `//faults/…` would be another host


def test_a_page_that_is_not_there_is_the_sites_own(desk: Desk) -> None:
    for address in ("no-such-page/", "no-such-page", "faults/", "index.html/"):
        status, _, page = desk.get(address)
        assert status == 404
        assert "own not found page" in page
        assert "/livereload/client.js" in page  # it may come to exist


def test_a_site_below_a_path(tmp_path: Path) -> None:
    with running(Desk(tmp_path, "/club/lore/")) as desk:
        assert "first" in desk.get()[2]
        assert "/club/lore/livereload/client.js" in desk.get()[2]
        assert desk.get("livereload/client.js")[0] == 200
        assert desk.get("/")[1]["location"] == "/club/lore/"
        assert desk.get("/club/lore")[1]["location"] == "/club/lore/"
        assert desk.get("faults/wet")[1]["location"] == "/club/lore/faults/wet/"
        assert desk.get("/faults/wet/")[0] == 404
        # Else it would be loaded anew for ever.
        desk.server.poll_response_timeout = 0
        assert news(desk, {**state_of(desk, "/faults/wet/"), "at": "/faults/wet/"})["page"] == "none"
        assert desk.get("/club/lore-secrets/")[0] == 404
        write(desk)
        desk.wait_for("second")


OUTSIDE = [
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/%2E%2E%2Fsecret.txt",
    "/faults/../../secret.txt",
    "/faults/%2e%2e/%2e%2e/secret.txt",
    "//secret.txt",
    "/..%5csecret.txt",
    "/%252e%252e/secret.txt",
    "/linked.txt",
    "/linked-folder/secret.txt",
    "/%00",
    "/data.json%00.html",
    "/" + "a" * 5000,
    "/%ff%fe/",
]


@pytest.mark.parametrize("address", OUTSIDE)
def test_nothing_outside_the_site_is_served(desk: Desk, address: str) -> None:
    (desk.root.parent / "secret.txt").write_text("secret words")
    (desk.root / "linked.txt").symlink_to(desk.root.parent / "secret.txt")
    (desk.root / "linked-folder").symlink_to(desk.root.parent)
    for way in (address, f"{address}/"):
        status, _, page = desk.get(way)
        assert status == 404
        assert "secret words" not in page


@given(st.lists(st.sampled_from(["..", ".", "", "a", "in", "%2e%2e", "..\\", "\0", "/", "C:", "~", "…"]), max_size=8))
def test_no_path_leads_out(parts: list[str]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder).resolve() / "root"
        (root / "in").mkdir(parents=True)
        (root / "in" / "a").write_text("inside")
        (root.parent / "a").write_text("outside")
        found = locate(root, "/".join(parts))
        assert found is None or found == root or root in found.parents


# --- starting and stopping


def test_a_port_in_use_is_explained(tmp_path: Path) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        server = LiveSite("127.0.0.1", other.getsockname()[1], tmp_path / "served", "/", list)
        with pytest.raises(ServeError, match="port") as caught:
            server.serve()
        assert caught.value.hint


@pytest.mark.parametrize(("host", "port"), [("127.0.0.1", 99999), ("no-such-host.invalid", 0)])
def test_an_address_that_cannot_be_is_explained(tmp_path: Path, host: str, port: int) -> None:
    with pytest.raises(ServeError):
        LiveSite(host, port, tmp_path / "served", "/", list).bind()


def test_the_address_can_be_opened(tmp_path: Path) -> None:
    server = LiveSite("127.0.0.1", 0, tmp_path / "served", "lore", list)
    assert server.bind() == f"http://127.0.0.1:{server.server_port}/lore/"
    assert server.server_port > 0
    server.shutdown(wait=True)


def test_what_cannot_be_watched_is_refused(tmp_path: Path) -> None:
    server = LiveSite("127.0.0.1", 0, tmp_path / "served", "/", list)
    with pytest.raises(FileNotFoundError):
        server.watch(tmp_path / "no" / "such" / "folder")
    server.shutdown(wait=True)


INTERRUPTED = """
# Whoever runs the tests in the background may have told them to pass this signal by.
import signal; signal.signal(signal.SIGINT, signal.default_int_handler)
import sys, time
from pathlib import Path
from kbtools.site.live import LiveSite

def rebuild():
    print("building", flush=True)
    time.sleep(float(sys.argv[2]))
    return []

server = LiveSite("127.0.0.1", 0, Path(sys.argv[1]) / "served", "/", rebuild)
server.watch(sys.argv[1])
server.serve()
print("ended well", flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX signals")
@pytest.mark.parametrize("building", ["0", "3600"])
def test_ctrl_c_ends_it_also_in_the_middle_of_a_build(tmp_path: Path, building: str) -> None:
    command = [sys.executable, "-c", INTERRUPTED, str(tmp_path), building]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        assert run.stdout.readline() == "building\n"
        time.sleep(0.3)
        run.send_signal(signal.SIGINT)
        try:
            assert run.wait(LONG) == 0
        finally:
            run.kill()
        assert run.stdout.read() == "ended well\n"
        assert "Traceback" not in run.stderr.read()


# --- in a browser


def test_in_a_browser_the_page_reloads_both_ways_and_breaks_no_policy(desk: Desk, browser: Browser) -> None:
    said: list[str] = []
    page = browser.new_page(viewport={"width": 320, "height": 600})
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.set_default_timeout(1000 * LONG)
    with page.expect_request(re.compile(r"/livereload/state")):
        page.goto(desk.server.url)
    write(desk)
    page.wait_for_selector("text=second")
    (desk.kb / "a.txt").write_text(f"!error {HOSTILE} {'long' * 200}")
    page.wait_for_selector(".kbtools-panel")
    assert page.title() == "t"
    styled = page.eval_on_selector(".kbtools-panel", "panel => getComputedStyle(panel).position")
    assert styled == "fixed"
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    page.get_by_text("Not rebuilt").click()
    assert not page.get_by_text("KB201").is_visible()
    (desk.kb / "a.txt").write_text("mended")
    page.wait_for_selector("text=mended")
    assert page.query_selector(".kbtools-panel") is None
    page.close()
    assert said == []


def test_the_native_watcher_is_the_one_in_use() -> None:
    if sys.platform != "linux":
        pytest.skip("Linux")
    assert type(watching.Watcher(lambda: None)._observer).__name__ == "InotifyObserver"
