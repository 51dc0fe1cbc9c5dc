"""What is known of the last build: what is taken, what is made again, and what is not believed."""

from __future__ import annotations

import json
import pickle
import sys
from typing import Any

import pytest

from kbtools.index.asked import Answers, Derived
from kbtools.index.asked_base import Log
from kbtools.site.kept_pages import (
    Freshness,
    KeptPage,
    Notes,
    Questions,
    Record,
    record,
    worked_out,
)
from kbtools.site.record_json import as_json, from_json
from kbtools.site.stamps import Stamps, marks, without_marks, without_values
from tests.support import factories as make


def answers(**others: object) -> Answers:
    return Answers(make.index(make.base(make.fault("sags"))), {"beside": others})


def page(questions: Questions, *asked: tuple[str, object]) -> KeptPage:
    return KeptPage(digest="d", size=1, pictures=(), places=(), asked=questions.numbers(asked))


def derived(log: Log, **results: int) -> dict[str, Derived[Any, Any]]:
    """Results that are worked out of one thing that is asked."""

    def made(key: str) -> int:
        log.note("beside", "seed")
        return results[key]

    return {"count": Derived("count", made, log)}


def built(before: Answers, *asked: tuple[str, object], of: dict[str, Derived[Any, Any]] | None = None) -> Record:
    notes = Notes()
    notes.pages["a/index.html"] = page(notes.questions, *asked)
    notes.derived |= worked_out(of or {}, before, notes.questions)
    return record({}, notes, None, before)


def test_a_page_is_taken_where_all_answers_are_the_same() -> None:
    known = built(answers(day=1, other=1), ("beside", "day"), ("published", "sags"))
    assert Freshness(known, answers(day=1, other=2), {}).page("a/index.html") is not None
    assert Freshness(known, answers(day=2, other=1), {}).page("a/index.html") is None
    assert Freshness(known, answers(other=1), {}).page("a/index.html") is None
    assert Freshness(known, answers(day=1), {}).page("b/index.html") is None


def test_what_cannot_be_told_is_made_again() -> None:
    stream = sys.stdout
    known = built(answers(day=stream), ("beside", "day"))
    assert Freshness(known, answers(day=stream), {}).page("a/index.html") is None


def test_what_is_derived_counts_by_its_result() -> None:
    first = derived(Log(), sags=3)
    assert first["count"]["sags"] == 3
    known = built(answers(seed=1), ("count", "sags"), of=first)
    # Another seed, the same result: nothing is made again. Another result: it is.
    assert Freshness(known, answers(seed=2), derived(Log(), sags=3)).page("a/index.html") is not None
    assert Freshness(known, answers(seed=2), derived(Log(), sags=4)).page("a/index.html") is None
    # The same seed: it is not even worked out.
    assert Freshness(known, answers(seed=1), derived(Log())).page("a/index.html") is not None
    # What it was about is gone.
    assert Freshness(known, answers(seed=2), derived(Log())).page("a/index.html") is None


def test_what_was_not_worked_out_now_is_carried_on() -> None:
    first = derived(Log(), sags=3)
    assert first["count"]["sags"]
    known = built(answers(seed=1), ("count", "sags"), of=first)
    later = record({}, taken(known), known, answers(seed=1))
    assert later == known


def taken(known: Record) -> Notes:
    return Notes(pages=dict(known.pages), questions=Questions(known.asked))


def test_questions_that_nobody_asks_any_more_are_forgotten() -> None:
    known = built(answers(day=1), ("beside", "day"), ("published", "sags"), *(("beside", n) for n in range(9)))
    notes = taken(known)
    notes.pages = {"b/index.html": page(notes.questions, ("published", "sags"), ("beside", "new"))}
    later = record({}, notes, known, answers(day=1, new=2))
    assert sorted(later.asked) == [("beside", "'new'"), ("published", "'sags'")]
    assert {later.asked[each] for each in later.pages["b/index.html"].asked} == set(later.asked)
    assert Freshness(later, answers(day=2, new=2), {}).page("b/index.html") is not None
    assert Freshness(later, answers(day=1, new=3), {}).page("b/index.html") is None


