"""The frame of pages whose names and titles no address and no attribute takes as they are."""

from __future__ import annotations

from mkdocs.config import load_config
from mkdocs.structure.pages import Page

from kbtools.edges.rendering import Renderer
from kbtools.model.base import HandPage
from kbtools.site import hand_written
from kbtools.site.framing import Frame
from kbtools.site.plugin import NAME
from tests.support import factories as make
from tests.support.places import ROOT

ENCODED = "%C3%9Cber%20uns%2C%20100%20%26%20mehr/"
"""By hand: RFC 3986, 2.1, UTF-8; whatever is neither unreserved nor a slash."""


def test_addresses_of_hand_written_pages_are_encoded_wherever_they_stand() -> None:
    config = load_config(str(ROOT / "mkdocs.yml"), docs_dir=str(ROOT / "kb"))
    config.plugins._current_plugin = NAME
    source = HandPage(path="pages/Über uns, 100 & mehr.md", text="", body="")
    file = hand_written.hand_file(source, config)
    file.page = Page(None, file, config)
    frame = Frame(
        club=make.club(),
        # A host may lie below a path that is encoded already.
        site_url="https://lore.example/my%20club/",
        hand_files=(file,),
        assets="assets/",
        finder_data="data/",
        renderer=Renderer(()),
        build="b",
        worker=None,
        built_on="2026-06-01",
        notice=None,
        edit_path="edit/",
        history_path="history/",
        strict=True,
    )
    shell = frame.around_hand(file.page)
    assert shell.canonical == f"https://lore.example/my%20club/{ENCODED}"
    (own,) = [(href, title) for href, title, is_this in shell.nav if is_this]
    assert own == (f"../{ENCODED}", "Über uns, 100 & mehr")
    assert f"/my%20club/{ENCODED}" in [href for href, _, _ in frame.missing("/my%20club").nav]
