"""Texts without meaning in a workshop's words, of the lengths that the texts of `kb/` have."""

from __future__ import annotations

import random


def _listed(text: str) -> tuple[str, ...]:
    return tuple(text.split(", "))


# Nothing that hands do: with a part chosen blindly it might be unsafe work, which is an error.
_VERBS = _listed(
    "Measure, Inspect, Compare, Look over, Examine, Judge, Trace, Follow, Mark, Label, Sketch, Photograph, Note, "
    "Describe, Count, Identify, Find, Number, Check, Survey, Review, Record, Consider, View, Locate, List, Verify, "
    "Study"
)
_QUALITIES = _listed(
    "corroded, loose, chafed, swollen, cracked, bent, seized, worn, burnt, wet, dirty, brittle, stretched, "
    "pinched, leaking, blocked, sticking, rusty, oily, scored, shorted, open, frayed, hardened, overheated, "
    "misaligned"
)
_THINGS = _listed(
    "regulator plug, stator lead, main earth cable, fuse holder, starter relay, stand switch, neutral switch, "
    "lever switch, crank pickup, ignition coil, plug cap, throttle sensor, idle valve, intake rubber, fuel "
    "pump, fuel filter, line coupler, tank vent, cooling fan, fan relay, thermostat housing, coolant hose, "
    "radiator cap, water pump seal, master cylinder, brake hose, caliper piston, wheel sensor, sensor ring, "
    "pressure unit, clutch basket, slave cylinder, selector fork, gear linkage, drive chain, front sprocket, "
    "headlamp plug, dip switch, dash connector, bus joint, speed sensor, fork seal, head bearing, wheel "
    "bearing, cush drive, lambda sensor, exhaust flap, servo cable"
)
_PLACES = _listed(
    "behind the side panel, under the seat, at the battery posts, below the tank, beside the frame tube, at "
    "the steering head, above the gearbox, near the swing arm, inside the air box, on the left grip, at the "
    "rear mudguard, behind the headlamp, under the fairing, next to the fuse box, on the engine cover"
)
_WHEN = _listed(
    "after a wet ride, on a cold start, at warm idle, above walking pace, under full load, with the key on, "
    "over cobbles, after a long stop, in slow traffic, with lamps on, after a service, at high speed, in deep "
    "puddles, after a fall, on a hot day, when leaned over"
)
_UNITS = ("V", "ohm", "bar", "mm", "Nm", "mA")

_POOL = 3000
"""So many phrases of each kind: two together give nine million texts."""


class Texts:
    """Hands out texts; what comes depends on the generator of random numbers alone."""

    def __init__(self, rng: random.Random) -> None:
        self._random = rng.random
        pick = rng.choice
        self._actions = [f"{pick(_VERBS)} the {pick(_THINGS)} {pick(_PLACES)}" for _ in range(_POOL)]
        self._states = [f"{pick(_THINGS).capitalize()} {pick(_QUALITIES)} {pick(_WHEN)}" for _ in range(_POOL)]
        self._shorts = [f"{pick(_THINGS).capitalize()} {pick(_QUALITIES)}" for _ in range(_POOL)]
        self._slugs = [f"{pick(_THINGS).replace(' ', '-')}-{pick(_QUALITIES)}" for _ in range(_POOL)]
        self._values = [
            f"Between {low} and {low + rng.randrange(1, 9)} {pick(_UNITS)}"
            for low in (rng.randrange(1, 400) for _ in range(_POOL))
        ]

    def _one(self, pool: list[str]) -> str:
        # Twice as fast as random.choice, which matters for half a million texts.
        return pool[int(self._random() * _POOL)]

    def slug(self) -> str:
        """Two or three words with hyphens, about 20 characters."""
        return self._one(self._slugs)

    def short(self) -> str:
        """A part and its state, about 22 characters."""
        return self._one(self._shorts)

    def thing(self) -> str:
        """A part, about 13 characters."""
        return _THINGS[int(self._random() * len(_THINGS))]

    def when(self) -> str:
        """A circumstance, about 15 characters."""
        return _WHEN[int(self._random() * len(_WHEN))]

    def state(self) -> str:
        """A part, its state and when, about 40 characters."""
        return self._one(self._states)

    def action(self) -> str:
        """What to do, about 42 characters, without a full stop."""
        return self._one(self._actions)

    def value(self) -> str:
        """A range with its unit, about 22 characters."""
        return self._one(self._values)

    def sentence(self) -> str:
        """About 65 characters, without a full stop and without a sign of YAML."""
        return f"{self._one(self._actions)} and look for {self._one(self._shorts).lower()}"

    def sentences(self, count: int) -> str:
        """So many sentences of about 42 characters, without the last full stop."""
        return ". ".join(self._one(self._actions) for _ in range(count))
