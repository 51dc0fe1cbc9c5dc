"""Ids: of what is named, of what is new."""

from __future__ import annotations

import pytest

from kbtools.drafting.naming import UnknownNameError, id_of, new_id, next_case_id

SYSTEMS = {"charging": ["Charging"], "final-drive": ["Chain and sprockets"], "wheels": ["Wheels"], "rims": ["Wheels"]}


@pytest.mark.parametrize(
    ("typed", "meant"), [("charging", "charging"), (" CHARGING ", "charging"), ("chain and sprockets", "final-drive")]
)
def test_a_thing_is_named_by_id_or_name(typed: str, meant: str) -> None:
    assert id_of("system", typed, SYSTEMS) == meant


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("charing", 'There is no system "charing". Did you mean "charging" (Charging)?'),
        ("Chain and sprocket", 'Did you mean "final-drive" (Chain and sprockets)?'),
        ("radio", 'There is no system "radio".'),
        ("wheels ", None),
        ("Wheels", '"Wheels" may be wheels or rims: write which.'),
        ("", 'There is no system "".'),
    ],
)
def test_what_is_not_there_is_said_with_what_was_meant(typed: str, said: str | None) -> None:
    if said is None:
        assert id_of("system", typed, SYSTEMS) == "wheels"
        return
    with pytest.raises(UnknownNameError) as told:
        id_of("system", typed, SYSTEMS)
    assert str(told.value).endswith(said)


@pytest.mark.parametrize(
    ("title", "made"),
    [
        ("Horn goes quiet in the rain", "horn-goes-quiet-in-the-rain"),
        ("Zündung: 2-3 Aussetzer!", "zundung-2-3-aussetzer"),
        ("It's  the\tclutch", "its-the-clutch"),
        ("火花", ""),
        ("../../etc/passwd", "etc-passwd"),
        ("word " * 40, "-".join(["word"] * 12)),
        ("W" * 300, "w" * 60),
    ],
)
def test_a_title_gives_an_id(title: str, made: str) -> None:
    """Lower-case letters, digits and hyphens, as ids are; sixty characters at most, and no half words."""
    assert new_id(title) == made


def test_numbers_of_cases_go_on_over_the_years() -> None:
    known = ["wren-400-0001", "wren-400-0012", "wren-4000-0100", "wren-400-b-0200", "finch-0300", "wren-400-x"]
    assert next_case_id("wren-400", known) == "wren-400-0013"
    assert next_case_id("wren", known) == "wren-0001"
    assert next_case_id("finch", ["finch-9999"]) == "finch-10000"
