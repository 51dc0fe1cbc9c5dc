"""KB556: petrol near a flame or a running engine."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB556",
    title="Petrol near a flame or a running engine",
    severity="error",
    what=(
        "Work in an entry that opens a fuel line or fills up with the engine running, sprays petrol or "
        "cleaner at it, or uses a flame at a tank, a carburettor or petrol."
    ),
    why="The vapour lies on the ground, finds the spark two metres away, and the bike and who kneels beside it burn.",
    sample=asks(
        "Pull the fuel hose off at idle and look how strong the jet is.",
        "Engine off and cold, hose off into a can, and measure what comes in half a minute.",
    ),
    alone="any day",
    check=told(
        "fuel-flame",
        "this brings petrol to a flame, a hot part or a running engine.",
        (
            "Have it done with the engine off and cold, in the open, and without a flame; look for leaks with "
            "soapy water."
        ),
    ),
)
