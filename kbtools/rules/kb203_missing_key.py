"""KB203: missing key."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB203",
    title="Missing key",
    severity="error",
    what="A key that an entry must have. A draft may leave out all but title and system.",
    why="The page would leave the rider's question open.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="ride_advice: {level: ride-to-workshop, why: A flat battery stops the engine.}",
        bad="ride_advice: {level: ride-to-workshop}",
        good="ride_advice: {level: ride-to-workshop, why: A flat battery stops the engine.}",
    ),
)
