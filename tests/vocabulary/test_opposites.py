"""Opposites: what makes two faults of texts that are nearly the same word for word."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbtools.edges.shipped import tables
from kbtools.similarity.comparison import comparable
from kbtools.similarity.features import Readier
from kbtools.similarity.lexicon import Lexicon
from kbtools.vocabulary.failures import ways_alike
from kbtools.vocabulary.opposites import against, numbers, numbers_alike
from kbtools.vocabulary.stems import Equals, sequence, stem
from kbtools.vocabulary.tables import shipped_words
from kbtools.vocabulary.whole import Vocabulary
from tests.support import labelled_entries as labelled
from tests.support.patience import within_reason

TABLES = tables()
KNOWN = Vocabulary(tables=TABLES)
AXES = KNOWN.axes
GROUPS = [group.phrases for group in KNOWN.groups]
NEITHER = [phrase for words in shipped_words(TABLES) for phrase in words.neither]
stand = KNOWN.opposites.stand
ways = KNOWN.failures.named


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("Voltage too high", "Voltage too low"),
        ("Front brake drags", "Rear brake drags"),
        ("Left fork seal weeps", "Right fork seal weeps"),
        ("Stops charging when hot", "Stops charging when cold"),
        ("Sensor wire open circuit", "Sensor wire shorted"),
        ("Runs rich", "Runs lean"),
        ("Starter will not start", "Starter will not stop"),
        ("Jumps out of second gear", "Jumps out of fourth gear"),
        ("Misfire on cylinder 1", "Misfire on cylinder 2"),
        ("No charge when hot, fine when cold", "No charge when cold, fine when hot"),
        ("Never gets hot", "Gets too hot"),
        ("Thermostat does not open", "Thermostat does not close"),
    ],
)
def test_opposites_stand_against_each_other(left: str, right: str) -> None:
    assert against(stand([left]), stand([right]))


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("No charge when hot, fine when cold", "Charging stops with a hot engine"),
        ("Stays cold on the motorway", "Never gets hot"),
        ("Dies when hot and restarts after cooling", "Cuts out hot"),
        ("Nothing happens on downshifts", "Fails when shifting down"),
        ("Front and rear lamps flicker", "Front lamp flickers"),
        ("It comes back right after clearing", "It comes back on the left"),
        ("No front brake after a stop", "Front brake without effect"),
        ("Oil, charge and engine lamp stay dark", "Charge lamp stays dark"),
        ("Rail pressure collapses at high revs", "Fuel pressure too low"),
        ("Fan stops with its relay taken out", "Fan does not stop"),
    ],
)
def test_what_is_no_opposite_does_not(left: str, right: str) -> None:
    assert not against(stand([left]), stand([right]))


HOT, COLD, BOTH = 1, 2, 3


@pytest.mark.parametrize(
    ("text", "sides"),
    # What plain English says, no source.
    [
        ("Rattles when hot", HOT),
        ("Rattles when hot, fine when cold", HOT),
        ("Fine except when hot", HOT),
        ("Rattles except when cold", HOT),
        ("No trouble when cold", HOT),
        ("Nothing wrong when cold", HOT),
        ("No better when hot", HOT),
        ("Not fine when hot", HOT),
        ("Works only when cold", HOT),
        ("Less when cold", HOT),
        ("Not until it is hot", HOT),
        ("Will not start again when hot", HOT),
        ("Hot although the rider was cold", HOT),
        ("Hot when it should be cold", HOT),
        ("Hot rather than cold", HOT),
        ("Rattles until it is hot", COLD),
        ("All right when hot", COLD),
        ("Runs again when hot", COLD),
        ("Not hot", COLD),
        ("Not too hot", COLD),
        ("Eases as it gets hot", COLD),
        ("Not only when hot", BOTH),
        ("Hot and cold", BOTH),
        ("Does not idle hot", HOT),
        ("Nothing on hot days", HOT),
        ("Cooling fan runs on", 0),
        ("Oil cooler leaks", 0),
    ],
)
def test_a_sentence_is_about_the_side_that_its_turns_leave(text: str, sides: int) -> None:
    assert stand([text]).get("hot / cold", 0) == sides


@pytest.mark.parametrize(
    ("text", "axis"),
    # Words that look like a side and are none: common usage, no source.
    [
        ("Rear shock damper leaks", "wet / dry"),
        ("Copper washer missing at the sump plug", "wet / dry"),
        ("Misfires at high revs", "high / low"),
        ("The lever springs back", "front / rear"),
        ("Goes flat in seconds", "gear"),
        ("No longer slips", "too long / too short"),
        ("Seat strap not fastened", "fast / slow"),
    ],
)
def test_a_word_that_names_no_side_there_is_not_taken_for_one(text: str, axis: str) -> None:
    assert axis not in stand([text])


@settings(max_examples=80, deadline=None)
@given(st.text(max_size=200))
def test_any_text_has_a_stand_and_never_stands_against_itself(text: str) -> None:
    assert against(stand([text]), stand([text])) == ()


# Ways of failing, and slips of the keys that hide an opposite


@pytest.mark.parametrize(
    ("left", "right", "alike"),
    # Common practice, no source.
    [
        ("Cable frayed", "Strands of the cable snapped", 1.0),
        ("Plug of the regulator corroded", "Green crust in the plug", 1.0),
        ("Spokes loose", "Spokes broken", 0.0),
        ("Filter clogged", "Filter torn", 0.0),
    ],
)
def test_a_part_fails_in_one_way_or_another(left: str, right: str, alike: float) -> None:
    assert ways([left])
    assert ways([right])
    assert ways_alike(ways([left]), ways([right])) == alike


def test_a_misspelt_opposite_is_read_as_it_was_meant() -> None:
    lexicon = Lexicon([["tap does not clsoe"], ["tap does not open"]], Equals([]), settled={"open", "close"})
    known = {stem(word): word for word in ("open", "close")}
    assert lexicon.meant("Tap does not clsoe", known) == "Tap does not close"
    assert lexicon.meant("Tap does not open", known) == "Tap does not open"


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("Blue smoke from the silencer", "White smoke from the silencer"),
        ("Oil drips from the cover", "Coolant drips from the cover"),
        ("Tail light flickers", "Brake light flickers"),
        ("Speedometer stands still", "Rev counter stands still"),
        ("Inside pad worn", "Outside pad worn"),
        ("Temperature gauge jumps to full with a cool engine", "Temperature gauge stays at cold with a hot engine"),
    ],
)
def test_the_tables_tell_more_of_the_trade_apart(left: str, right: str) -> None:
    assert against(stand([left]), stand([right]))


def test_what_an_instrument_shows_is_told_whatever_the_engine_is() -> None:
    one, other = "Gauge jumps to hot although the engine is cool", "Display jumps to full with a cool engine"
    assert not against(stand([one]), stand([other]))


@pytest.mark.parametrize("word", ["with ", "with taken ", "only ", "fires ", "should ", "gauge with ", "x"])
def test_a_hostile_text_takes_no_time(word: str) -> None:
    with within_reason():
        stand([word * 4000])


# Numbers


@pytest.mark.parametrize(
    ("left", "right", "apart"),
    [
        ("Misfire on cylinder 1", "Misfire on cylinder 2", True),
        ("Bars shake at 70", "Bars shake at 150", True),
        ("Bars shake at 70", "Bars shake at 80", False),
        ("Cuts out above 4000", "Cuts out above 7000", True),
        ("Shakes at 80", "Shakes at 80 and at 160", False),
        ("15.2 V at 4000", "Cuts out above 4000", False),
        ("Code P0562 stored", "Code P0563 stored", None),
        ("No number", "Shakes at 80", None),
    ],
)
def test_titles_that_number_other_things_are_about_other_things(left: str, right: str, apart: bool | None) -> None:
    one, other = numbers(left), numbers(right)
    if one is None or other is None:
        assert apart is None
    else:
        assert (numbers_alike(one, other) == 0.0) is apart
        assert numbers_alike(one, other) == numbers_alike(other, one)


# The tables


def test_no_phrase_stands_on_two_sides_of_an_axis() -> None:
    for axis in AXES:
        sides = [{tuple(sequence(phrase)) for phrase in side} for side in (*axis.sides, axis.neither)]
        for at, side in enumerate(sides):
            assert all(side.isdisjoint(other) for other in sides[:at]), (axis.name, side)


def test_every_axis_has_sides_and_a_name_of_its_own() -> None:
    assert all(len(axis.sides) > 1 for axis in AXES)
    assert len({axis.name for axis in AXES}) == len(AXES)
    assert all(sequence(phrase) for axis in AXES for side in (*axis.sides, axis.neither) for phrase in side)
    assert all(sequence(phrase) for phrase in NEITHER)
    assert KNOWN.opposites.written


def test_no_group_of_like_words_is_empty_or_a_word_alone() -> None:
    assert all(len({tuple(sequence(name)) for name in group}) > 1 for group in GROUPS)


def test_no_group_of_like_words_holds_two_sides_of_an_axis() -> None:
    """Words whose difference tells two faults apart are not of like meaning, whoever wrote the line."""
    singles = {
        tuple(sequence(phrase)): (axis.name, number)
        for axis in AXES
        if len(axis.sides) == 2
        for number, side in enumerate(axis.sides)
        for phrase in side
        if len(sequence(phrase)) == 1
    }
    wrong = []
    for group in GROUPS:
        named = [singles[way] for name in group if (way := tuple(sequence(name))) in singles]
        if len({axis for axis, _ in named}) < len(set(named)):
            wrong.append(group)
    assert wrong == []


def test_titles_of_one_fault_never_stand_against_each_other(thorough: bool) -> None:
    """A title that does ends the comparison, so the tables and patterns must not be wrong on what we have."""
    for part in labelled.CHOSEN[:: 1 if thorough else 4]:
        chosen = labelled.faults(part)
        readier = Readier(chosen.base, comparable(chosen.base))
        stands = {name: readier.ready(fault).title_stand for name, fault in chosen.base.faults.items()}
        for pair in chosen.same:
            one, other = (stands[each] for each in pair)
            assert not against(one, other), [chosen.base.faults[each].title for each in pair]
