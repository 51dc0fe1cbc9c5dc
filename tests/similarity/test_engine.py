"""The engine: what holds whatever is compared with it."""

from __future__ import annotations

import dataclasses
import itertools
import random
import tracemalloc

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rapidfuzz import fuzz

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.similarity.assignment import best_total
from kbtools.similarity.blocking import Blocks, Limits
from kbtools.similarity.comparison import comparable
from kbtools.similarity.engine import Field, Matcher
from kbtools.similarity.faults import matcher
from kbtools.similarity.features import Readier
from kbtools.similarity.lexicon import Lexicon
from kbtools.similarity.likeness import same
from kbtools.similarity.linking import linked
from kbtools.vocabulary.spelling import near_words
from kbtools.vocabulary.stems import Equals, sequence
from tests.support import factories as make
from tests.support import labelled_entries as labelled
from tests.support.patience import within_reason

NUMBERS = st.integers(0, 100_000)
"""Each is some fault of `Prepared`."""


class Prepared:
    def __init__(self, base: KnowledgeBase, faults: list[Fault]) -> None:
        readier = Readier(base, faults)
        self.faults = faults
        self.ready = {fault.id: readier.ready(fault) for fault in faults}
        self.matcher = matcher(readier.lexicon)
        self.readier = readier

    def fault(self, number: int) -> Fault:
        return self.faults[number % len(self.faults)]

    def score(self, left: str, right: str) -> float:
        return self.matcher.score(self.ready[left], self.ready[right])


@pytest.fixture(scope="module")
def prepared() -> Prepared:
    base = labelled.faults("choose-1").base
    return Prepared(base, comparable(base))


def test_a_text_is_not_every_longer_text_that_holds_it() -> None:
    short, long = "lamp flickers", "lamp flickers pump hums brake drags chain clicks fork weeps horn croaks"
    # The trap of a measure by the shorter text alone.
    assert fuzz.token_set_ratio(short, long) == 100
    lexicon = Lexicon([[short], [long]], Equals(()))
    one, other = lexicon.bag([short]), lexicon.bag([long])
    assert one is not None
    assert other is not None
    assert lexicon.alike(one, other) < 0.7


@settings(max_examples=60, deadline=None)
@given(NUMBERS, NUMBERS)
def test_a_score_is_symmetric_and_within_0_and_1(prepared: Prepared, left: int, right: int) -> None:
    one, other = prepared.fault(left).id, prepared.fault(right).id
    score = prepared.score(one, other)
    assert 0.0 <= score <= 1.0
    assert score == pytest.approx(prepared.score(other, one), abs=1e-12)


def test_an_entry_is_wholly_like_itself(prepared: Prepared) -> None:
    scores = {fault.id: prepared.score(fault.id, fault.id) for fault in prepared.faults}
    assert len(scores) >= 40
    assert {name: score for name, score in scores.items() if score != pytest.approx(1.0, abs=1e-9)} == {}


