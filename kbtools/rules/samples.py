"""A small whole knowledge base without a fault; each rule's sample changes one piece of it."""

from __future__ import annotations

from collections.abc import Mapping

from kbtools.rules.rule import Sample

FILES: Mapping[str, str] = {
    "club.yml": """\
format: 2
name: Sample Circle
site_url: https://lore.sample.example/
licence: CC-BY-4.0
currency: EUR
labour_rate: [70, 95]
diagnosis_hours: 1.0
confirm_hours: 0.3
transport: [60, 150]
unlisted_repair: [150, 600]
own_time_value: 15
home_time_factor: 2
prior_strength: 4
unlisted_share: 0.1
solved_after: 500 km
review_after_months: 24
distance_unit: km
code_formats:
  - {id: obd, standard: sae-j2012, name: Five-character code}
  - {id: flash, name: Lamp flash code, pattern: "[1-9]-[1-9]", example: 4-2, per_unit: true}
""",
    "systems.yml": """\
systems:
  - {id: charging, name: Charging}
  - id: brakes
    name: Brakes
    safety_critical: true
components:
  - {id: regulator, name: Regulator, system: charging}
  - {id: battery, name: Battery, system: charging}
access:
  - {id: seat-off, name: Seat off, minutes: 3, cautions: [battery-gas]}
  - {id: battery-out, name: Battery out, minutes: 8, needs: [seat-off], allows: off}
tools:
  - {id: multimeter, name: Multimeter, usual: true}
""",
    "cautions.yml": """\
cautions:
  - {id: battery-gas, text: A charging battery gives off gas that burns. No sparks near it.}
""",
    "checks.yml": """\
checks:
  - id: battery-rest
    do: Lamps and key off for ten minutes, then measure across the posts.
    reading: {at: battery posts, when: at rest, good: [12.5, 12.9], unit: V}
    sources: [{kind: manual, title: Handbook}]
    minutes: 12
    skill: home
    tools: [multimeter]
""",
    "models/wren-400.yml": """\
name: Wren 400
years: 2003-2012
control_units:
  - {id: engine-a, name: Engine unit A, system: charging, years: 2003-2007}
""",
    "faults/charging/lamp-flickers.yml": """\
title: Charge lamp flickers in the rain
system: charging
applies_to:
  - {model: wren-400, years: 2003-2007, unit: engine-a}
codes:
  - {code: P0562, unit: engine-a, meaning: System voltage low}
ride_advice: {level: ride-to-workshop, why: A flat battery stops the engine.}
cautions: [battery-gas]
causes:
  - id: corroded-plug
    summary: Corroded plug at the regulator
    component: regulator
    fix:
      summary: Cut back and crimp new terminals.
      skill: home
      parts: [{name: Terminal kit, price: [8, 20]}]
      labour_hours: [0.5, 1]
      tools: [multimeter]
      access: [seat-off]
checks:
  - id: look-at-plug
    do: Pull the plug and look for green terminals.
    expect: Bright metal.
    points_to: [corroded-plug]
    minutes: 5
    skill: home
    access: [seat-off]
sources:
  - {kind: first-hand, title: Spring teardown}
related: [battery-flat]
reviewed: {on: 2026-03-14, by: curator-1}
""",
    "faults/charging/battery-flat.yml": """\
title: Battery flat after a night
system: charging
draft: true
checks: [{use: battery-rest}]
""",
    "faults/charging/lamp-glows.yml": """\
title: Charge lamp glows with the engine off
system: charging
applies_to: [{model: wren-400, years: 2003-2007}]
ride_advice: {level: no-restriction, why: It takes next to nothing from the battery.}
causes:
  - id: leaking-diode
    summary: Leaking diode
    component: regulator
    fix: {summary: Fit another regulator., skill: experienced, labour_hours: 0.5}
sources: [{kind: first-hand, title: Measured on two bikes}]
reviewed: {on: 2026-02-01, by: curator-1}
withdrawn: {on: 2026-05-01, reason: Part of another entry now., replaced_by: battery-flat}
""",
    "faults/charging/ammeter-at-zero.yml": """\
title: Ammeter stays at zero on the road
system: charging
draft: true
causes: [{id: worn-brushes, summary: Worn brushes}]
checks:
  - id: at-the-posts
    do: Measure across the battery.
    reading: {at: battery posts, when: warm at speed, good: [13.5, 14.8], unit: V, low_points_to: [worn-brushes]}
""",
    "cases/2026/wren-400-0001.yml": """\
vehicle: {model: wren-400, year: 2005, odometer: 41200 km, bike: b001}
seen: 2026-02-01
codes: [{code: P0562, status: stored}]
fault: lamp-flickers
tried:
  - {check: look-at-plug, result: unclear}
  - {fix: corroded-plug, result: helped}
outcome: {state: solved, cause: corroded-plug, after: 900 km}
source: {kind: first-hand, title: Member report}
""",
}

BRAKES_PATH = "faults/brakes/lever-soft.yml"
"""A further file, which is not in the base: a fault of its safety-critical system."""
BRAKES = """\
title: Lever grows soft on the way down
system: brakes
applies_to: [{model: wren-400, years: 2003-2012}]
ride_advice: {level: do-not-ride, why: The lever may come back to the grip.}
cautions: [battery-gas]
causes:
  - id: old-fluid
    summary: Fluid full of water
    fix:
      summary: Change the fluid and bleed the brake.
      skill: workshop
      labour_hours: 0.8
      verify: {do: Pull the lever for a minute., expect: It stays where it is.}
checks:
  - id: hold-the-lever
    do: Hold the lever for a minute.
    expect: It stays where it is.
    points_to: [old-fluid]
    before_riding: true
    minutes: 2
    skill: home
sources:
  - {kind: first-hand, title: Brake evening}
reviewed: {on: 2026-03-14, by: curator-1, second: mechanic-1}
"""


def brakes(piece: str, bad: str) -> Sample:
    """The sample of a rule about safety: `BRAKES` is right, and wrong with `bad` in the place of one piece."""
    return Sample(path=BRAKES_PATH, instead_of="", bad=BRAKES.replace(piece, bad), good=BRAKES)


def with_bad(sample: Sample) -> dict[str, bytes]:
    """The sample base with the bad piece in it."""
    return _with(sample, sample.path, sample.bad, sample.encoding)


def with_good(sample: Sample) -> dict[str, bytes]:
    """The sample base with the good piece in it."""
    return _with(sample, sample.good_path or sample.path, sample.good, "utf-8")


def _with(sample: Sample, path: str, piece: str | None, encoding: str) -> dict[str, bytes]:
    files = {name: text.encode() for name, text in FILES.items()}
    if piece is None:
        del files[path]
        return files
    whole = piece
    if sample.instead_of:
        text = FILES[sample.path]
        if text.count(sample.instead_of) != 1:
            raise ValueError(f"{sample.path} does not hold {sample.instead_of!r} exactly once")
        whole = text.replace(sample.instead_of, piece)
        del files[sample.path]
    files[path] = whole.encode(encoding)
    return files
