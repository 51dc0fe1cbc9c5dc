"""How much of the labelled personal data is seen, and how much else is taken for it: for the texts that the detectors
were developed against, and for the third that was kept apart.

Run with `-s` to see the figures. The labels were written by hand, before the detectors.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass

import pytest
import yaml

from kbtools.personal import address, email, name, phone, plate, vin
from kbtools.personal.span import Span
from tests.support.places import TESTS

FOLDER = TESTS / "personal_data"
FIND: dict[str, Callable[[str], Iterable[Span]]] = {
    "email": email.find,
    "phone": phone.find,
    "vin": vin.find,
    "plate": plate.find,
    "address": address.find,
    "name": name.find,
}
MAY_HOLD: dict[str, Callable[[str], bool]] = {
    "email": email.may_hold,
    "phone": phone.may_hold,
    "vin": vin.may_hold,
    "plate": plate.may_hold,
    "address": address.may_hold,
    "name": name.may_hold,
}
ERRORS = ("email", "phone", "vin")
"""Kinds whose rules give errors: they must hardly ever be wrong. The others warn, and are guesses."""


@dataclass(frozen=True, kw_only=True)
class Figures:
    texts: Counter[str]
    seen: Counter[str]
    false_alarms: Counter[str]
    """Kind that was wrongly seen → how often, in texts of any other label."""

    def recall(self, kind: str) -> float:
        return self.seen[kind] / self.texts[kind]


def labelled(part: str) -> dict[str, list[str]]:
    loaded: dict[str, list[str]] = yaml.load((FOLDER / f"{part}.yml").read_text("utf-8"), Loader=yaml.BaseLoader)
    return loaded


def every_text(part: str) -> list[str]:
    return [text for texts in labelled(part).values() for text in texts]


def figures(part: str) -> Figures:
    texts, seen, false_alarms = Counter[str](), Counter[str](), Counter[str]()
    for label, lines in labelled(part).items():
        for text in lines:
            texts[label] += 1
            found = {kind for kind, find in FIND.items() if any(True for _ in find(text))}
            seen[label] += label in found
            false_alarms.update(found - {label})
    return Figures(texts=texts, seen=seen, false_alarms=false_alarms)


@pytest.mark.parametrize("part", ["open", "kept"])
def test_personal_data_is_seen_and_little_else_is(part: str) -> None:
    got = figures(part)
    for kind in FIND:
        line = (
            f"{part:5} {kind:8} {got.seen[kind]:3} of {got.texts[kind]:3} seen, {got.false_alarms[kind]} false alarms"
        )
        print(line)
    for kind in FIND:
        assert got.recall(kind) >= (0.9 if kind in ERRORS else 0.7), (part, kind)
        most = 0.02 if kind in ERRORS else 0.05
        assert got.false_alarms[kind] <= most * got.texts["none"], (part, kind)


def test_there_are_enough_texts_half_of_them_innocent_and_a_third_kept() -> None:
    sizes = {part: {kind: len(texts) for kind, texts in labelled(part).items()} for part in ("open", "kept")}
    total = sum(sum(each.values()) for each in sizes.values())
    assert total >= 200
    assert sum(each["none"] for each in sizes.values()) >= total / 2
    assert abs(sum(sizes["kept"].values()) - total / 3) <= 0.02 * total
    assert set(sizes["open"]) == set(sizes["kept"]) == {*FIND, "none"}
    assert not set(every_text("open")) & set(every_text("kept"))


@pytest.mark.parametrize("kind", list(FIND))
def test_the_quick_look_misses_nothing(kind: str) -> None:
    for text in every_text("open"):
        if any(True for _ in FIND[kind](text)):
            assert MAY_HOLD[kind](text), text
            assert MAY_HOLD[kind](f"First line\n{text}\nlast line"), text
