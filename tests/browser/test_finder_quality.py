"""Do owners find what they look for: labelled queries that the ranking was not worked on with."""

from __future__ import annotations

import datetime as dt
import functools
from collections.abc import Callable, Sequence

import pytest
from _pytest.mark.structures import ParameterSet
from playwright.sync_api import Browser

from kbtools.index.build import build_index
from tests.support.all_pages import all_pages
from tests.support.demo_read import demo_with
from tests.support.finder_asked import SCRIPTS, ours, stemmed, theirs, trigrams
from tests.support.finder_queries import (
    NONE,
    Answers,
    Figures,
    Query,
    Set,
    by_kind,
    figures,
    labelled,
    queries,
    ranked,
)

TODAY = dt.date(2026, 6, 1)
GOAL = 0.95
"""Of success@3."""
SETS: tuple[Set, ...] = ("kept", "kept-own", "kept-more")
"""What was chosen on measures nothing."""
FLOORS: dict[str, float] = {"words": 0.88, "codes": 0.97, "slang": 0.75}
"""Of success@3, in owners' own words."""
OWN_WORDS: tuple[Set, ...] = ("kept-own", "kept-more")
IN_EACH_RUN: Set = "kept-more"
MOST_FALSE = 0.2
LEAST_SURE = 0.9
"""Of the answers that are called sure so many are right."""

Asked = list[tuple[Query, Answers]]


THOROUGH = pytest.mark.thorough
"""One set is asked in each run; all of them tell the figures, and take three times as long."""


def _marked(names: Sequence[Set]) -> list[ParameterSet]:
    return [pytest.param(name, marks=() if name == IN_EACH_RUN else THOROUGH) for name in names]


@pytest.fixture(scope="module")
def asked(browser: Browser, serve: Callable[..., str]) -> Callable[[Set], Asked]:
    base, root = demo_with().base, serve(SCRIPTS)
    return functools.cache(lambda name: ours(browser, root, base, labelled(name)))


@THOROUGH
def test_the_right_page_is_among_the_first_three(asked: Callable[[Set], Asked]) -> None:
    found = by_kind(asked("kept"))
    missed = [(query.kind, query.text) for query, given in asked("kept") if (ranked(query, given) or 9) > 3]
    assert found["all"].three >= GOAL, missed
    assert found["all"].first >= 0.85
    assert min(each.three for each in found.values()) >= 0.85, missed


@pytest.mark.parametrize("name", _marked(OWN_WORDS))
def test_in_owners_own_words_too(asked: Callable[[Set], Asked], name: Set) -> None:
    found = by_kind(asked(name))
    assert {kind: found[kind].three for kind, floor in FLOORS.items() if found[kind].three < floor} == {}
    assert found[NONE].false <= MOST_FALSE


@pytest.mark.parametrize("name", _marked(SETS))
def test_what_is_called_sure_is_right_nine_times_in_ten(asked: Callable[[Set], Asked], name: Set) -> None:
    whole = figures(asked(name))
    assert whole.sure >= 20
    assert whole.right / whole.sure >= LEAST_SURE


@pytest.mark.parametrize("name", _marked(SETS))
def test_no_kind_is_found_worse_than_by_the_searches_of_others(asked: Callable[[Set], Asked], name: Set) -> None:
    """bm25s with a stemmer, and SQLite's trigrams, on the same texts; they never say that they found nothing."""
    base = demo_with().base
    mine = by_kind(asked(name))
    others: list[dict[str, Figures]] = [
        dict(by_kind(theirs(search, labelled(name)))) for search in (stemmed(base), trigrams(base))
    ]
    worse = [kind for other in others for kind, each in other.items() if kind != NONE and mine[kind].three < each.three]
    assert worse == []


def test_every_page_that_a_query_wants_is_there() -> None:
    base = demo_with().base
    there = {spec.address.rstrip("/") for spec in all_pages(build_index(base, TODAY), TODAY)}
    wanted = {page for name in ("choose", *SETS) for query in labelled(name) for page in (*query.first, *query.all)}
    assert {page for page in wanted if "*" not in page} - there == set()


def test_no_query_stands_in_two_sets() -> None:
    tune, kept = ({query.text.lower() for query in queries(half)} for half in ("tune", "kept"))
    assert tune & kept == set()
    assert len(tune) + len(kept) >= 240
    assert all(len(labelled(name)) >= 220 for name in OWN_WORDS)
