"""My bike: what is new about it since the last visit. Of that the browser keeps the days of visits and nothing else."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from tests.support.watched import Watch

BIKE = {"model": "bittern-900", "year": 2007, "name": "Bittern 900"}


def test_my_bike_tells_what_is_new_since_the_last_visit(
    demo_site: Path, serve: Callable[..., str], watch: Watch
) -> None:
    items = json.loads((demo_site / "api/v1/news.json").read_text("utf-8"))["items"]
    own = [
        each
        for each in items
        if any(first <= BIKE["year"] <= last for first, last in each["machines"].get(BIKE["model"], ()))
    ]
    since = own[len(own) // 2]["on"]
    expected = [each["title"] for each in own if each["on"] >= since][:12]
    assert expected
    with watch(viewport={"width": 390, "height": 844}) as watched:
        page: Any = watched.page
        page.clock.set_fixed_time(datetime(2030, 3, 14, 23, 30))  # noqa: DTZ001 (the owner's clock, as a browser has it)
        page.goto(f"{serve(demo_site)}my-bike/")
        # Nothing to compare with on the first visit.
        expect(page.locator("[data-news-since]")).to_be_hidden()
        assert page.evaluate("localStorage.getItem('visits')") == "- 2030-03-14"
        page.evaluate(
            "(kept) => { localStorage.bike = kept[0]; localStorage.visits = kept[1]; }",
            [json.dumps(BIKE), f"- {since}"],
        )
        for _ in range(2):
            # Visits of one day are one: a second look shows the same.
            page.reload()
            expect(page.locator("[data-news-list] li")).to_have_count(len(expected))
            assert page.locator("[data-news-list] a").all_inner_texts() == expected
        assert page.evaluate("localStorage.getItem('visits')") == f"{since} 2030-03-14"
        assert sorted(page.evaluate("Object.keys(localStorage)")) == ["bike", "visits"]
        href = page.locator("[data-news-list] a").first.get_attribute("href") or ""
        assert page.request.get(href).status == 200
        assert watched.complaints == []
