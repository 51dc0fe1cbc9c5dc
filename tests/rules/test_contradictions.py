"""What contradicts another entry: one code with two meanings or two ride advices, one part at two prices, one link."""

from __future__ import annotations

import dataclasses
import datetime as dt
import gc
from collections.abc import Sequence

import pytest

from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import DistinctFrom, Fault, Part
from kbtools.model.ride_advice import RideLevel
from kbtools.model.years import Years
from kbtools.rules.contradictions import (
    kb601_code_means_two_things,
    kb602_advice_contradicts,
    kb603_part_prices,
    kb605_link_titles,
    kb631_same_check,
    reach,
)
from kbtools.rules.contradictions.wordings import contrary_in, same_words, words
from kbtools.similarity.lexicon import Bag, Lexicon
from kbtools.vocabulary.tables import words_of_data
from tests.support.factories import advice, base, cause, check, code, fault, fix, model, row, source, span, unit

TODAY = dt.date(2026, 6, 1)
UNITS = (unit("abs-a", "2003-2007"), unit("abs-b", "2008-2012"), unit("engine-a", "2003-2012"))
MODELS = [model("bittern-900", "2003-2012", control_units=UNITS), model("curlew-1100", "2010-2020")]

ONE_MEANING = [
    ("System voltage low", "Battery voltage too low"),
    ("System voltage low", "Voltage of the system below limit"),
    ("Throttle position sensor circuit low", "Throttle sensor, signal too low"),
    ("Crankshaft position sensor circuit", "Crankshaft sensor fault"),
    ("Front wheel speed sensor circuit", "Wheel speed sensor, front"),
    ("Misfire on cylinder 1", "Cylinder 1 misfire detected"),
    ("Lost contact with the anti-lock unit", "No communication with anti-lock unit"),
    ("Idle speed higher than expected", "Idle speed too high"),
    ("Mixture too lean", "Mixture lean, bank 1"),
    ("Lambda sensor heater circuit", "Heater of the oxygen sensor"),
    ("Vehicle speed sensor", "No speed signal"),
    ("Pump motor circuit", "Pump motor does not turn"),
    ("Neutral switch signal implausible", "Neutral switch"),
    ("Cooling fan control circuit", "Fan relay circuit"),
    ("Exhaust flap position not reached", "Exhaust flap sticks"),
    ("Injector circuit", "injectors, circuit"),
]
"""Made up for the test: a curator would let both stand."""

TWO_MEANINGS = [
    ("System voltage low", "System voltage high"),
    ("System voltage low", "Engine coolant sensor circuit"),
    ("Front wheel speed sensor", "Rear wheel speed sensor"),
    ("Misfire on cylinder 1", "Misfire on cylinder 2"),
    ("Pump motor does not turn", "Front wheel speed signal missing or implausible"),
    ("Throttle sensor out of range", "No signal from the crankshaft pickup"),
    ("Mixture too lean", "Mixture too rich"),
    ("Sensor circuit open", "Sensor circuit shorted"),
    ("Idle control system", "Fuel pump primary circuit"),
    ("Lambda sensor heater circuit", "Throttle position sensor circuit"),
    ("Vehicle speed sensor", "Crankshaft position sensor circuit"),
    ("Coolant temperature low", "Oil pressure low"),
    ("Ignition coil 1", "Injector 1"),
    ("Side stand switch", "Clutch switch"),
]
"""Made up for the test: an owner who is told the second instead of the first looks in another place."""

CLUB_WORDS = words_of_data([["lambda", "oxygen"]], "words")


def known(*faults: Fault) -> KnowledgeBase:
    return base(*faults, models=MODELS)


def told(rule: object, *faults: Fault) -> list[tuple[str, str]]:
    found = rule.RULE.check(known(*faults), TODAY)  # type: ignore[attr-defined]
    return [(each.path.rsplit("/", 1)[1], each.pointer) for each in found]


@pytest.mark.parametrize(("left", "right"), ONE_MEANING)
def test_one_meaning_in_other_words_is_no_contradiction(left: str, right: str) -> None:
    club = base(words=CLUB_WORDS)
    same, contrary = same_words(club), contrary_in(club)
    assert not contrary(words(left, same), words(right, same))
    assert not contrary(words(right, same), words(left, same))


@pytest.mark.parametrize(("left", "right"), TWO_MEANINGS)
def test_two_meanings_contradict(left: str, right: str) -> None:
    club = base(words=CLUB_WORDS)
    same, contrary = same_words(club), contrary_in(club)
    assert contrary(words(left, same), words(right, same))
    assert contrary(words(right, same), words(left, same))


def means(id: str, meaning: str, when: str = "all", **changes: object) -> Fault:  # noqa: A002
    codes = (code("P0562", meaning=meaning, at="/codes/0", **changes),)
    return fault(id, codes=codes, applies_to=(row(when=when),))


MEANING = kb601_code_means_two_things


