"""Some fifty edits of a small base, each with what must be said of it.

The figures of the base are small enough to reckon by hand. A workshop's hour is 80 EUR and an unknown cause takes one
to find; an own hour counts 15 EUR; the look at the plug takes 8 minutes with the seat, 2 EUR, so it comes first
wherever it can be done. Transport is 100 EUR.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

LAMP, LEVER = "faults/charging/lamp-flickers.yml", "faults/brakes/lever-soft.yml"
DRAFT, CASE = "faults/charging/ammeter-at-zero.yml", "cases/2026/wren-400-0001.yml"
BASE: Mapping[str, str] = {
    "club.yml": """\
format: 2
name: Sample Circle
licence: CC-BY-4.0
currency: EUR
labour_rate: 80
diagnosis_hours: 1
confirm_hours: 0.25
transport: 100
unlisted_repair: 300
own_time_value: 15
home_time_factor: 2
prior_strength: 4
unlisted_share: 0.1
solved_after: 500 km
review_after_months: 24
distance_unit: km
code_formats: [{id: obd, standard: sae-j2012, name: Five-character code}]
""",
    "systems.yml": """\
systems: [{id: charging, name: Charging}, {id: brakes, name: Brakes, safety_critical: true}]
access: [{id: seat-off, name: Seat off, minutes: 3}]
tools: [{id: multimeter, name: Multimeter, usual: true}, {id: scope, name: Scope}]
""",
    "cautions.yml": "cautions: [{id: battery-gas, text: A charging battery gives off gas that burns.}]\n",
    "checks.yml": """\
checks:
  - id: battery-rest
    do: Key off for ten minutes, then measure across the posts.
    reading: {at: battery posts, when: at rest, good: [12.5, 12.9], unit: V}
    sources: [{kind: manual, title: Handbook}]
    minutes: 12
    skill: home
    tools: [multimeter]
""",
    "models/wren-400.yml": "name: Wren 400\nyears: 2003-2012\n",
    LAMP: """\
title: Charge lamp flickers in the rain
system: charging
applies_to: [{model: wren-400, years: 2003-2007}]
codes: [{code: P0562, meaning: System voltage low}]
symptoms: [Charge lamp flickers]
ride_advice: {level: ride-to-workshop, why: A flat battery stops the engine., stop_if: [The lamp stays on]}
causes:
  - id: plug
    summary: Corroded plug
    share: often
    fix:
      {summary: Crimp it., skill: home, labour_hours: 0.5, parts: [{name: Kit, price: 10}], access: [seat-off]}
  - id: stator
    summary: Stator with a short
    share: rarely
    fix: {summary: Fit another stator., skill: workshop, labour_hours: 3, parts: [{name: Stator, price: 200}]}
checks:
  - id: look-at-plug
    do: Pull the plug and look for green terminals.
    expect: Bright metal.
    points_to: [plug]
    minutes: 5
    skill: home
    access: [seat-off]
sources: [{kind: first-hand, title: Spring teardown}]
reviewed: {on: 2026-03-14, by: curator-1}
""",
    LEVER: """\
title: Lever grows soft on the way down
system: brakes
applies_to: [{model: wren-400, years: 2003-2012}]
ride_advice: {level: do-not-ride, why: The lever may come back to the grip.}
causes:
  - id: old-fluid
    summary: Fluid full of water
    fix: {summary: Change it., skill: workshop, labour_hours: 1, verify: {do: Pull the lever., expect: It stays.}}
checks:
  - id: hold
    do: Hold the lever.
    expect: It stays.
    points_to: [old-fluid]
    before_riding: true
    minutes: 2
    skill: home
sources: [{kind: first-hand, title: Brake evening}]
reviewed: {on: 2026-03-14, by: curator-1, second: mechanic-1}
""",
    DRAFT: """\
title: Ammeter stays at zero
system: charging
applies_to: [{model: wren-400, years: 2003-2007}]
ride_advice: {level: ride-with-care, why: It may stop.}
causes: [{id: brushes, summary: Worn brushes, fix: {summary: New ones., skill: home, labour_hours: 1}}]
sources: [{kind: first-hand, title: Spring teardown}]
reviewed: {on: 2026-03-14, by: curator-1}
draft: true
""",
    CASE: """\