def test_what_another_process_tells_has_its_own_numbers() -> None:
    first = derived(Log(), sags=3)
    assert first["count"]["sags"] == 3
    notes, other = Notes(questions=Questions([("beside", "'day'")])), Notes(questions=Questions([("beside", "'day'")]))
    other.pages["b/index.html"] = page(other.questions, ("beside", "there"), ("beside", "day"), ("count", "sags"))
    other.derived |= worked_out(first, answers(seed=1), other.questions)
    notes.pages["a/index.html"] = page(notes.questions, ("beside", "here"), ("beside", "day"))
    notes.add(pickle.loads(pickle.dumps(other.told(1))), 1)
    asked = {path: {notes.questions.asked[each] for each in kept.asked} for path, kept in notes.pages.items()}
    assert asked == {
        "a/index.html": {("beside", "'here'"), ("beside", "'day'")},
        "b/index.html": {("beside", "'there'"), ("beside", "'day'"), ("count", "'sags'")},
    }
    ((number, kept),) = notes.derived.items()
    assert notes.questions.asked[number] == ("count", "'sags'")
    assert [notes.questions.asked[each] for each in kept.asked] == [("beside", "'seed'")]


def test_a_record_comes_back_as_it_was_kept() -> None:
    first = derived(Log(), sags=3)
    assert first["count"]["sags"]
    known = built(answers(seed=1), ("count", "sags"), ("published", "sags"), of=first)
    assert from_json(json.loads(json.dumps(as_json(known)))) == known


EMPTY = Record(values={}, pages={}, asked=[], answers={}, derived={})
WHOLE: dict[str, Any] = as_json(EMPTY)


@pytest.mark.parametrize(
    "kept",
    [
        None,
        [],
        "text",
        {},
        {**WHOLE, "pages": []},
        {**WHOLE, "asked": [["a"]]},
        {**WHOLE, "pages": {"a": ["d", 1, [], [], [7]]}},
        {**WHOLE, "pages": {"a": ["d", "much", [], [], []]}},
        {**WHOLE, "pages": {"a": ["d", 1, [], [], [-1]]}},
        {**WHOLE, "pages": {"a": ["d", 1, [], [], ["0"]]}},
        {**WHOLE, "entries": []},
        {**WHOLE, "earlier": []},
    ],
)
def test_what_has_not_the_shape_of_a_record_is_none(kept: object) -> None:
    assert from_json(WHOLE) == EMPTY
    assert from_json(kept) is None


# The values of a build.

OLD = Stamps(build="aaaa1111", finder="data/finder-1/", several="data/several-1/", day="2026-03-14")
NEW = Stamps(build="bbbb2222", finder="data/finder-2/", several="data/several-1/", day="2026-03-15")


def test_a_page_of_the_last_build_is_given_the_values_of_this_one() -> None:
    marked = marks()
    made = without_marks(f"<p>{marked.build} {marked.finder}{marked.day}</p>".encode(), marked)
    then = made.stamped(OLD)
    assert then == b"<p>aaaa1111 data/finder-1/2026-03-14</p>"
    standing = without_values(then, OLD.by_name(), made.places)
    assert standing == made
    assert standing.stamped(NEW) == b"<p>bbbb2222 data/finder-2/2026-03-15</p>"


def test_what_a_page_says_itself_stays_even_if_it_reads_like_a_value() -> None:
    marked = marks()
    made = without_marks(f"2026-03-14 {marked.day} Read on 2026-03-14".encode(), marked)
    standing = without_values(made.stamped(OLD), OLD.by_name(), made.places)
    assert standing is not None
    assert standing.stamped(NEW) == b"2026-03-14 2026-03-15 Read on 2026-03-14"


def test_a_page_without_values_is_its_own() -> None:
    standing = without_values(b"page", OLD.by_name(), ())
    assert standing is not None
    assert standing.stamped(NEW) == b"page"


@pytest.mark.parametrize(
    ("page", "values", "places"),
    [
        (b"<p>aaaa1111</p>", {}, [("build", 3)]),
        (b"<p>aaaa1111</p>", {"build": ""}, [("build", 3)]),
        (b"<p>aaaa1112</p>", {"build": "aaaa1111"}, [("build", 3)]),
        (b"<p>aaaa1111</p>", {"build": "aaaa1111"}, [("build", 4)]),
        (b"<p>aaaa1111</p>", {"build": "aaaa1111"}, [("build", 3), ("build", 2)]),
        (b"<p>aaaa1111</p>", {"build": "aaaa1111"}, [("build", 70)]),
    ],
)
def test_where_a_value_does_not_stand_nothing_is_taken(
    page: bytes, values: dict[str, str], places: list[tuple[str, int]]
) -> None:
    assert without_values(page, values, places) is None


def test_pages_that_differ_in_their_own_bytes_alone_have_other_digests() -> None:
    marked = marks()
    one, two = (without_marks(f"<p>{marked.day}{text}".encode(), marked) for text in ("a", "b"))
    assert one.digest != two.digest
    assert one.places == two.places


def test_marks_are_others_each_time() -> None:
    assert set(marks().by_name().values()).isdisjoint(marks().by_name().values())
