"""What the live server answers at an address; nothing outside the site is served."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.site.answering import locate
from tests.support.live_desk import Desk, news, running, state_of, write


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
