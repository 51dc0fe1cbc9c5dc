"""Who stands for an entry that is gone, and where site, rules and comparison differ."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kbtools.index.apart import told_apart, told_apart_as_written
from kbtools.index.entries import living, published, titles, tombstones
from kbtools.index.heirs import claims, end_of, ends, heirs, heirs_of_gone, renamed, stands_for
from kbtools.model.fault import DistinctFrom
from tests.support.factories import base, fault, withdrawn

BASE = base(
    fault("kept", formerly=("first", "twice")),
    fault("draft", draft=True, formerly=("second", "twice")),
    fault("gone", withdrawn=withdrawn(replaced_by="first"), formerly=("third", "kept")),
    fault("secret", draft=True, withdrawn=withdrawn(replaced_by="kept")),
)


def test_the_states_of_entries() -> None:
    assert list(published(BASE)) == ["kept"]
    assert list(tombstones(BASE)) == ["gone"]
    assert list(living(BASE)) == ["kept", "draft"]
    assert titles(BASE)["secret"] == "Title of secret"


def test_old_ids_lead_on_where_there_is_a_page() -> None:
    assert renamed(BASE) == {"first": "kept", "twice": "kept", "third": "gone", "kept": "gone"}


def test_the_comparison_knows_drafts_by_their_old_ids_too() -> None:
    assert heirs(BASE) == {"first": "kept", "twice": "draft", "second": "draft", "third": "gone", "kept": "gone"}


def test_for_the_rules_an_id_that_is_borne_is_no_old_one() -> None:
    assert "kept" not in heirs_of_gone(BASE)
    assert heirs_of_gone(BASE).keys() == heirs(BASE).keys() - {"kept"}


def test_who_claims_an_old_id() -> None:
    assert claims(BASE)["twice"] == ("kept", "draft")


def test_replaced_by_leads_on_by_an_old_id_for_readers_only() -> None:
    """That the name is an old one is KB310; KB315 and KB706 take it as written, which leads nowhere."""
    assert stands_for(BASE) == {"gone": "kept"}
    assert end_of(BASE, "gone") == "gone"
    assert end_of(BASE, "secret") == "kept"


def test_a_circle_has_no_end_and_neither_has_what_leads_into_it() -> None:
    names = {"into": "one", "one": "two", "two": "one", "alone": "alone"}
    knowledge = base(*(fault(each, withdrawn=withdrawn(replaced_by=other)) for each, other in names.items()))
    assert [end_of(knowledge, each) for each in names] == [None] * 4
    assert stands_for(knowledge) == {}


def test_a_long_chain_ends_at_its_end() -> None:
    count = 5000
    chain = {str(number): str(number + 1) for number in range(count)}
    assert set(ends(chain).values()) == {str(count)}


def one_by_one(start: str, after: dict[str, str]) -> str | None:
    """By the words of the format: as many steps as there are entries lead to the end, or round a circle."""
    at = start
    for _ in range(len(after) + 1):
        at = after.get(at, at)
    return None if at in after else at


@given(st.dictionaries(st.sampled_from("abcdef"), st.sampled_from("abcdefxy"), max_size=6))
def test_ends_are_those_that_one_comes_to_step_by_step(after: dict[str, str]) -> None:
    assert ends(after) == {start: one_by_one(start, after) for start in after}


def test_old_ids_stand_for_their_heirs_where_entries_are_told_apart() -> None:
    apart = (DistinctFrom(fault="old-b", because="That one is dry.", at=""),)
    knowledge = base(fault("a", distinct_from=apart), fault("b", formerly=("old-b",)))
    assert told_apart(knowledge) == {frozenset({"a", "b"})}
    assert told_apart_as_written(knowledge) == {frozenset({"a", "old-b"})}
