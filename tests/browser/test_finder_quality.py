"""Do owners find what they look for: the half of the labelled queries that the ranking was not worked on with."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest
from playwright.sync_api import Browser

from kbtools.edges.folder import load
from kbtools.index.build import build_index
from kbtools.pages.catalogue import all_pages
from tests.support.finder_base import files
from tests.support.finder_queries import Query, by_kind, queries, rank
from tests.support.places import ROOT

TODAY = dt.date(2026, 6, 1)
GOAL = 0.95
"""Of success@3."""

ASK = """async ([files, texts]) => {
    const { find } = await import("/core/finder.js");
    const { Shelves } = await import("/core/shelves.js");
    const shelves = new Shelves(files["root.json"], async (name) => files[name]);
    const found = [];
    for (const text of texts) {
        const { known, answers: some, later } = await find(text, shelves);
        const answers = [...some, ...(await later())];
        found.push({ known, addresses: answers.map(({ entry }) => entry.address.replace(/[/]$/, "")) });
    }
    return found;
}"""


@pytest.fixture(scope="module")
def ranks(browser: Browser, serve: Callable[..., str]) -> list[tuple[Query, int | None]]:
    page = browser.new_page()
    page.goto(serve(ROOT / "site_overrides" / "assets" / "js"))
    asked = queries("kept")
    found = page.evaluate(ASK, [files(load(ROOT / "kb").base), [query.text for query in asked]])
    page.close()
    return [
        # What leads on where nothing was found is no answer.
        (query, rank(query, each["addresses"] if each["known"] or query.kind != "none" else []))
        for query, each in zip(asked, found, strict=True)
    ]


def test_the_right_page_is_among_the_first_three(ranks: list[tuple[Query, int | None]]) -> None:
    figures = by_kind(ranks)
    missed = [(query.kind, query.text, each) for query, each in ranks if each is None or each > 3]
    assert figures["all"].three >= GOAL, missed
    assert figures["all"].first >= 0.85
    assert min(each.three for each in figures.values()) >= 0.85, missed


def test_every_page_that_a_query_wants_is_there() -> None:
    base = load(ROOT / "kb").base
    there = {spec.address.rstrip("/") for spec in all_pages(build_index(base, TODAY), TODAY)}
    wanted = {page for half in ("tune", "kept") for query in queries(half) for page in (*query.first, *query.all)}
    assert {page for page in wanted if "*" not in page} - there == set()


def test_no_query_stands_in_both_halves() -> None:
    tune, kept = ({query.text.lower() for query in queries(half)} for half in ("tune", "kept"))
    assert tune & kept == set()
    assert len(tune) + len(kept) >= 240
