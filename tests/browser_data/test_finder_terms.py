"""Texts cut into terms, and the weight of a term: the same vectors hold the browser's side."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.browser_data.finder import bm25
from kbtools.browser_data.finder.phrases import loose, whole_clauses
from kbtools.browser_data.finder.shards import gaps, shelve
from kbtools.browser_data.finder.terms import members, sort_key, stem, terms_of, words_of
from tests.support.bm25_reference import FILE, reference, written_out
from tests.support.places import VECTORS
from tests.support.weighed_one_by_one import bm25_weights

WORDS: dict[str, Any] = json.loads((VECTORS / "finder_words.json").read_text("utf-8"))
BM25: dict[str, Any] = json.loads(FILE.read_text("utf-8"))


@pytest.mark.parametrize(("text", "words"), WORDS["words"])
def test_words_are_cut_as_in_the_browser(text: str, words: list[str]) -> None:
    assert words_of(text) == words


@pytest.mark.parametrize("group", WORDS["groups"], ids=lambda group: group[0])
def test_words_that_differ_in_their_ending_are_one_term(group: list[str]) -> None:
    assert len({stem(word) for word in group}) == 1


@pytest.mark.parametrize(("one", "other"), WORDS["apart"])
def test_words_that_mean_something_else_stay_apart(one: str, other: str) -> None:
    assert stem(one) != stem(other)


@pytest.mark.parametrize(("text", "terms"), WORDS["loose"])
def test_words_near_each_other_are_one_term_in_whatever_order(text: str, terms: list[str]) -> None:
    assert {*loose(text)} == {*terms}


def test_a_clause_that_is_short_enough_is_one_term() -> None:
    assert [*whole_clauses("Won't start, it cranks and cranks (as it does each year when the clocks go back)")] == [
        "=not+start",
        "=crank",
    ]


@pytest.mark.parametrize("word", WORDS["unchanged"])
def test_other_words_stay_as_they_are(word: str) -> None:
    assert stem(word) == word


def test_a_hyphened_word_is_found_whole_and_in_parts() -> None:
    assert terms_of("The side-stand") == ["side", "stand", "sidestand"]


def test_a_member_of_a_group_may_be_several_words() -> None:
    groups = members([["kickstand", "side-stand"], ["idle", "tickover"], ["...", "idle"]])
    assert groups == [[["kickstand"], ["side", "stand"]], [["idl"], ["tickov"]], [["idl"]]]


@pytest.mark.parametrize("case", BM25["cases"], ids=["published", "drawn"])
def test_the_weights_add_up_to_the_scores_of_an_independent_library(case: dict[str, Any]) -> None:
    """bm25s, variant lucene: Robertson and Zaragoza 2009 with Lucene's inverse document frequency."""
    found = bm25_weights(case["documents"], BM25["weights"])
    for query, scores in zip(case["queries"], case["scores"], strict=True):
        mine = [sum(found.get(term, {}).get(place, 0.0) for term in query) for place in range(len(case["documents"]))]
        assert mine == pytest.approx(scores, abs=2e-5)


def test_the_vectors_are_those_of_the_library_and_of_the_published_example() -> None:
    """The example: five texts, "battery drain", scores .36102 and .99889."""
    for case in BM25["cases"]:
        documents = [written_out(each, BM25["weights"]) for each in case["documents"]]
        for mine, kept in zip(reference(documents, case["queries"]), case["scores"], strict=True):
            assert mine == pytest.approx(kept, abs=1e-5)
    assert [round(score, 5) for score in BM25["cases"][0]["scores"][0]] == [0, 0.36102, 0, 0.99889, 0]


def test_the_weights_of_the_drawn_case_are_those_that_entries_have() -> None:
    assert BM25["weights"] == {name: bm25.WEIGHTS.get(name, 1) for name in BM25["weights"]}


@given(st.dictionaries(st.text(max_size=5), st.integers(1, 9), max_size=40), st.integers(1, 20))
def test_every_key_stands_in_the_file_that_its_place_says(pairs: dict[str, int], most: int) -> None:
    shelf = shelve(pairs.items(), lambda size: size, most)
    for key, value in pairs.items():
        number = max(at for at, first in enumerate(shelf.first) if sort_key(first) <= sort_key(key))
        assert shelf.files[number][key] == value
    assert all(len(file) == 1 or sum(file.values()) <= most for file in shelf.files)


@given(st.sets(st.integers(0, 10**6)))
def test_steps_lead_back_to_the_numbers(numbers: set[int]) -> None:
    risen, at = [], 0
    for step in gaps(sorted(numbers)):
        at += step
        risen.append(at)
    assert risen == sorted(numbers)


@given(st.text(max_size=60))
def test_no_text_breaks_the_cutting_and_a_term_is_one_word(text: str) -> None:
    for term in terms_of(text):
        assert term
        assert words_of(term) == [term] or not term.isascii()
