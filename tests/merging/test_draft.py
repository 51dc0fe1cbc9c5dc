"""One draft of two entries: what stands in it where both say something, and where only one does."""

from __future__ import annotations

import dataclasses
from typing import Any

from kbtools.merging.draft import Merged, merged
from kbtools.model.check import Use
from kbtools.model.fault import DistinctFrom, Fault
from tests.support import factories as make


def of(*faults: Fault, **others: Any) -> Merged:
    """The first two faults put together."""
    return merged(make.base(*faults, **others), faults[0], faults[1])


PLUG = make.cause("plug", summary="Corroded plug at the regulator", component="regulator")
TWIN = make.cause("green-plug", summary="Plug of the regulator corroded", component="regulator")


def test_the_same_cause_in_both_becomes_one_and_checks_point_to_it() -> None:
    other = make.cause("plug-2", summary="Stator burnt", component="stator")
    look = make.check("look", do="Look at it.", expect="Bright.", points_to=("green-plug", "plug-2"))
    a = make.fault("a", causes=(PLUG,))
    b = make.fault("b", causes=(TWIN, other), checks=(look,), related=("a", "c"))
    draft = of(a, b, make.fault("c"), cases=[make.case("x", "b")])
    assert [each.id for each in draft.fault.causes] == ["plug", "plug-2"]
    assert draft.fault.checks[0].points_to == ("plug", "plug-2")
    assert draft.fault.related == ("c",)
    assert draft.fault.formerly == ("b",)
    assert draft.cases == ("x",)


def test_what_a_merge_decides_is_decided() -> None:
    reviewed = make.fault("a")
    draft = of(reviewed, make.fault("b")).fault
    assert reviewed.reviewed is not None
    # A draft in the place of a published entry would take its page away.
    assert (draft.id, draft.path, draft.draft) == ("a", reviewed.path, False)
    assert of(make.fault("a", draft=True), make.fault("b")).fault.draft
    assert (draft.reviewed, draft.withdrawn) == (None, None)


def test_where_the_first_one_is_silent_the_second_ones_word_stands() -> None:
    bare = dataclasses.replace(PLUG, component=None, fix=None)
    (cause,) = of(make.fault("a", causes=(bare,)), make.fault("b", causes=(TWIN,))).fault.causes
    assert (cause.component, cause.fix) == ("regulator", TWIN.fix)
    codes = [make.code("P0562"), make.code("p0562", meaning="System voltage low")]
    draft = of(*(make.fault(name, codes=(code,)) for name, code in zip("ab", codes, strict=True)))
    (code,) = draft.fault.codes
    assert (code.read.text, code.meaning) == ("P0562", "System voltage low")


def test_no_caution_is_lost() -> None:
    one, other = (
        (make.fix(cautions=(caution,)), make.check(cautions=(caution,), points_to=("plug",)))
        for caution in ("battery-gas", "hot")
    )
    draft = of(
        make.fault("a", causes=(dataclasses.replace(PLUG, fix=one[0]),), checks=(one[1],), cautions=("high",)),
        make.fault("b", causes=(dataclasses.replace(PLUG, fix=other[0]),), checks=(other[1],), cautions=("fuel",)),
    ).fault
    assert draft.cautions == ("high", "fuel")
    assert draft.causes[0].fix is not None
    assert draft.causes[0].fix.cautions == ("battery-gas", "hot")
    assert draft.checks[0].cautions == ("battery-gas", "hot")


def test_the_stricter_advice_stands_with_every_sign_to_stop_at() -> None:
    mild = make.advice("ride-with-care", why="It pulls.", stop_if=("It smokes",))
    strict = make.advice("do-not-ride", why="It locks.", stop_if=("It grinds",))
    draft = of(make.fault("a", ride_advice=mild), make.fault("b", ride_advice=strict))
    assert draft.fault.ride_advice == make.advice(
        "do-not-ride", why="It locks. It pulls.", stop_if=("It grinds", "It smokes")
    )
    assert 'Left out of a: ride_advice / level: "ride-with-care"; the draft has "do-not-ride".' in draft.notes


def test_a_cause_that_both_know_is_claimed_for_the_machines_of_both() -> None:
    early, late = make.row(when="2003-2005"), make.row(when="2006-2008")
    first = make.fault(
        "a", applies_to=(make.row(when="2003-2007"),), causes=(dataclasses.replace(PLUG, applies_to=(early,)),)
    )
    second = make.fault("b", applies_to=(late,), causes=(TWIN, make.cause("burnt", summary="Stator burnt")))
    plug, burnt = of(first, second).fault.causes
    # 2003 to 2008 is all that the draft is about.
    assert plug.applies_to == ()
    assert [(row.model, row.years) for row in burnt.applies_to] == [("bittern-900", late.years)]


def test_a_recall_covers_what_it_covered_and_no_more() -> None:
    """Who is told that the maker pays, and it does not, has ridden to the dealer for nothing."""
    recall = make.source("recall", number="0123")
    early, late = make.row(when="2003-2005"), make.row(when="2007")
    first = make.fault("a", applies_to=(early,), causes=(PLUG,), sources=(recall, make.source("forum")))
    second = make.fault("b", applies_to=(late,), causes=(make.cause("burnt", summary="Stator burnt"),), sources=())
    told, thread = of(first, second).fault.sources
    assert (told.applies_to, told.covers) == ((early,), ("plug",))
    assert (thread.applies_to, thread.covers) == ((), ())
    both = of(first, dataclasses.replace(second, sources=(recall,))).fault.sources[0]
    assert (both.applies_to, both.covers) == ((), ())


