"""What a page of test values says of one machine, and what it leaves to others."""

from __future__ import annotations

from kbtools.model.base import KnowledgeBase
from kbtools.model.check import GoodFor, Reading
from kbtools.model.fault import Source
from kbtools.model.shared import SharedCheck
from tests.support import factories as make
from tests.support.page_reader import Article

MANUAL = make.source("manual", title="Workshop manual")
BULLETIN = make.source("bulletin", title="Lithium batteries", applies_to=(make.row("curlew-1100", "2010-"),))


def base(*sources: Source) -> KnowledgeBase:
    reading = make.make(Reading, {"place": "battery posts", "good": make.span(12.5, 12.9), "unit": "V", "at": ""}, {})
    lithium = GoodFor(
        model="curlew-1100", years=make.years("2010-"), good=make.span(13.1, 13.4), because="Lithium battery", at=""
    )
    check = make.check("battery-rest", expect=None, reading=reading, good_for=(lithium,))
    shared = SharedCheck(check=check, sources=sources, look_first_for=(), whole=True)
    models = [make.model("bittern-900", "2003-2012"), make.model("curlew-1100", "2008-2012")]
    return make.base(models=models, checks={"battery-rest": shared})


def told(whole: KnowledgeBase, address: str) -> str:
    return Article(make.article(whole, f"models/{address}/values/")).text


def test_a_bulletin_is_a_source_of_the_machines_that_it_covers() -> None:
    whole = base(MANUAL, BULLETIN)
    for address, covered in (
        *(("bittern-900", False), ("bittern-900/2012", False)),
        *(("curlew-1100", True), ("curlew-1100/2008", False), ("curlew-1100/2011", True)),
    ):
        text = told(whole, address)
        assert "Workshop manual" in text
        assert ("Lithium batteries" in text) == covered, address
    assert "13.1–13.4 V" in told(whole, "curlew-1100/2011")
    assert "12.5–12.9 V" in told(whole, "curlew-1100/2008")


def test_a_figure_whose_sources_are_about_other_machines_says_so() -> None:
    assert "nothing about this machine" in told(base(BULLETIN), "bittern-900/2012")