vehicle: {model: wren-400, year: 2005, odometer: 41200 km}
seen: 2026-02-01
fault: lamp-flickers
outcome: {state: solved, cause: plug, after: 900 km}
source: {kind: first-hand, title: Member report}
""",
}
TITLE = "title: Lever grows soft on the way down\n"
EARTH = "  - {id: earth, summary: Earth, share: rarely, fix: {summary: Tighten., skill: home, labour_hours: 0.2}}\n"
NOT_YET = (
    BASE[CASE].replace("2026-02-01", "2026-04-01").replace("state: solved, cause: plug, after: 900 km", "state: open")
)
CASES = [f"cases/2026/wren-400-00{n}.yml" for n in range(10, 18)]
STATOR_CASE = BASE[CASE].replace("cause: plug", "cause: stator")
RENAMED = BASE[LEVER] + "formerly: [lever-soft]\n"

Edit = Mapping[str, str | None]
"""File → its text now; None: it is gone."""
Told = Mapping[str, Mapping[str, Any]]
"""Fault → what is said of it: each key of an edit's table that must differ, and `because`."""


def edit(path: str, old: str, new: str) -> dict[str, str | None]:
    assert old in BASE[path], (path, old)
    return {path: BASE[path].replace(old, new)}


def club(old: str, new: str) -> dict[str, str | None]:
    return edit("club.yml", old, new)


def beside(*, gone: tuple[str, ...] = (), new: tuple[str, ...] = ()) -> dict[str, Any]:
    return {"gone": gone, "new": new}


NOT_RIDDEN, CARE, WORKSHOP, FREE = "do-not-ride", "ride-with-care", "ride-to-workshop", "no-restriction"
LOOK, AWAY = "check:look-at-plug", "hand_over"

