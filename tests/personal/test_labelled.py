"""How much of the labelled personal data is seen, and how much else is taken for it: in the texts that the detectors
are developed on, and in those that are kept apart.

Run with `-s` to see the figures. The labels were written by hand.
"""

from __future__ import annotations

import pytest

from tests.personal.measure import FIND, MODULES, NONE, OPEN, WARNINGS, figures, labelled, open_parts, parts, shown

KEPT = [part for part in parts() if not part.startswith(OPEN)]
GOAL = 0.9
FLOORS = {"messenger": 0.75, "chat-link": 0.75}
"""Of kinds whose texts hold a number or a name as often as a link, and are seen as that."""
NOT_LOOKED_AT = "kept-fourth"
"""The part whose misses nobody has seen, so that its weakest kinds stay where they were measured."""
SHORT_OF = {"plate": 0.8, "name": 0.85}
"""There, of kinds that only warn."""


@pytest.mark.parametrize("part", KEPT)
def test_what_is_seen_and_one_in_twenty_harmless_texts_at_most(part: str) -> None:
    print(shown(part))
    got = figures(part)
    assert got.recall_of_all() >= GOAL
    for label in got.texts:
        if label != NONE:
            floors = {**FLOORS, **SHORT_OF} if part == NOT_LOOKED_AT else FLOORS
            assert got.recall(label) >= floors.get(label, GOAL), label
    assert got.false_alarm_rate() <= 0.05


@pytest.mark.parametrize("part", open_parts())
def test_each_kind_is_seen_in_the_open_parts(part: str) -> None:
    print(shown(part))
    got = figures(part)
    for kind in FIND:
        assert got.recall(kind) >= (0.9 if kind in WARNINGS else 0.94), kind
        most = 0.02 if kind in WARNINGS else 0.005
        assert got.false_alarms[kind] <= most * got.texts[NONE], kind


def test_there_are_enough_texts_half_of_them_harmless() -> None:
    sizes = {label: len(texts) for label, texts in labelled(OPEN).items()}
    assert set(sizes) == {*FIND, NONE}
    assert min(sizes.values()) >= 10
    assert sizes[NONE] >= sum(sizes.values()) / 2
    texts = [text for part in open_parts() for each in labelled(part).values() for text in each]
    # Some were thought of twice, by two people.
    assert len(texts) - len(set(texts)) < len(texts) / 20
    assert KEPT


@pytest.mark.parametrize("kind", list(FIND))
def test_the_quick_look_misses_nothing(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    quick = MODULES[kind].may_hold
    # Some detectors take the quick look themselves: here they must look without it, or nothing could be missed. What
    # they then see in other texts ("Relay 12 back") it is right to leave out.
    monkeypatch.setattr(MODULES[kind], "may_hold", lambda _: True)
    for part in open_parts():
        for text in labelled(part)[kind]:
            if any(True for _ in FIND[kind](text)):
                assert quick(text), text
                assert quick(f"First line\n{text}\nlast line"), text
