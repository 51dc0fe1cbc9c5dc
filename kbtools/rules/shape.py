"""KB2: what can be wrong with the shape of an entry, as the schemas say it."""

from __future__ import annotations

from typing import Final

from kbtools.rules.rule import Rule, Sample

SHAPE: Final = (
    Rule(
        code="KB201",
        title="Wrong kind of value",
        severity="error",
        what="A text where a number should be, one value where a list should be, and the like.",
        why="Nothing can be computed or shown from it.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="    minutes: 5",
            bad="    minutes: five",
            good="    minutes: 5",
        ),
    ),
    Rule(
        code="KB202",
        title="Unknown key",
        severity="error",
        what="A key that the format does not have.",
        why="It is usually a slip, and what it was meant to say would be lost.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="    minutes: 5",
            bad="    minuts: 5\n    minutes: 5",
            good="    minutes: 5",
        ),
    ),
    Rule(
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
    ),
    Rule(
        code="KB204",
        title="Wrong value",
        severity="error",
        what="A value that is not among the allowed ones, or not of the form or size that is asked for.",
        why="It could not be shown or compared.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="level: ride-to-workshop",
            bad="level: ride-to-workshp",
            good="level: ride-to-workshop",
        ),
    ),
    Rule(
        code="KB205",
        title="Keys that exclude each other",
        severity="error",
        what="Two keys of which only one may stand there.",
        why="It would be unclear which of them counts.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="    expect: Bright metal.\n    points_to: [corroded-plug]",
            bad="    expect: Bright metal.\n    reading: {good: [13.5, 14.8], unit: V, low_points_to: [corroded-plug]}",
            good="    reading: {good: [13.5, 14.8], unit: V, low_points_to: [corroded-plug]}",
        ),
    ),
    Rule(
        code="KB206",
        title="List too short or too long",
        severity="error",
        what="A range without two ends, a list that must not be empty, a member twice.",
        why="A range has a low and a high end; an empty list says nothing.",
        sample=Sample(
            path="faults/charging/lamp-flickers.yml",
            instead_of="labour_hours: [0.5, 1]",
            bad="labour_hours: [0.5]",
            good="labour_hours: [0.5, 1]",
        ),
    ),
)
"""By code. They have no check of their own: reading finds them."""