EDITS: Mapping[str, tuple[Edit, Told]] = {
    "title": (edit(LAMP, "in the rain", "when it rains"), {}),
    "symptom": (edit(LAMP, "[Charge lamp flickers]", "[Lamp flickers]"), {}),
    "why": (edit(LAMP, "A flat battery stops", "An empty battery stops"), {}),
    "expect": (edit(LAMP, "Bright metal", "Clean metal"), {}),
    "review": (edit(LAMP, "2026-03-14", "2026-04-14"), {}),
    "caution": ({"cautions.yml": BASE["cautions.yml"].replace("burns", "explodes")}, {}),
    "order of the keys": (edit(LEVER, f"{TITLE}system: brakes\n", f"system: brakes\n{TITLE}"), {}),
    "name of the club": (club("Sample Circle", "Other Circle"), {}),
    "other draft": (edit(DRAFT, "Worn brushes", "Brushes"), {}),
    "safety of a system": (edit("systems.yml", "safety_critical: true", "safety_critical: false"), {}),
    "an open case": ({"cases/2026/wren-400-0002.yml": NOT_YET}, {}),
    "milder": (
        edit(LAMP, WORKSHOP, CARE),
        {"lamp-flickers": {"level": (WORKSHOP, CARE), "milder": True, "because": (LAMP,)}},
    ),
    "milder, and fetched no longer": (
        edit(LEVER, NOT_RIDDEN, FREE),
        {"lever-soft": {"level": (NOT_RIDDEN, FREE), "milder": True, "dearer": -100, "because": (LEVER,)}},
    ),
    "stricter, and fetched": (
        edit(LAMP, WORKSHOP, NOT_RIDDEN),
        {"lamp-flickers": {"level": (WORKSHOP, NOT_RIDDEN), "milder": False, "dearer": 100, "because": (LAMP,)}},
    ),
    "a stop sign more": (
        edit(LAMP, "[The lamp stays on]", "[The lamp stays on, It smells]"),
        {"lamp-flickers": {**beside(new=("stop sign: It smells",)), "because": (LAMP,)}},
    ),
    "a stop sign less": (
        edit(LAMP, ", stop_if: [The lamp stays on]", ""),
        {"lamp-flickers": {**beside(gone=("stop sign: The lamp stays on",)), "because": (LAMP,)}},
    ),
    "a limit": (
        edit(LAMP, "stop_if:", "max_speed: 80 km/h, stop_if:"),
        {"lamp-flickers": {**beside(new=("not faster than 80\u00a0km/h",)), "because": (LAMP,)}},
    ),
    "it does not start": (
        edit(LAMP, "ride_advice:", "does_not_start: yes\nride_advice:"),
        {"lamp-flickers": {**beside(new=("does not start: yes",)), "dearer": 100, "because": (LAMP,)}},
    ),
    "it does not always start": (
        edit(LAMP, "ride_advice:", "does_not_start: sometimes\nride_advice:"),
        {"lamp-flickers": {**beside(new=("does not start: sometimes",)), "dearer": 0, "because": (LAMP,)}},
    ),
    "the look takes ten hours": (
        edit(LAMP, "minutes: 5", "minutes: 600"),
        {"lamp-flickers": {"first": (LOOK, AWAY), "because": (LAMP,)}},
    ),
    "the look is a workshop's": (
        edit(LAMP, "minutes: 5\n    skill: home", "minutes: 5\n    skill: workshop"),
        {"lamp-flickers": {"first": (LOOK, AWAY), "because": (LAMP,)}},
    ),
    "the look takes an unusual tool": (
        edit(LAMP, "minutes: 5", "minutes: 5\n    tools: [scope]"),
        {"lamp-flickers": {"first": (LOOK, AWAY), "because": (LAMP,)}},
    ),
    "the tool became unusual": (
        {**edit(LAMP, "Bright metal", "Clean metal"), **edit("systems.yml", "usual: true", "usual: false")},
        {},
    ),
    "likeliest": (
        edit(LAMP, "share: rarely", "share: 60"),
        {"lamp-flickers": {"likeliest": ("plug", "stator"), "because": (LAMP,)}},
    ),
    "a cause more": (edit(LAMP, "checks:", f"{EARTH}checks:"), {"lamp-flickers": {"shares": True, "because": (LAMP,)}}),
    "a dearer part": (
        edit(LAMP, "price: 200", "price: 250"),
        {"lamp-flickers": {"dearer_at_all": True, "because": (LAMP,)}},
    ),
    "a trial fix": (
        edit(LAMP, "skill: home, labour_hours: 0.5", "skill: home, trial: true, labour_hours: 0.5"),
        {"lamp-flickers": {**beside(new=("trial fix: plug",)), "because": (LAMP,)}},
    ),
    "a code more": (
        edit(LAMP, "[{code: P0562", "[{code: P0563}, {code: P0562"),
        {"lamp-flickers": {**beside(new=("code P0563 leads here",)), "because": (LAMP,)}},
    ),
    "a code less": (
        edit(LAMP, "codes: [{code: P0562, meaning: System voltage low}]\n", ""),
        {"lamp-flickers": {**beside(gone=("code P0562 leads here",)), "because": (LAMP,)}},
    ),
    "a code follows on": (
        edit(LAMP, "{code: P0562", "{follow_on: true, code: P0562"),
        {
            "lamp-flickers": {
                **beside(gone=("code P0562 leads here",), new=("code P0562 follows from another",)),
                "because": (LAMP,),
            }
        },
    ),
    "a code is stricter": (
        edit(LAMP, "voltage low}", "voltage low, ride_advice: {level: do-not-ride, why: It stops.}}"),
        {"lamp-flickers": {**beside(new=("with code P0562: do-not-ride",)), "because": (LAMP,)}},
    ),
    "a cause is stricter": (
        edit(LAMP, "share: rarely", "share: rarely\n    ride_advice: {level: do-not-ride, why: It burns.}"),
        {"lamp-flickers": {**beside(new=("with cause stator: do-not-ride",)), "because": (LAMP,)}},
    ),
    "nothing before riding": (
        edit(LEVER, "    before_riding: true\n", ""),
        {"lever-soft": {**beside(gone=("before riding: hold",)), "because": (LEVER,)}},
    ),
    "a case for the other cause": (
        {"cases/2026/wren-400-0002.yml": STATOR_CASE},
        {"lamp-flickers": {"shares": True, "because": ("cases/2026/wren-400-0002.yml",)}},
    ),
    "eight cases for the other cause": (
        dict.fromkeys(CASES, STATOR_CASE),
        {"lamp-flickers": {"likeliest": ("plug", "stator"), "because": tuple(CASES)}},
    ),
    "a case less": ({CASE: None}, {"lamp-flickers": {"shares": True, "because": (CASE,)}}),
    "a case of another cause": ({CASE: STATOR_CASE}, {"lamp-flickers": {"shares": True, "because": (CASE,)}}),
    "the trouble came back": (
        {"cases/2026/wren-400-0002.yml": NOT_YET.replace("fault:", "follows: wren-400-0001\nfault:")},
        {"lamp-flickers": {"shares": True, "because": ("cases/2026/wren-400-0002.yml",)}},
    ),
    "cases count later": (club("500 km", "5000 km"), {"lamp-flickers": {"shares": True, "because": ("club.yml",)}}),
    "labour": (
        club("labour_rate: 80", "labour_rate: 90"),
        {
            "lamp-flickers": {"dearer_at_all": True, "because": ("club.yml",)},
            "lever-soft": {"dearer_at_all": True, "because": ("club.yml",)},
        },
    ),
    "own time": (
        club("own_time_value: 15", "own_time_value: 16"),
        {each: {"dearer": 0, "because": ("club.yml",)} for each in ("lamp-flickers", "lever-soft")},
    ),
    "own time counts a hundredfold": (
        club("own_time_value: 15", "own_time_value: 1500"),
        {
            "lamp-flickers": {"first": (LOOK, AWAY), "because": ("club.yml",)},
            "lever-soft": {"first": ("check:hold", AWAY), "because": ("club.yml",)},
        },
    ),
    "transport": (club("transport: 100", "transport: 150"), {"lever-soft": {"dearer": 50, "because": ("club.yml",)}}),
    "judgement weighs more": (
        club("prior_strength: 4", "prior_strength: 8"),
        {"lamp-flickers": {"shares": True, "because": ("club.yml",)}},
    ),
    "the seat takes long": (
        edit("systems.yml", "minutes: 3", "minutes: 3000"),
        {"lamp-flickers": {"first": (LOOK, AWAY), "because": ("systems.yml",)}},
    ),
    "a shared check that no entry uses": (edit("checks.yml", "minutes: 12", "minutes: 13"), {}),
    "a new entry": (
        {"faults/charging/new-one.yml": BASE[DRAFT].replace("draft: true\n", "")},
        {"new-one": {"state": "new", "level": (None, CARE), "because": ("faults/charging/new-one.yml",)}},
    ),
    "a draft is published": (
        edit(DRAFT, "draft: true\n", ""),
        {"ammeter-at-zero": {"state": "new", "level": (None, CARE), "because": (DRAFT,)}},
    ),
    "deleted": ({LEVER: None}, {"lever-soft": {"state": "gone", "level": (NOT_RIDDEN, None), "because": (LEVER,)}}),
    "withdrawn": (
        {LEVER: BASE[LEVER] + "withdrawn: {on: 2026-05-01, reason: No.}\n"},
        {"lever-soft": {"state": "gone", "level": (NOT_RIDDEN, None), "because": (LEVER,)}},
    ),
    "a draft again": (
        {LEVER: BASE[LEVER] + "draft: true\n"},
        {"lever-soft": {"state": "gone", "level": (NOT_RIDDEN, None), "because": (LEVER,)}},
    ),
    "another name": ({LEVER: None, "faults/brakes/soft-lever.yml": RENAMED}, {}),
    "another name, and milder": (
        {LEVER: None, "faults/brakes/soft-lever.yml": RENAMED.replace(NOT_RIDDEN, FREE)},
        {
            "soft-lever": {
                "state": "changed",
                "level": (NOT_RIDDEN, FREE),
                "milder": True,
                "because": (LEVER, "faults/brakes/soft-lever.yml"),
            }
        },
    ),
    "two files, one of which matters": (
        {**club("own_time_value: 15", "own_time_value: 15.0"), **edit(LAMP, "price: 200", "price: 250")},
        {"lamp-flickers": {"dearer_at_all": True, "because": (LAMP,)}},
    ),
}
