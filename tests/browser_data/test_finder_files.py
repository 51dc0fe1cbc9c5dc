"""The finder's data: what is in it, where it leads, and that no text of an entry can harm it."""

from __future__ import annotations

import datetime as dt
import json
from itertools import accumulate
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.browser_data.finder import terms as words
from kbtools.index.build import build_index
from tests.support.all_pages import all_pages
from tests.support.demo_read import demo_with
from tests.support.finder_base import codes_of, entries_of, files, knowledge, terms_of, vectors
from tests.support.patience import within_reason
from tests.support.places import ROOT

TODAY = dt.date(2026, 6, 1)
FAULT = "faults/charging/battery-flat-overnight.yml"


def changed(path: str, **keys: object) -> dict[str, Any]:
    files = vectors()["files"]
    return {**files, path: {**files[path], **keys}}


@pytest.fixture(scope="module")
def there() -> set[str]:
    """Addresses of the demo's pages."""
    base = demo_with().base
    generated = {spec.address for spec in all_pages(build_index(base, TODAY), TODAY)}
    return generated | {page.path.removeprefix("pages/").removesuffix(".md") + "/" for page in base.pages}


@pytest.fixture(scope="module")
def demo_data(there: set[str]) -> dict[str, Any]:
    """The finder's files of the demo."""
    return dict(files(demo_with().base, there))


def test_every_answer_leads_to_a_page_of_the_demo(demo_data: dict[str, Any], there: set[str]) -> None:
    data = demo_data
    addresses = {entry["address"] for entry in entries_of(data)} | {*pages_of(data).values()}
    addresses |= {
        f"{model['address']}{year}/"
        for model in data["root.json"]["models"]
        for year in range(model["first"], model["last"] + 1)
    }
    assert addresses - there == set()
    assert {entry["kind"] for entry in entries_of(data)} == {"fault", "code", "model", "system", "component", "values"}


def pages_of(data: dict[str, Any]) -> dict[str, str]:
    pages: Any = data["root.json"]["pages"]
    return {name: address for name, address in pages.items() if address is not None}


def test_drafts_and_withdrawn_entries_and_their_codes_are_not_found() -> None:
    found = {entry["address"] for entry in entries_of(files(knowledge()))}
    assert {"faults/stalls-when-hot/", "codes/p0230/"} <= found
    assert not found & {"faults/old-entry/", "faults/draft-entry/", "codes/p0171/", "codes/p0172/"}


def entry(address: str, base: dict[str, Any] | None = None) -> dict[str, Any]:
    return next(each for each in entries_of(files(knowledge(base))) if each["address"] == address)


def test_a_code_carries_the_strictest_advice_of_its_faults() -> None:
    assert entry("codes/p0562/")["ride"] == "do-not-ride"
    assert entry("codes/p0230/")["ride"] == "ride-with-care"


def test_models_and_systems_carry_no_ride_advice_at_all() -> None:
    assert "ride" not in entry("models/bittern-900/")
    assert "ride" not in entry("systems/charging/")


def test_the_years_are_those_in_which_the_control_unit_is_fitted() -> None:
    assert entry("faults/no-spark-when-hot/")["models"] == [["Dunlin 650", "1994–1997"]]


def test_all_years_are_the_years_of_the_model() -> None:
    assert entry("faults/battery-flat-overnight/")["models"] == [["Bittern 900", "2003–2012"]]


def test_rows_of_years_that_touch_are_shown_as_one() -> None:
    rows = [{"model": "bittern-900", "years": years} for years in ("2004-2006", "2003", "2010-2012")]
    assert entry("faults/battery-flat-overnight/", changed(FAULT, applies_to=rows))["models"] == [
        ["Bittern 900", "2003–2006, 2010–2012"]
    ]


