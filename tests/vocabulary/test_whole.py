"""The vocabulary as finder, comparison and rules ask it, and what a club's words.yml does to it."""

from __future__ import annotations

from typing import Any

import pytest

from kbtools.model.vocabulary import Tables
from kbtools.vocabulary.opposites import against
from kbtools.vocabulary.stems import sequence
from kbtools.vocabulary.tables import words_of_data
from kbtools.vocabulary.whole import Vocabulary, stems_of

OURS = """\
parts: [[silencer, muffler, bean tin]]
same: [[leaks, weeps]]
kin: [[leaks, sweats], [not start, cranks forever]]
opposites:
  - {name: hot / cold, sides: [[hot], [cold]], neither: [cold feet]}
danger: {fuel: [petrol, fuel line], brakes: [caliper]}
harmless: [relay]
"""


def vocabulary(own: Any = None) -> Vocabulary:
    return Vocabulary(tables=Tables(files=(("ours", OURS),)), own=words_of_data(own, "words"))


def kin(known: Vocabulary, phrase: str) -> dict[str, float]:
    return {" ".join(way): weight for way, weight in known.kin(stems_of(phrase)).items()}


def test_what_means_the_same_counts_in_full_and_what_is_near_less() -> None:
    found = kin(vocabulary(), "leaking")
    assert found["weep"] == 1.0
    assert 0 < found["sweat"] < 1
    # Kin of kin are no kin.
    assert "sweat" not in kin(vocabulary(), "weeps")
    assert kin(vocabulary(), "unheard of") == {}


def test_phrases_are_found_where_they_stand_whatever_their_endings() -> None:
    words = sequence("The bean tins leaked, and it won't start")
    found = {(span.start, span.end) for span in vocabulary().phrases_in(words)}
    assert found == {(1, 3), (3, 4), (6, 8)}


def test_a_club_adds_a_group_and_takes_a_word_out() -> None:
    known = vocabulary({"slang": [["muffler", "loud pipe"]], "without": ["bean tin"]})
    assert "loud pipe" in kin(known, "mufflers")
    assert kin(known, "bean tin") == {}
    assert "muffler" in kin(known, "silencer")


def test_a_club_tells_words_apart_that_we_hold_for_one() -> None:
    known = vocabulary({"apart": [["silencer", "muffler"]]})
    assert set(kin(known, "silencer")) == {"bean tin"}
    assert set(kin(known, "muffler")) == {"bean tin"}


def test_a_list_alone_is_a_list_of_groups_that_mean_the_same() -> None:
    assert kin(vocabulary([["tickover", "idle"]]), "idles") == {"tickov": 1.0}
    assert vocabulary({"words": [["tickover", "idle"]]}).groups == vocabulary([["tickover", "idle"]]).groups


@pytest.mark.parametrize(
    ("own", "left", "right", "apart"),
    [
        ({}, "Rattles when hot", "Rattles when cold", True),
        ({}, "Rattles when hot", "Rider has cold feet", False),
        ({"opposites": [{"name": "hot / cold", "sides": [["sun-baked"], ["frozen"]]}]}, "Sun-baked", "Cold", True),
        (
            {"opposites": [{"name": "old / new loom", "sides": [["first loom"], ["late loom"]]}]},
            "First loom",
            "Late loom",
            True,
        ),
        ({"without": ["cold"]}, "Rattles when hot", "Rattles when cold", False),
        ({"neither": ["cold start"]}, "Rattles when hot", "Rattles at cold start", False),
    ],
)
def test_a_club_adds_sides_and_takes_phrases_out_of_them(own: Any, left: str, right: str, apart: bool) -> None:
    stand = vocabulary(own).opposites.stand
    assert bool(against(stand([left]), stand([right]))) is apart


def test_dangers_are_named_with_the_words_of_the_text() -> None:
    known = vocabulary()
    assert known.dangers("Fuel lines and Calipers") == {"fuel": ("fuel lines",), "brakes": ("calipers",)}
    assert known.dangers("Dim lamp") == {}
    assert known.is_harmless("Petrol pump relay")


def test_what_a_club_calls_the_same_is_as_dangerous_and_what_is_only_near_is_not() -> None:
    assert set(vocabulary([["petrol", "moonshine"]]).dangers("a can of moonshine")) == {"fuel"}
    assert vocabulary({"kin": [["petrol", "thirst"]]}).dangers("thirst") == {}
    assert set(vocabulary({"danger": {"lifting": ["club ramp"]}}).dangers("on the club ramp")) == {"lifting"}
    assert vocabulary({"without": ["petrol"]}).dangers("petrol") == {}