@pytest.mark.parametrize(
    ("first", "second", "found"),
    [
        (means("a", "Voltage low"), means("b", "Voltage high"), True),
        # Another year, another model year.
        (means("a", "Voltage low", "2003-2006"), means("b", "Voltage high", "2007-2012"), False),
        (means("a", "Voltage low", "2003-2007"), means("b", "Voltage high", "2007-2012"), True),
        # Control units: two are two, one that is left open may be the other.
        (means("a", "Voltage low", unit="abs-a"), means("b", "Voltage high", unit="engine-a"), False),
        (means("a", "Voltage low", unit="abs-a"), means("b", "Voltage high", unit="abs-a"), True),
        (means("a", "Voltage low", unit="abs-a"), means("b", "Voltage high"), True),
        # Unit B is not fitted before 2008.
        (means("a", "Voltage low", unit="abs-b"), means("b", "Voltage high", "2003-2007"), False),
        (means("a", "Voltage low"), dataclasses.replace(means("b", "Voltage high"), draft=True), False),
    ],
)
def test_a_code_means_one_thing_on_one_machine(first: Fault, second: Fault, found: bool) -> None:
    assert told(MEANING, first, second) == ([("b.yml", "/codes/0/meaning")] if found else [])
    # The later path is reported, in whatever order they were read.
    assert told(MEANING, second, first) == ([("b.yml", "/codes/0/meaning")] if found else [])


def test_two_rows_of_one_entry_contradict_as_well() -> None:
    codes = (code("P0562", meaning="Voltage low", at="/codes/0"), code("P0562", meaning="Fuel pump", at="/codes/1"))
    assert told(MEANING, fault("a", codes=codes)) == [("a.yml", "/codes/1/meaning")]


def test_machines_told_apart_by_a_question_are_not_one() -> None:
    first, second = means("a", "Voltage low"), means("b", "Voltage high")
    asked = [dataclasses.replace(each, applies_to=(row(only_if=f"It is {each.id}."),)) for each in (first, second)]
    assert told(MEANING, *asked) == []
    assert told(MEANING, asked[0], second) == [("b.yml", "/codes/0/meaning")]


def test_many_entries_that_contradict_the_first_are_each_told_once() -> None:
    others = [means(f"b{number}", "Voltage high") for number in range(5)]
    assert len(told(MEANING, means("a", "Voltage low"), *others)) == 5