def test_what_names_left_out_causes_only_is_left_out_and_named() -> None:
    """With none named, a recall would cover all; a check would speak for nothing."""
    names = ["ash", "birch", "cedar", "elm", "fir", "hazel", "larch", "maple", "oak", "pine", "rowan", "willow"]
    first = make.fault("a", causes=tuple(make.cause(name, summary=f"{name} broken") for name in names))
    second = make.fault(
        "b",
        causes=(make.cause("zinc", summary="Zinc eaten away"),),
        checks=(make.check("scratch", points_to=("zinc",)),),
        sources=(make.source("recall", covers=("zinc",)),),
    )
    draft = of(first, second)
    assert [cause.id for cause in draft.fault.causes] == names
    assert (draft.fault.checks, draft.fault.sources) == ((), first.sources)
    assert "Left out of b: causes / zinc, since an entry has 12 at most." in draft.notes
    named = [note for note in draft.notes if note.endswith(", since none of the causes that it names is there.")]
    assert [note.split(",")[0] for note in named] == [
        "Left out of b: checks / scratch",
        "Left out of b: sources / A recall",
    ]


def test_access_jobs_are_counted_over_all_work() -> None:
    def working(name: str, *jobs: str) -> Fault:
        return make.fault(name, causes=(make.cause(f"{name}-worn", summary=f"{name} worn", fix=make.fix(access=jobs)),))

    draft = of(working("tank", "seat-off", "tank-off", "airbox-out"), working("fork", "wheel-out", "fork-out"))
    assert [cause.id for cause in draft.fault.causes] == ["tank-worn"]
    assert "Left out of fork: causes / fork-worn, since an entry takes 4 access jobs at most." in draft.notes


def test_a_code_alone_and_with_another_one_are_two_rows() -> None:
    alone = make.code("P0562")
    beside = make.code("P0562", with_codes=(make.code("P0563").read,))
    assert of(make.fault("a", codes=(alone,)), make.fault("b", codes=(beside,))).fault.codes == (alone, beside)


def test_that_they_were_told_apart_is_told() -> None:
    apart = make.make(DistinctFrom, {"fault": "b", "because": "Another plug.", "at": ""}, {})
    draft = of(make.fault("a", distinct_from=(apart,)), make.fault("b"))
    assert draft.fault.distinct_from == ()
    assert any("distinct_from" in note and "Another plug." in note for note in draft.notes)


def test_shares_are_for_all_causes_or_for_none() -> None:
    first = make.fault("a", causes=(dataclasses.replace(PLUG, share=6.0),))
    draft = of(first, make.fault("b", causes=(make.cause("burnt", summary="Stator burnt"),)))
    assert [cause.share for cause in draft.fault.causes] == [None, None]
    assert 'Left out of a: causes / plug / share: "often".' in draft.notes


def test_what_cannot_be_read_is_not_passed_over() -> None:
    damaged = dataclasses.replace(make.fault("b"), damaged=frozenset({"/causes/0/fix"}))
    assert any(damaged.path in note for note in of(make.fault("a"), damaged).notes)


def test_what_the_first_one_knows_of_all_its_machines_is_made_no_question_of() -> None:
    asked = dataclasses.replace(TWIN, only_if="Is the plug grey?")
    draft = of(make.fault("a", causes=(PLUG,)), make.fault("b", causes=(asked,)))
    assert draft.fault.causes[0].only_if is None
    assert 'Left out of b: causes / plug / only_if: "Is the plug grey?".' in draft.notes
    assert (
        of(make.fault("a", causes=(asked,)), make.fault("b", causes=(PLUG,))).fault.causes[0].only_if == asked.only_if
    )


def test_two_causes_that_say_the_same_in_other_words_are_one() -> None:
    def with_cause(fault: str, summary: str, component: str) -> Fault:
        return make.fault(fault, causes=(make.cause(f"of-{fault}", summary=summary, component=component),))

    first = with_cause("a", "Corroded plug at the regulator", "regulator")
    draft = of(first, with_cause("b", "Plug of the regulator is rusty", "regulator")).fault
    assert [each.id for each in draft.causes] == ["of-a"]
    # Another part, or the same one that fails in another way, is another cause.
    for summary, component in (
        ("Corroded plug at the stator", "stator"),
        ("Regulator no longer limits the voltage", "regulator"),
    ):
        assert len(of(first, with_cause("b", summary, component)).fault.causes) == 2


def test_where_nothing_is_left_out_nothing_is_told() -> None:
    first = make.fault("a", title="Lamp glows", causes=(PLUG,), codes=(make.code("P0562"),), related=("b",))
    second = dataclasses.replace(first, id="b", codes=(make.code("p 0562"),), related=("a",), reviewed=None)
    draft = of(first, second)
    assert draft.notes == ()
    assert draft.fault == dataclasses.replace(first, related=(), reviewed=None, formerly=("b",))


def test_a_shared_check_of_both_points_to_the_causes_of_both() -> None:
    said = Use(finds_said=True, before_riding=False, known=True)
    asked = Use(finds_said=False, before_riding=True, known=True)
    first = make.fault(
        "one", causes=(make.cause("a"),), checks=(make.check("rest", points_to=("a",), finds=0.7, use=said),)
    )
    second = make.fault(
        "two",
        causes=(make.cause("b", component="b", summary="Quite another thing"),),
        checks=(make.check("rest", points_to=("b",), before_riding=True, use=asked),),
    )
    draft = merged(make.base(first, second), first, second)
    (check,) = draft.fault.checks
    assert (check.id, set(check.points_to), check.finds, check.before_riding) == ("rest", {"a", "b"}, 0.7, True)
    assert check.use == Use(finds_said=True, before_riding=True, known=True)