def test_a_fault_that_follows_on_comes_after_the_root_fault() -> None:
    data = files(knowledge())
    entries = entries_of(data)
    place, faults = next(each for key, each in codes_of(data).items() if key.endswith(" P0562"))
    assert entries[place]["address"] == "codes/p0562/"
    # Files are read in the order of their paths, so the fault that follows on was read first.
    found = [(entries[fault]["address"], follows) for fault, follows in faults]
    assert found == [("faults/voltage-sags-when-wet/", 0), ("faults/lamp-when-rolling/", 1)]


def test_only_pages_that_are_there_are_named() -> None:
    assert pages_of(files(knowledge(), ())) == {"codes": "codes/"}
    all_three = {"codes": "codes/", "contribute": "contribute/", "several": "several/"}
    assert pages_of(files(knowledge(), ("contribute/", "several/"))) == all_three


def test_a_machine_finds_the_faults_and_codes_of_its_year() -> None:
    data = files(knowledge())
    entries = entries_of(data)

    def concerned(model: str, year: int) -> set[str]:
        return {entries[place]["address"] for place in accumulate(data[f"bikes/{model}/{year}.json"])}

    assert "faults/no-spark-when-hot/" in concerned("dunlin-650", 1997)
    assert "faults/no-spark-when-hot/" not in concerned("dunlin-650", 1998)
    assert "faults/battery-flat-overnight/" in concerned("bittern-900", 2012)
    assert {address.split("/")[0] for address in concerned("bittern-900", 2005)} == {"faults", "codes"}


def test_of_two_faults_the_one_with_more_case_reports_stands_first(demo_data: dict[str, Any]) -> None:
    counts = [each.get("cases", 0) for each in entries_of(demo_data) if each["kind"] == "fault"]
    assert counts == sorted(counts, reverse=True)
    assert len(set(counts)) > 2


def test_an_entry_is_found_by_what_owners_reported() -> None:
    symptom = {"vehicle": {"model": "bittern-900", "year": 2007, "odometer": "61200 km"}, "seen": "2026-03-02"}
    case = {
        **symptom,
        "symptoms": ["Zither hum at walking pace"],
        "fault": "battery-flat-overnight",
        "outcome": {"state": "open"},
        "source": {"kind": "first-hand", "title": "Member report"},
    }
    data = files(knowledge({**vectors()["files"], "cases/2026/bittern-900-0001.yml": case}))
    steps, _ = terms_of(data)["zither"]
    assert entries_of(data)[steps[0]]["address"] == "faults/battery-flat-overnight/"


@given(st.text(min_size=1, max_size=40, alphabet=st.characters(exclude_categories=["Cs", "Cc"])))
def test_no_text_breaks_the_data_or_gets_a_direction_mark_through(text: str) -> None:
    base = changed(FAULT, title=f"a {text} \u202e\u2066", symptoms=[f"b {text}"])
    data = files(knowledge(base))
    assert json.loads(json.dumps(data, ensure_ascii=False).encode()) == data
    assert not any(mark in json.dumps(entries_of(data), ensure_ascii=False) for mark in "\u202e\u2066")


@pytest.mark.parametrize("level", ["do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction", "unknown"])
def test_every_ride_level_has_words_and_a_look(level: str) -> None:
    rides: Any = files(knowledge())["root.json"]["rides"]
    assert rides[level]["word"]
    looks = (ROOT / "site_overrides/assets/css/finder.css").read_text(encoding="utf-8")
    assert f".answer__ride--{rides[level]['look']} " in looks or level == "unknown"


def test_what_is_not_known_is_never_called_free() -> None:
    rides: Any = files(knowledge())["root.json"]["rides"]
    assert "not known" in rides["unknown"]["word"].lower()
    assert rides["unknown"]["look"] not in {each["look"] for name, each in rides.items() if name != "unknown"}


def test_a_word_without_end_takes_no_time() -> None:
    with within_reason():
        assert len(words.terms_of("ordwithoutend" * 8_000)) == 1
        assert words.terms_of("side-stand " + "w" * 100_000)[-1] == "sidestand"
