"""What people write into a cell or a form, as a case has it; and what is refused since it may be several things."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from kbtools.edges.shipped import shapes
from kbtools.intake.columns import ColumnsError, columns
from kbtools.intake.days import Order, UnsureDayError, day
from kbtools.intake.fields import fields_of
from kbtools.intake.merged import merged
from kbtools.intake.values import Ways, number, value_of
from tests.changes.edits import BASE
from tests.changes.test_compare import base_of

SHAPES = shapes()
FIELDS = fields_of(SHAPES["case"].schema)
WAYS = Ways(base=base_of(BASE), shapes=SHAPES, unit="km")


@pytest.mark.parametrize(
    ("name", "text", "value"),
    [
        ("model", "Wren 400", "wren-400"),
        ("year", "2005", 2005),
        ("year", "MY2005", 2005),
        ("odometer", "41200 km", "41200 km"),
        ("odometer", "41.200km", "41200 km"),
        ("odometer", "41,200", "41200 km"),
        ("odometer", "41 200", "41200 km"),
        ("odometer", "25'600 Miles", "25600 mi"),
        ("odometer", "-", None),
        ("seen", "14.3.2026", "2026-03-14"),
        ("conditions", "wet; cold", ["wet", "cold"]),
        ("symptoms", "- Lamp flickers, then goes out\n- Horn croaks", ["Lamp flickers, then goes out", "Horn croaks"]),
        ("codes", "P0562 (stored); 4-2", [{"code": "P0562", "status": "stored"}, {"code": "4-2"}]),
        ("codes", "P0562 active, P0563", [{"code": "P0562", "status": "present"}, {"code": "P0563"}]),
        ("fault", "lamp-flickers", "lamp-flickers"),
        ("fault", "charge lamp flickers in the rain", "lamp-flickers"),
        ("fault", "https://lore.sample.example/faults/lamp-flickers/#case-1", "lamp-flickers"),
        ("fault", "no idea", None),
        ("cause", "Corroded plug", "plug"),
        ("cause", "unlisted", "unlisted"),
        ("also", "stator, plug", ["stator", "plug"]),
        ("state", "fixed", "solved"),
        ("state", "came back", "returned"),
        ("verified", "Yes", True),
        ("parts", "12,50 EUR", 12.5),
        ("parts", "€ 1.234,50", 1234.5),
        ("labour", "0", 0),
        ("where", "garage", "workshop"),
        ("tried", "look-at-plug: bad", [{"check": "look-at-plug", "result": "bad"}]),
        (
            "tried",
            "look-at-plug = low (12,9 V); plug: helped; fix stator: no change",
            [
                {"check": "look-at-plug", "result": "low", "reading": "12.9 V"},
                {"fix": "plug", "result": "helped"},
                {"fix": "stator", "result": "no-change"},
            ],
        ),
        ("bike", "B017", "b017"),
    ],
)
def test_a_value(name: str, text: str, value: Any) -> None:
    assert value_of(FIELDS[name], text, WAYS, "lamp-flickers") == value


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("model", "Wren 40", 'Did you mean "wren-400"'),
        ("odometer", "far", "61200 km"),
        ("odometer", "41200 furlongs", "61200 km"),
        ("year", "last year", "no year"),
        ("fault", "lamp-flicker", 'Did you mean "lamp-flickers"'),
        ("cause", "stater", 'Did you mean "stator"'),
        ("state", "perhaps", "open, solved, returned"),
        ("verified", "perhaps", "neither yes nor no"),
        ("parts", "1.2.3", "no number"),
        ("parts", "twelve", "no number"),
        ("tried", "look-at-plug", "what came out"),
        ("tried", "plug: low", "helped"),
        ("note", "a" * 30_000, "more than"),
        ("bike", "Ann's bike!", "no id"),
    ],
)
def test_what_cannot_be_told_is_refused_in_a_sentence(name: str, text: str, told: str) -> None:
    with pytest.raises(ValueError, match=told.replace("(", r"\(")):
        value_of(FIELDS[name], text, WAYS, "lamp-flickers")


def test_a_distance_without_a_unit_needs_somebody_who_says_it() -> None:
    with pytest.raises(ValueError, match="--unit"):
        value_of(FIELDS["odometer"], "41200", Ways(base=WAYS.base, shapes=SHAPES), None)


# ISO 8601 and RFC 3339 for the first ones; the rest common practice, no source.
DAYS: list[tuple[str, Order | None, str]] = [
    ("2026-03-14", None, "2026-03-14"),
    ("2026-03-14T18:30:00Z", None, "2026-03-14"),
    ("20260314", None, "2026-03-14"),
    ("2026/3/14", None, "2026-03-14"),
    ("14.03.2026", None, "2026-03-14"),
    ("04.03.2026", None, "2026-03-04"),
    ("14.3.26", None, "2026-03-14"),
    ("14/03/2026", None, "2026-03-14"),
    ("3/14/2026", None, "2026-03-14"),
    ("3/3/2026", None, "2026-03-03"),
    ("14 March 2026", None, "2026-03-14"),
    ("March 4th, 2026", None, "2026-03-04"),
    ("4-Mar-26", None, "2026-03-04"),
    ("03/04/2026", "dmy", "2026-04-03"),
    ("03/04/2026", "mdy", "2026-03-04"),
    ("26/03/04", "ymd", "2026-03-04"),
]


@pytest.mark.parametrize(("text", "order", "expected"), DAYS)
def test_a_day(text: str, order: Order | None, expected: str) -> None:
    assert day(text, order) == dt.date.fromisoformat(expected)


@pytest.mark.parametrize("text", ["03/04/2026", "26/03/04", "2026-13-14", "31.2.2026", "soon", "14.3", "1/2/3/4", ""])
def test_what_may_be_two_days_is_none(text: str) -> None:
    with pytest.raises(UnsureDayError, match=r"Write"):
        day(text, None)


@pytest.mark.parametrize(("text", "value"), [("1,5", 1.5), ("1.500", 1500), ("0,125", 0.125), ("1.234.567", 1234567)])
def test_thousands_and_decimals(text: str, value: float) -> None:
    assert number(text) == value


def read(header: str, **said: str) -> dict[str, str]:
    found = columns(header.split(";"), FIELDS, said)
    return {each.field.name: each.heading + (f" [{each.unit}]" if each.unit else "") for each in found}


def test_columns_are_told_by_their_headings() -> None:
    found = read("vehicle.model;Model Year;KM;Date seen;Odd;Fault;Stae;Root cause;outcome_paid_parts;Owner;Phone;Name")
    assert found == {
        "model": "vehicle.model",
        "year": "Model Year",
        "odometer": "KM [km]",
        "seen": "Date seen",
        "fault": "Fault",
        "state": "Stae",
        "cause": "Root cause",
        "parts": "outcome_paid_parts",
    }


def test_every_key_is_found_by_its_own_name() -> None:
    assert list(read(";".join(FIELDS))) == list(FIELDS)


def test_columns_that_cannot_be_told_are_asked_for() -> None:
    least = "model;year;seen;state"
    with pytest.raises(ColumnsError, match="No column is odometer"):
        read(least)
    assert read(f"{least};Tacho", odometer="tacho")["odometer"] == "Tacho"
    with pytest.raises(ColumnsError, match="may both be odometer"):
        read(f"{least};KM;Mileage")
    assert read(f"{least};KM;Mileage", odometer="KM")["odometer"] == "KM [km]"
    assert "note" not in read(f"{least};odometer;note", note="")
    with pytest.raises(ColumnsError, match="no column"):
        read(least, odometer="Tacho")
    with pytest.raises(ColumnsError, match="no key"):
        read(least, tacho="seen")


def test_a_later_report_adds_and_takes_nothing_away() -> None:
    old = {
        "vehicle": {"model": "m", "year": 2005, "odometer": "1 km"},
        "seen": "2026-03-01",
        "codes": [{"code": "P0562", "freeze_frame": {"rpm": 1}}],
        "symptoms": ["Lamp flickers"],
        "tried": [{"check": "a", "result": "bad"}],
        "outcome": {"state": "open", "note": "Rain.", "paid": {"parts": 3}},
        "source": {"kind": "first-hand", "title": "Member report"},
    }
    new = {
        "vehicle": {"model": "m", "year": 2005, "odometer": "9 km", "bike": "b1"},
        "seen": "2026-05-01",
        "codes": [{"code": "p0562", "status": "stored"}, {"code": "P0563"}],
        "symptoms": ["lamp flickers", "Horn croaks"],
        "tried": [{"check": "a", "result": "bad"}, {"fix": "c", "result": "helped"}],
        "follows": "m-0001",
        "outcome": {"state": "solved", "cause": "c", "paid": {"labour": 4}},
        "source": {"kind": "first-hand", "title": "Another"},
    }
    assert merged(old, new) == {
        **old,
        "vehicle": {"model": "m", "year": 2005, "odometer": "1 km", "bike": "b1"},
        "codes": [{"code": "P0562", "freeze_frame": {"rpm": 1}, "status": "stored"}, {"code": "P0563"}],
        "symptoms": ["Lamp flickers", "Horn croaks"],
        "tried": [{"check": "a", "result": "bad"}, {"fix": "c", "result": "helped"}],
        "outcome": {"state": "solved", "cause": "c", "note": "Rain.", "paid": {"parts": 3, "labour": 4}},
    }
    assert merged(merged(old, new), new) == merged(old, new)