def split(number: int) -> list[Fault]:
    """Entries that contradict each other in all three ways, half of them of years that the others do not concern."""
    early = [means(f"a{n}", "Voltage high", "2003-2006", unit="engine-a") for n in range(number // 2)]
    late = [means(f"b{n}", "Voltage low", "2007-2012", unit="engine-a") for n in range(number // 2)]
    faults = []
    for level, price, entries in (("do-not-ride", 1, early), ("no-restriction", 2, late)):
        causes = (cause(fix=fix(parts=(Part(name="Kit", price=span(price), at=""),))),)
        riding = advice(level)  # type: ignore[arg-type]
        faults += [dataclasses.replace(each, ride_advice=riding, causes=causes) for each in entries]
    return faults


@pytest.mark.parametrize("rule", [MEANING, kb602_advice_contradicts, kb603_part_prices], ids=["601", "602", "603"])
def test_many_entries_do_not_take_the_square_of_the_time(rule: object, monkeypatch: pytest.MonkeyPatch) -> None:
    """Counted, not timed: how often the machines of two entries are compared, of some and of twice as many."""
    compared: list[int] = []
    shared = reach.shared

    def counting(left: Sequence[reach.Span], right: Sequence[reach.Span]) -> Years | None:
        compared[-1] += 1
        return shared(left, right)

    monkeypatch.setattr(reach, "shared", counting)
    for number in (100, 200):
        compared.append(0)
        assert told(rule, *split(number)) == []
    assert compared[0] > 0
    assert compared[1] < 3 * compared[0]


def test_many_checks_with_one_answer_are_not_each_compared_with_each(monkeypatch: pytest.MonkeyPatch) -> None:
    """Counted, not timed, as above: everybody's good answer may be the same few words."""
    compared: list[int] = []
    alike = Lexicon.alike

    def counting(lexicon: Lexicon, left: Bag, right: Bag) -> float:
        compared[-1] += 1
        return alike(lexicon, left, right)

    monkeypatch.setattr(Lexicon, "alike", counting)
    for number in (60, 120):
        compared.append(0)
        asked = [
            fault(f"f{n}", checks=(check(f"c{n}", do=f"Turn wheel{n} and nut{n} by hand{n}."),)) for n in range(number)
        ]
        assert told(kb631_same_check, *asked) == []
    assert compared[0] > 0
    assert compared[1] < 3 * compared[0]


ADVICE = kb602_advice_contradicts


def rides(id: str, level: RideLevel, *codes: object, **changes: object) -> Fault:  # noqa: A002
    return fault(id, ride_advice=advice(level), codes=codes or (code("P0562"),), **changes)


@pytest.mark.parametrize(
    ("first", "second", "found"),
    [
        ("do-not-ride", "no-restriction", True),
        ("do-not-ride", "ride-with-care", True),
        ("ride-to-workshop", "no-restriction", True),
        ("do-not-ride", "ride-to-workshop", False),
        ("ride-with-care", "no-restriction", False),
        ("do-not-ride", "do-not-ride", False),
    ],
)
def test_ride_advice_two_steps_apart_contradicts(first: RideLevel, second: RideLevel, found: bool) -> None:
    assert told(ADVICE, rides("a", first), rides("b", second)) == ([("b.yml", "/ride_advice/level")] if found else [])


def test_entries_that_are_told_apart_may_advise_differently() -> None:
    apart = (DistinctFrom(fault="b", because="The lamp stays off.", at="/distinct_from/0"),)
    strict, mild = rides("a", "do-not-ride", distinct_from=apart), rides("b", "no-restriction")
    assert told(ADVICE, strict, mild) == []
    # A third one is still held against both.
    assert told(ADVICE, strict, mild, rides("c", "no-restriction")) == [("c.yml", "/ride_advice/level")]


def test_a_consequence_and_another_situation_do_not_contradict() -> None:
    strict = rides("a", "do-not-ride")
    assert told(ADVICE, strict, rides("b", "no-restriction", code("P0562", follow_on=True))) == []
    beside = (code("P0230").read,)
    assert told(ADVICE, strict, rides("b", "no-restriction", code("P0562", with_codes=beside))) == []


PRICE = kb603_part_prices


def sells(
    id: str,  # noqa: A002
    name: str,
    low: float,
    high: float,
    *,
    component: str = "regulator",
    when: str = "all",
) -> Fault:
    part = Part(name=name, price=span(low, high), at="/causes/0/fix/parts/0")
    causes = (cause(component=component, fix=fix(parts=(part,))),)
    return fault(id, causes=causes, applies_to=(row(when=when),))


@pytest.mark.parametrize(
    ("second", "found"),
    [
        (sells("b", "Terminal kit", 21, 40), True),
        (sells("b", "terminal-kit", 1, 7), True),
        # Both hold 20, as do both ends of a price that is a single number.
        (sells("b", "Terminal kit", 20, 40), False),
        (sells("b", "Terminal kit", 8, 8), False),
        (sells("b", "Terminal kit, large", 21, 40), False),
        (sells("b", "Terminal kit", 21, 40, component="starter"), False),
    ],
)
def test_prices_of_one_part_must_have_an_amount_in_common(second: Fault, found: bool) -> None:
    pointer = ("b.yml", "/causes/0/fix/parts/0/price")
    assert told(PRICE, sells("a", "Terminal kit", 8, 20), second) == ([pointer] if found else [])


def test_other_model_years_may_take_another_part() -> None:
    early, late = sells("a", "Lever", 8, 20, when="2003-2007"), sells("b", "Lever", 30, 40, when="2008-2012")
    assert told(PRICE, early, late) == []


LINK = kb605_link_titles


@pytest.mark.parametrize(
    ("url", "same"),
    [
        ("https://notes.example/plugs", True),
        ("http://notes.example/plugs", True),
        ("https://Notes.Example:443/plugs/", True),
        ("https://notes.example/plugs#post-7", True),
        ("https://notes.example/Plugs", False),
        ("https://notes.example/plugs?page=2", False),
        ("https://notes.example:8443/plugs", False),
        ("https://other.example/plugs", False),
    ],
)
def test_one_link_has_one_title(url: str, same: bool) -> None:
    """RFC 3986, 6.2.2.1 and 6.2.3: scheme and host without regard to case, the default port; the path with it."""
    first = fault("a", sources=(source(title="Plugs", url="https://notes.example/plugs", at="/sources/0"),))
    second = fault("b", sources=(source(title="Rain", url=url, at="/sources/0"),))
    assert told(LINK, first, second) == ([("b.yml", "/sources/0/title")] if same else [])
    agreed = fault("b", sources=(source(title="plugs!", url=url, at="/sources/0"),))
    assert told(LINK, first, agreed) == []


def test_a_link_that_is_none_breaks_nothing() -> None:
    broken = tuple(source(title=str(n), url="https://[::1/x", at=f"/sources/{n}") for n in range(2))
    assert told(LINK, fault("a", sources=broken)) == [("a.yml", "/sources/1/title")]


def test_what_is_worked_out_once_is_forgotten_with_its_base() -> None:
    asked = []

    @per_base
    def ids(of: KnowledgeBase) -> list[str]:
        asked.append(id(of))
        return list(of.faults)

    one, two = known(fault("a")), known(fault("b"))
    assert (ids(one), ids(one), ids(two), ids(one)) == (["a"], ["a"], ["b"], ["a"])
    assert len(asked) == 2
    others = [known(fault("c")) for _ in range(4)]
    assert [ids(each) for each in others] == [["c"]] * 4
    assert (ids(one), len(asked)) == (["a"], 7)
    kept = ids(one)
    count = len(gc.get_referrers(kept))
    del one
    gc.collect()
    assert len(gc.get_referrers(kept)) < count