@settings(max_examples=25, deadline=None)
@given(NUMBERS, NUMBERS, st.integers(0, 1000))
def test_the_order_of_lists_does_not_matter(prepared: Prepared, left: int, right: int, seed: int) -> None:
    rng = random.Random(seed)

    def shuffled(rows: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(rng.sample(rows, len(rows)))

    one, other = prepared.fault(left), prepared.fault(right)
    lists = ("symptoms", "causes", "codes", "applies_to")
    mixed = dataclasses.replace(one, **{name: shuffled(getattr(one, name)) for name in lists})  # type: ignore[arg-type]
    ready = prepared.readier.ready
    assert prepared.matcher.score(ready(mixed), ready(other)) == pytest.approx(
        prepared.score(one.id, other.id), abs=1e-9
    )


def test_a_template_in_every_entry_changes_little(prepared: Prepared) -> None:
    phrase = "Reported by members and checked by the workshop evening"
    chosen = labelled.faults("choose-1")
    faults = [dataclasses.replace(each, symptoms=(*each.symptoms, phrase)) for each in prepared.faults]
    templated = Prepared(chosen.base, faults)
    pairs = [sorted(pair) for pair in (*chosen.same, *chosen.other)]
    changes = sorted(abs(templated.score(*pair) - prepared.score(*pair)) for pair in pairs)
    assert changes[int(0.95 * len(changes))] < 0.06


def test_ids_of_causes_do_not_matter(prepared: Prepared) -> None:
    one = prepared.faults[0]
    renamed = dataclasses.replace(
        one, causes=tuple(dataclasses.replace(each, id=f"x-{each.id}") for each in one.causes)
    )
    ready = prepared.readier.ready
    assert prepared.matcher.score(ready(one), ready(renamed)) == pytest.approx(1.0, abs=1e-9)


def test_equal_words_of_the_club_are_one_word() -> None:
    lexicon = Lexicon([["idle hunts"], ["tickover surges"]], Equals([["tickover", "idle"], ["hunts", "surges"]]))
    one, other = lexicon.bag(["Idle hunts"]), lexicon.bag(["TICKOVER SURGES"])
    assert one is not None
    assert other is not None
    assert lexicon.alike(one, other) == 1.0


@pytest.mark.parametrize("pair", [("clogged", "cloged"), ("neutral", "nuetral"), ("regulator", "regulater")])
def test_a_slip_of_the_keys_is_forgiven(pair: tuple[str, str]) -> None:
    left, right = pair
    assert right in near_words([left, right, "fork"])[left]


@pytest.mark.parametrize("pair", [("lean", "leak"), ("lead", "load"), ("hot", "not"), ("front", "short")])
def test_another_word_is_no_slip(pair: tuple[str, str]) -> None:
    assert near_words(list(pair)) == {}


@settings(max_examples=80, deadline=None)
@given(st.data())
def test_the_best_assignment_is_that_of_trying_all(data: st.DataObject) -> None:
    rows, columns = data.draw(st.integers(1, 5)), data.draw(st.integers(1, 5))
    cells = st.floats(0, 1, allow_nan=False)
    gain = [[data.draw(cells) for _ in range(columns)] for _ in range(rows)]
    wide = gain if rows <= columns else [list(column) for column in zip(*gain, strict=True)]
    ways = itertools.permutations(range(len(wide[0])), len(wide))
    best = max(sum(row[column] for row, column in zip(wide, way, strict=True)) for way in ways)
    assert best_total(gain) == pytest.approx(best, abs=1e-9)


def test_a_silent_field_is_left_out_and_a_gate_holds_back() -> None:
    record = tuple[str | None, str | None]

    def field(place: int, **changes: float) -> Field[tuple[str | None, str | None]]:
        return Field(name=str(place), read=lambda value: value[place], like=same, **changes)

    assert record
    two = Matcher((field(0, weight=3.0), field(1, weight=1.0, gate=0.5)))
    assert two.score(("a", None), ("a", "b")) == 1.0
    # Three quarters of the weight agree, and the gate leaves half of it.
    assert two.score(("a", "c"), ("a", "b")) == pytest.approx(0.375)
    assert two.compare(("a", None), ("a", "b")).fields == {"0": 1.0}


def test_work_is_bounded_by_the_number_of_records() -> None:
    limits = Limits(crowd=10, best=3)
    keys = [["all", f"pair-{number // 2}", f"five-{number // 5}"] for number in range(1000)]
    blocks = Blocks(keys, limits)
    pairs = list(blocks.pairs(range(1000)))
    assert len(pairs) == len(set(pairs)) <= 3 * 1000
    # The rarest key leads, and one that all share leads nowhere.
    assert all(blocks.candidates(number)[0] == number ^ 1 for number in range(1000))
    assert (0, 999) not in pairs


def test_another_base_does_not_shift_a_demo_pair() -> None:
    two = [make.fault("a", title="Lamp dim"), make.fault("b", title="Lamp bright at night and dark by day")]
    prepared = Prepared(make.base(*two), two)
    assert prepared.score("a", "b") < 1.0


def test_words_without_end_cost_neither_time_nor_memory() -> None:
    # A pull request may hold anything; the rests of a word grow with the square of its length.
    words = {f"{letter}{'ordwithoutend' * 800}" for letter in "abcdefgh"}
    tracemalloc.start()
    with within_reason():
        assert near_words(words | {"regulator", "regulatro"})["regulator"] == {"regulatro"}
        assert all(len(word) <= 40 for text in words for word in sequence(text))
    assert tracemalloc.get_traced_memory()[1] < 10_000_000
    tracemalloc.stop()


# Neighbours


@settings(max_examples=60, deadline=None)
@given(st.integers(2, 9), st.integers(0, 10**9))
def test_groups_join_as_average_linkage_does(size: int, seed: int) -> None:
    """Against scipy's, which knows distances instead of likenesses; ties are left out by distinct scores."""
    from scipy.cluster.hierarchy import average, cophenet

    rng = random.Random(seed)
    scores = {pair: rng.random() for pair in itertools.combinations(range(size), 2)}
    expected = cophenet(average([1 - scores[pair] for pair in sorted(scores)]))
    found = linked(scores, lambda left, right: scores[left, right], 0.0)
    assert [found[pair] for pair in sorted(scores)] == pytest.approx([1 - each for each in expected])


@settings(max_examples=60, deadline=None)
@given(st.integers(2, 9), st.floats(0.3, 0.9), st.integers(0, 10**9))
def test_groups_are_the_same_when_low_scores_are_looked_up_late(size: int, least: float, seed: int) -> None:
    from scipy.cluster.hierarchy import average, cophenet

    rng = random.Random(seed)
    scores = {pair: rng.random() for pair in itertools.combinations(range(size), 2)}
    expected = cophenet(average([1 - scores[pair] for pair in sorted(scores)]))
    known = {pair: score for pair, score in scores.items() if score >= least}
    found = linked(known, lambda left, right: scores[left, right], least)
    joined = {pair for pair, score in found.items() if score >= least}
    assert joined == {pair for pair, far in zip(sorted(scores), expected, strict=True) if 1 - far >= least}


def test_a_pair_without_neighbours_keeps_its_score() -> None:
    assert linked({(0, 1): 0.8, (2, 3): 0.6}, lambda left, right: 0.0, 0.5) == {(0, 1): 0.8, (2, 3): 0.6}


def test_what_contradicts_one_twin_is_no_twin_of_the_other() -> None:
    own = {(0, 1): 0.9, (1, 2): 0.6}
    assert linked(own, lambda left, right: 0.1, 0.5)[1, 2] < 0.5
    assert linked(own, lambda left, right: 0.5, 0.5)[0, 2] > 0.5


@settings(max_examples=60, deadline=None)
@given(st.integers(3, 9), st.integers(0, 10**9))
def test_two_that_cannot_be_one_are_never_in_one_group_whoever_speaks_for_them(size: int, seed: int) -> None:
    rng = random.Random(seed)
    scores = {pair: rng.choice((0.0, 0.7, 0.8, 0.9)) for pair in itertools.combinations(range(size), 2)}
    known = {pair: score for pair, score in scores.items() if score >= 0.5}
    found = linked(known, lambda left, right: scores[left, right], 0.5)
    joined = {pair for pair, score in found.items() if score >= 0.5}
    assert all(scores[pair] > 0.0 for pair in joined)
    # Joined in groups: who is one with two others is one thing with both.
    for one, two in itertools.combinations(joined, 2):
        if len(ends := set(one) ^ set(two)) == 2:
            assert tuple(sorted(ends)) in joined
