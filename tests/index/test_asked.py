"""What is asked is noted, and the same answers have the same digests, whoever holds them."""

from __future__ import annotations

import copy
import dataclasses
import subprocess
import sys
from collections.abc import Callable

import pytest

from kbtools.index.answers import Index
from kbtools.index.asked import ABSENT, Answers, Derived, Memo, Shared, asked_index
from kbtools.index.asked_base import EVERYTHING, Log
from kbtools.index.cases import cases_by_fault, followed
from kbtools.index.digests import Digests, key_text, read_from
from kbtools.model.base import KnowledgeBase
from tests.support import factories as make

BASE = make.base(make.fault("sags"), make.fault("sticks"))


def asked(question: Callable[[Index], object], base: KnowledgeBase = BASE) -> set[tuple[str, object]]:
    log = Log()
    index = asked_index(make.index(base), log)
    with log.listening() as found:
        question(index)
    return set(found)


@pytest.mark.parametrize(
    ("question", "noted"),
    [
        (lambda index: index.published["sags"], ("published", "sags")),
        (lambda index: index.published.get("gone"), ("published", "gone")),
        (lambda index: "sags" in index.published, ("published has", "sags")),
        (lambda index: list(index.published), ("published", EVERYTHING)),
        (lambda index: len(index.published), ("published", EVERYTHING)),
        (lambda index: dict(index.published.items()), ("published", EVERYTHING)),
        (lambda index: index.base.models.get("x"), ("base.models", "x")),
        (lambda index: cases_by_fault(index.base).get("sags"), ("kbtools.index.cases.cases_by_fault", "sags")),
        (lambda index: "c" in followed(index.base), ("kbtools.index.cases.followed has", "c")),
        (lambda index: index.entry("sags"), ("published", "sags")),
    ],
)
def test_a_question_is_noted(question: Callable[[Index], object], noted: tuple[str, object]) -> None:
    assert noted in asked(question)


def test_what_nobody_would_note_cannot_be_asked() -> None:
    with pytest.raises(LookupError, match="writings"):
        asked(lambda index: list(index.base.writings))


def test_who_uses_what_was_made_for_another_has_asked_what_it_took() -> None:
    log = Log()
    index = asked_index(make.index(BASE), log)
    memo: Memo[str] = Memo(log)
    shared: Shared[str, str] = Shared(lambda each: index.published[each].title, log, 1)
    for _ in range(2):
        with log.listening() as found:
            memo.of("title", lambda: index.published["sags"].title)
            assert shared["sticks"]
        assert {("published", "sags"), ("published", "sticks")} <= found


def test_of_what_is_derived_the_result_is_asked_for_and_not_what_it_took() -> None:
    log = Log()
    index = asked_index(make.index(BASE), log)
    derived: Derived[str, int] = Derived("letters", lambda each: len(index.published[each].title), log)
    with log.listening() as found:
        assert derived["sags"] == len(index.published["sags"].title)
    assert ("letters", "sags") in found
    value, took = derived.worked_out("sags")
    assert value == len(BASE.faults["sags"].title)
    assert took == {("published", "sags")}


# Digests.


def test_equal_values_have_one_digest_and_others_have_another() -> None:
    fault = BASE.faults["sags"]
    other = dataclasses.replace(fault, title="Another title")
    of = Digests().of
    assert of(copy.deepcopy(fault)) == of(fault)
    assert of(other) != of(fault)
    assert of((fault, 1)) == of((copy.deepcopy(fault), 1)) != of((other, 1))
    assert of({"a": "x", "b": "x"}) == of({"a": "".join(["", "x"]), "b": "x"}) != of({"b": "x", "a": "x"})
    assert of(frozenset({"a", "b"})) == of(frozenset({"b", "a"}))


def test_what_cannot_be_told_has_no_digest() -> None:
    assert Digests().of(sys.stdout) is None


def test_a_function_is_told_by_its_name() -> None:
    def one() -> None: ...

    def two() -> None: ...

    of = Digests().of
    assert of(("rule", one)) == of(("rule", one)) != of(("rule", two))
    assert None not in {of(("rule", one)), of(("rule", two)), of(("rule", of_function))}
    # And after one that cannot be told all else is told as before.
    plain = of(("rule", 1))
    assert of(("rule", sys.stdout)) is None
    assert of(("rule", 1)) == plain


def of_function() -> None:
    """One that its module has by its name."""


def test_digests_are_those_of_any_other_run() -> None:
    """Hashes of texts are others in each process."""
    script = (
        "from kbtools.index.digests import Digests; from tests.support import factories as make;"
        "print(Digests().of((make.fault('sags', damaged=frozenset('abcdefg')), {'k': (1, 2.5, None)})))"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", script], env={"PYTHONHASHSEED": seed}, capture_output=True, check=True, text=True
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1
    assert "None" not in said.pop()


def test_an_answer_changes_with_what_is_asked_about_and_with_nothing_else() -> None:
    changed = dataclasses.replace(
        BASE, faults={**BASE.faults, "sticks": dataclasses.replace(BASE.faults["sticks"], title="Another")}
    )
    before, now = Answers(make.index(BASE), {}), Answers(make.index(changed), {})

    def same(name: str, key: object) -> bool:
        return before.digest(name, key_text(key)) == now.digest(name, key_text(key))

    assert same("published", "sags")
    assert not same("published", "sticks")
    assert not same("published", EVERYTHING)
    assert same("published has", "sticks")
    assert same("base.models", EVERYTHING)
    assert now.digest("published", key_text("gone")) == ABSENT
    assert now.digest("no such question", key_text("x")) is None


def test_the_digest_of_an_entry_is_known_again_by_what_it_was_read_from() -> None:
    fault = BASE.faults["sags"]
    base = dataclasses.replace(BASE, digests={fault.path: b"one", "checks.yml": b"shared"})
    first = Digests({}, read_from(base))
    digest = first.of(fault)
    assert list(first.entries.values()) == [digest]
    # Known: it is not even looked at.
    renamed = dataclasses.replace(fault, title="Another title")
    assert Digests(first.entries, read_from(base)).of(renamed) == digest
    # Its own file, or one that all share, says something else.
    for other in ({fault.path: b"two", "checks.yml": b"shared"}, {fault.path: b"one", "checks.yml": b"other"}):
        now = Digests(first.entries, read_from(dataclasses.replace(BASE, digests=other)))
        assert now.of(renamed) != digest
