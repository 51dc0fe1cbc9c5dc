"""KB557: below a bike that only a jack holds."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB557",
    title="Below a bike that only a jack holds",
    severity="error",
    what=(
        "Work in an entry that has somebody lie, crawl or reach below a bike on a jack, bricks or a rope, "
        "without a stand."
    ),
    why="A jack slips on a round sump, and a motorcycle weighs more than a chest bears.",
    sample=asks(
        "Lift it with a bottle jack under the sump and crawl below.",
        "Put it on the paddock stand, tied at the front, and look from below with a mirror.",
    ),
    alone="any day",
    check=told(
        "jacking",
        "this sends somebody below a bike that only a jack holds.",
        "Say which stands carry it, and where they stand, before anybody reaches below.",
    ),
)
