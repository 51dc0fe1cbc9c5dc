"""What excludes each other: front and rear, too high and too low, will not start and will not stop.

`AXES` is the whole table. To add a pair, add a line; an axis may have more than two sides (the gears). A side's words
are written as people write them; several words in a row are one phrase; `not` stands for every negation.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """Sides that exclude each other."""

    name: str
    """For messages."""
    sides: tuple[tuple[str, ...], ...]
    """Words and phrases of each side."""


def _axis(name: str, *sides: str) -> Axis:
    return Axis(name=name, sides=tuple(tuple(each.strip() for each in side.split(",")) for side in sides))


_GEARS = ("first", "second", "third", "fourth", "fifth", "sixth")

AXES: Final = (
    _axis(
        "front / rear",
        "front, handlebar brake, gearbox sprocket, output sprocket",
        "rear, back, tail, from behind, behind, swing arm, under the seat, below the seat, under seat",
    ),
    _axis("left / right", "left", "right"),
    _axis(
        "high / low",
        "high, too much, overcharg, overvoltage, above, climb, rise, goes up, full of charge, race, boil over",
        "low, too little, undercharg, undervoltage, below, sink, sag, drop, goes down, never gets full",
    ),
    _axis(
        "hot / cold",
        "hot, warm, in the heat, with heat, of heat, summer, overheat",
        "cold, cool, frost, freez, winter, icy, start-up, first started",
    ),
    _axis("rich / lean", "rich, black smoke, soot, sooty", "lean, white plug, false air, suck air"),
    _axis(
        "open / shut",
        "open, lets by, lets past, lets petrol, flow, not seal, not shut, not lock, not latch",
        "shut, closed, close, not flow, not let, not unlock, jam, prime",
    ),
    _axis(
        "leaks / is blocked", "leak, drip, weep, hole, crack, split, torn, burst, loses", "blocked, clog, bung, choked"
    ),
    _axis(
        "too much / too little", "too much, too many, overfill, too full", "too little, underfill, none, gives nothing"
    ),
    _axis(
        "works too early / not at all",
        "too early, too soon, too quickly",
        "not cancel, not switch off, stay on, stays on, go on, goes on, by themselves",
    ),
    _axis(
        "at the lever / at the engine",
        "at the lever, at lever, at the handlebar, upper end",
        "at the engine, at engine, at the gearbox, lower end, lower arm",
    ),
    _axis(
        "on charge / off charge",
        "no power, without current, not charge, not charged",
        "stays live, live with the key off, still live",
    ),
    _axis("open circuit / short circuit", "open circuit, broken wire, interrupted", "short, shorted, short circuit"),
    _axis(
        "does not run / does not stop",
        "stops turning, not start, not run, not turn, not light, not come on, not work, not kick in, "
        "without current, no hum, no buzz, not crank, nothing but, nothing happens, never starts, "
        "never runs, stays off, "
        "no spark, no starter, no power, no effect, gives nothing, "
        "stays dark, stays still, stays silent, silent, dark, dead, stay cold",
        "not stop, not go out, not switch off, not go off, stays on, stays lit, stays engaged, "
        "stays hot, stuck on, keeps, stays live, still live, runs on, lit all, never goes out, "
        "goes on, go on, carries on, will not shut off, not cut, not cut out, not return, not let go, "
        "goes on turning, by itself, permanently on, always on",
    ),
    _axis(
        "lamp lit / lamp dark",
        "lamp on, light on, lamp glow, light glow, lamp flicker, light flicker, lamp lit, light lit, "
        "lamp stays on, light stays on, lamp stays lit, "
        "light stuck on, lamp comes on, lit, glow, lamp not go out, light not go out, never goes out, never goes off",
        "not light, dark, stays off, never lights, lamp out",
    ),
    _axis("slips / drags", "slip", "drag, not separate, not release, creep"),
    _axis("loose / tight", "loose, slack, play in", "tight, notchy, stiff, seized"),
    _axis(
        "gauge too full / too empty",
        "shows full, reads full, empty tank, tank empty, ran dry, runs out although, bars shown, stuck at full",
        "shows empty, reads empty, stays at zero, full tank, tankful, brimmed, just filled, out of gas, out of fuel, "
        "reserve light, reserve lamp, stuck at empty",
    ),
    _axis(
        "gauge too hot / too cold",
        "jumps to full, jumps to hot, full bars, all bars, shows hot, reads hot, reads overheat, fan runs at once, "
        "shows too much, reads high, reads too high, needle in the red",
        "stays at cold, stays cold, no bar, shows cold, reads cold, fan never runs, no reading, "
        "shows too little, reads low, reads too low, needle does not move",
    ),
    _axis("unit too fast / too slow", "reads too fast, shows too fast", "reads too slow, shows too slow"),
    _axis("overflows / runs dry", "overflow, flood, spill", "runs dry, ran dry, starve, half empty"),
    _axis("fast / slow", "fast, quick", "slow, lazy"),
    _axis("wet / dry", "wet, rain, damp, wash, flood", "dry weather, drought"),
    _axis("low beam / high beam", "low beam, dipped beam, dip", "high beam, main beam, full beam"),
    _axis(
        "upshift / downshift",
        "upshift, upwards, shifting up, going up, way up, changing up",
        "downshift, downwards, shifting down, going down the, way down, changing down",
    ),
    _axis(
        "opening / closing throttle",
        "opening the throttle, full throttle, accelerat",
        "overrun, closed throttle, rolling off",
    ),
    _axis("inlet / exhaust", "inlet, intake, air box, airbox", "exhaust, tailpipe, silencer"),
    _axis(
        "inner / outer",
        "inner pad, inside pad, inside one, inside edge, inner edge, inner side, inner",
        "outer pad, outside pad, outside one, outer edge, outside edge, outer",
    ),
    _axis("upper / lower", "upper, top yoke", "lower"),
    _axis(
        "lever pulled / let go",
        "lever pulled, clutch pulled, clutch in, lever in",
        "lever let go, lever released, clutch out, lever out",
    ),
    _axis("soft / hard", "spongy, soft, mushy, limp", "hard, wooden, stiff, heavy"),
    _axis(
        "slow ride / fast ride",
        "walking pace, low speed, crawl, standstill",
        "high speed, motorway, flat out, top speed",
    ),
    _axis("early / late", "too early, advanced, pink, detonat", "too late, retard"),
    _axis("too large / too small", "too large, too big, too wide, too long", "too small, too narrow, too short"),
    _axis("uphill / downhill", "uphill, climbing", "downhill, descent, way down"),
    _axis("gear", *(f"{gear} gear, in {gear}, into {gear}, of {gear}, from {gear}, on {gear}" for gear in _GEARS)),
    _axis(
        "cylinder",
        "cylinder 1, cylinder one",
        "cylinder 2, cylinder two",
        "cylinder 3, cylinder three",
        "cylinder 4, cylinder four",
    ),
    _axis(
        "idles too fast / dies at idle",
        "idles too fast, idle too high, races, idle climbs, hangs up, idles high",
        "stalls at idle, dies at idle, not idle, idle too low, not hold idle, dies at the lights, stalls",
    ),
    _axis(
        "brake drags / does not bite",
        "drag, binds, stays on, not let go, seized on",
        "no bite, fade, without bite, not bite, no effect, little effect, not brake",
    ),
    _axis(
        "bottoms / tops",
        "bottoms, dives, hits the stops, sinks, too soft, wallow",
        "tops out, topping, too hard, harsh, rigid, no travel",
    ),
    _axis(
        "level rises / falls",
        "level rises, level too high, overfull, overfilled",
        "level falls, level too low, level drops, loses, uses",
    ),
    _axis(
        "key on / key off",
        "key on, ignition on, switched on",
        "key off, ignition off, key out, switched off, without the key",
    ),
    _axis("smoke", "blue smoke, smokes blue", "white smoke, smokes white, steam", "black smoke, smokes black"),
    _axis("fluid", "oil", "coolant, antifreeze", "petrol, fuel, gasoline", "brake fluid", "grease"),
    _axis(
        "instrument",
        "speedo, speedometer",
        "rev counter, tacho, tachometer",
        "fuel gauge, fuel display",
        "temperature gauge, temperature display, temp gauge",
        "clock",
        "oil lamp, oil light",
        "charge lamp, charging light, charge light",
        "gear display, gear indicator, neutral lamp, neutral light",
        "odometer",
    ),
    _axis(
        "light",
        "headlamp, headlight, dipped, low beam, high beam, main beam",
        "tail light, rear light, back light, tail lamp",
        "brake light, stop lamp, stop light, brake lamp",
        "indicator, turn signal, flasher, blinker",
        "position light, parking light",
        "horn, hooter",
    ),
    _axis("pump", "fuel pump, petrol pump", "oil pump", "water pump, coolant pump"),
    _axis("bearing", "wheel bearing, hub bearing", "steering head, head bearing, headstock", "swing arm"),
    _axis(
        "jumps out / does not go in",
        "jumps out, pops out, slips out, drops out",
        "not go in, not engage, hard to engage, not shift, not into",
    ),
    _axis(
        "pulls left/right",
        "pulls left, pulls to the left, drifts left",
        "pulls right, pulls to the right, drifts right",
    ),
    _axis(
        "rises / falls", "rises, climbs, goes up, jumps up, increas", "falls, sinks, drops, goes down, sags, decreas"
    ),
    _axis("too long / too short", "too long, longer", "too short, shorter"),
    _axis(
        "starts / stops",
        "not start, hard to start, starts badly",
        "dies, stalls, cuts out, conks out, stops while, cuts while",
    ),
    _axis(
        "lamp / no lamp",
        "lamp comes on, light comes on, lamp lit, warning lamp, warning light",
        "no lamp, lamp stays dark, no warning",
    ),
)
"""Every axis. The words are common trade usage, no source."""
