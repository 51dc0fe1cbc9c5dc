"""A mistake shows on the last good page instead of the server dying, and no text of it becomes markup."""

from __future__ import annotations

import dataclasses
import re
import threading
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st
from playwright.sync_api import Browser

from kbtools.site import panel
from tests.support.live_desk import HOSTILE, Desk, finding, running, write
from tests.support.patience import LONG


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
