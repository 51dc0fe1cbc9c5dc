"""In which way a part fails. The same part that fails in another way is another fault.

The ways are the failure modes of a failure mode and effects analysis, as far as a workshop tells them apart by eye;
the words are common trade usage, no source. To add a way, add a line.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from kbtools.vocabulary.stems import sequence, written

_LINES = """
        worn, worn out, wear, thin, end of life, tired, shagged, groove, notch, slop, play, oval, rounded, stretch
        loose, slack, slackened, undone, came off, fell off, falls off, comes off, unhooked, let go, not latched, \
unplugged, hangs, settled, dangling, disconnected
        broken, break, snapped, cracked, split, torn, holed, hole, fractured, perished, perforated, stone, frays, burst
        stuck, seized, jammed, sticks, binds, gummed, solid
        blocked, clogged, bunged, dirt, dirty, choked, dust, muck, mud
        corroded, corrosion, rust, rusty, rusted, green, crusty, crust, rots, verdigris, oxidised
        short, shorted, short circuit, chafed, bare, melted, pinched, squeezed
        open, open circuit, interrupted, high resistance, infinite, broken wire
        adjusted, set, setting, misadjusted, gap, too tight, tension, wrong, fitted, forgotten, not taught, not seated
        water, moisture, wet, rain, soaked, damp
        aged, old, hard, hardened, perished, age
        level, overfilled, empty, low, lost its oil, dry, no grease
        leak, weeps, seal, seeps, false air, sucks air
        bent, bend, warped, buckled, twisted, distorted, crooked, askew, misaligned, out of true, dented, deformed
        burnt, burned, fried, scorched, charred, overheated, cooked, arcing, arcs
        missing, lost, left out, left off, absent
        oily, greasy, oil on, grease on, contaminated, soaked with oil, glazed, polished
        swollen, swells, soft, collapsed, kinked, flattened, shrunk
    """.strip().splitlines()

_WAYS = tuple(tuple(tuple(sequence(phrase)) for phrase in line.split(",")) for line in _LINES)

_BY_FIRST: dict[str, list[tuple[tuple[str, ...], int]]] = {}
for _number, _phrases in enumerate(_WAYS):
    for _phrase in _phrases:
        _BY_FIRST.setdefault(_phrase[0], []).append((_phrase, _number))

WORDS: Final = written(_LINES)
"""Every word of the table without its ending → as it is written."""


def ways(texts: Iterable[str]) -> frozenset[int]:
    """The numbers of the ways that the texts name."""
    found: set[int] = set()
    for text in texts:
        words = sequence(text)
        for place, first in enumerate(words):
            for phrase, number in _BY_FIRST.get(first, ()):
                if tuple(words[place : place + len(phrase)]) == phrase:
                    found.add(number)
    return frozenset(found)


def ways_alike(left: frozenset[int], right: frozenset[int]) -> float:
    """1 if they name a common way."""
    return 1.0 if left & right else 0.0
