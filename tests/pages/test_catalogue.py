"""In which order pages are made, and what is worked out for several of them."""

from __future__ import annotations

import datetime as dt
from collections import Counter

import pytest

from kbtools.export.fault_json import Reckoned, reckon
from kbtools.index.answers import Index
from kbtools.index.build import build_index
from kbtools.model.fault import Fault
from kbtools.pages.catalogue import Catalogue
from tests.support.all_pages import catalogue_of
from tests.support.demo_read import demo_with

TODAY = dt.date(2026, 6, 1)


def catalogue() -> Catalogue:
    return catalogue_of(build_index(demo_with().base, TODAY), TODAY)


def test_a_plan_is_worked_out_once_for_all_pages_that_tell_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    reckoned: Counter[str] = Counter()

    def counting(fault: Fault, index: Index) -> Reckoned | None:
        reckoned[fault.id] += 1
        return reckon(fault, index)

    monkeypatch.setattr("kbtools.pages.faults.reckon", counting)
    made = catalogue()
    for each in made.in_order():
        each.make()
    assert reckoned.keys() == made.index.published.keys()
    assert set(reckoned.values()) == {1}


def test_what_is_made_from_one_fault_is_made_together() -> None:
    order = [each.member for each in catalogue().in_order()]
    places: dict[str, list[int]] = {}
    for place, member in enumerate(order):
        places.setdefault(member, []).append(place)
    faults = catalogue().index.published
    assert all(own[-1] - own[0] == len(own) - 1 >= 1 for member, own in places.items() if member in faults)
