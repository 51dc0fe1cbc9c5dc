"""What the faults and cases of a synthetic knowledge base refer to: always the same, whatever its size."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A control unit and the years in which it was fitted."""

    id: str
    system: str
    first: int
    last: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """A model and its years."""

    id: str
    name: str
    first: int
    last: int
    units: tuple[Unit, ...]


CLUB = """\
name: Ostrel Owners' Circle
site_url: https://lore.ostrel-circle.example/
repository: https://git.example/ostrel-circle/lore
format: 2
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
"""

SYSTEMS = (
    "charging",
    "starting",
    "ignition",
    "fuel",
    "cooling",
    "brakes-hydraulic",
    "brakes-abs",
    "clutch",
    "gearbox",
    "lighting",
    "instruments",
    "steering",
)
"""The systems that have faults."""

PARTS = ("sensor", "wiring", "unit", "seal")
"""Each system has these components: `fuel-sensor`."""

COMPONENTS = tuple((f"{system}-{part}", system) for system in SYSTEMS for part in PARTS)
"""Id and system."""

CAUTIONS = """\
cautions:
  - id: battery-gas
    text: A battery being charged gives off hydrogen and holds acid. No flame near it, and the negative cable off first.
  - id: fuel-vapour
    text: Petrol vapour lies on the floor. Cold engine, open door, no flame, and an extinguisher within reach.
  - id: hot-parts
    text: Exhaust, covers and discs burn skin for half an hour after a ride. Let them cool unless the step says warm.
  - id: lifting
    text: Stand the bike on level, hard ground, tied so that it cannot tip; never reach under one on a jack.
  - id: brake-work
    text: Work on brakes only if you have learnt it. Pump the lever firm before the first ride, at walking pace.
"""

WORDS = """\
words:
  - [tickover, idle]
  - [petrol, fuel, gasoline]
  - [headlight, headlamp]
  - [earth, ground]
"""

PAGES = {
    "index.md": "# What the club knows\n\nEverything here was made up by a program, to measure with.\n",
    "safety.md": "# Working safely\n\nRead the cautions first.\n",
    "contribute.md": "# Contribute\n\nWrite what you found.\n",
}

CRITICAL = ("brakes-hydraulic", "brakes-abs", "steering")
"""The safety-critical ones among them."""

_ACCESS = """\
access:
  - {id: seat-off, name: Seat off, minutes: 3}
  - {id: side-panel-off, name: Side panel off, minutes: 5}
  - id: tank-off
    name: Fuel tank off
    minutes: 35
    skill: experienced
    needs: [seat-off]
    cautions: [fuel-vapour]
    allows: key-on
  - {id: fairing-off, name: Fairing side off, minutes: 20}
  - {id: wheel-up, name: Wheel clear of the ground, minutes: 8, cautions: [lifting]}
  - {id: cover-off, name: Engine cover off, minutes: 40, skill: experienced, cautions: [hot-parts]}
tools:
  - {id: hand-tools, name: Spanners and sockets, usual: true}
  - {id: multimeter, name: Multimeter, usual: true}
  - {id: torque-wrench, name: Torque wrench, usual: true}
  - {id: crimping-pliers, name: Crimping pliers, usual: true}
  - {id: pressure-gauge, name: Pressure gauge}
  - {id: dial-gauge, name: Dial gauge}
"""


def _model(name: str, first: int, change: int, last: int) -> Model:
    identity = name.lower().replace(" ", "-")
    short = identity.split("-", maxsplit=1)[0]
    spans = (("a", first, change), ("b", change + 1, last))
    units = [
        Unit(id=f"{kind}-{short}-{letter}", system=system, first=low, last=high)
        for kind, system in (("engine", "fuel"), ("abs", "brakes-abs"))
        for letter, low, high in spans
    ]
    units.append(Unit(id=f"dash-{short}", system="instruments", first=first, last=last))
    return Model(id=identity, name=name, first=first, last=last, units=tuple(units))


MODELS = (
    _model("Dunlin 650", 1994, 1998, 2002),
    _model("Bittern 900", 2003, 2007, 2012),
    _model("Curlew 1100", 2010, 2015, 2022),
    _model("Dunlin 700", 2003, 2008, 2014),
    _model("Bittern 1000", 2013, 2016, 2021),
)
"""None is still built, so that the number of pages does not depend on the day."""


def model_text(model: Model) -> str:
    """The model's file."""
    units = "".join(
        f"  - {{id: {unit.id}, name: Unit {unit.id}, system: {unit.system}, years: {unit.first}-{unit.last}}}\n"
        for unit in model.units
    )
    return f"name: {model.name}\nyears: {model.first}-{model.last}\ncontrol_units:\n{units}"


def systems_text() -> str:
    """`systems.yml`."""
    rows = ["systems:\n"]
    for system in SYSTEMS:
        critical = ", safety_critical: true" if system in CRITICAL else ""
        rows.append(f"  - {{id: {system}, name: {_words(system)}{critical}}}\n")
    rows.append("components:\n")
    rows += [f"  - {{id: {each}, name: {_words(each)}, system: {system}}}\n" for each, system in COMPONENTS]
    return "".join(rows) + _ACCESS


def _words(identity: str) -> str:
    return identity.replace("-", " ").capitalize()
