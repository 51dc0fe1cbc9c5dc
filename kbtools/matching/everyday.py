"""Everyday and workshop English that means the same, whatever the club; a club's own `words.yml` comes on top.

Only words whose difference never tells two faults apart. Names of parts stand here where they are short forms or other
names of the same part. To add a group, add a line; a name may have up to three words.
"""

from __future__ import annotations

from typing import Final

EVERYDAY: Final = tuple(
    tuple(word.strip() for word in line.split(","))
    for line in """
        defective, faulty, failed, fails, duff, dodgy, knackered, shot, toast, kaput, packs up, packed up
        worn, worn out, shagged, tired
        broken, snapped, fractured
        cracked, split, holed, perished
        blocked, clogged, bunged, gummed, gunged, choked
        stuck, seized, jammed, seizes
        dirty, dirt, muck, mud, grime
        corroded, corrosion, rusty, rusted, rust, rots, rotten, crust, crusty, verdigris
        lamp, light
        loose, slack, not tight
        lost, missing, loss, absent
        rattle, chatter, clatter
        knock, clonk, clunk, clack
        howl, whine, screech, squeal
        whirr, hum, buzz, whizz
        leaks, weeps, drips, seeps, oozes, leaking
        wobble, shimmy, waggle
        judder, shudder, shake
        smell, stink, reek
        backfires, pops, bangs
        snatchy, jerky, lurchy, lurches, harsh
        flickers, blinks, glimmers, winks
        glows, lit
        fades, weakens, dims
        hot, warm
        frost, freezing, icy
        traffic, jam
        overrun, rolling off, roll off, shut off
        overtaking, passing
        parked, standing, lay-up, laid up, storage
        soaked, soaking, downpour, wet
        renew, replace, swap
        gauge, meter
        bike, motorbike, motorcycle, machine
        engine, motor, lump
        throttle, gas, twist grip, twistgrip
        handlebar, handlebars, bars
        wire, lead, cable, conductor
        terminal, lug, battery post
        tyre, tire
        silencer, muffler, exhaust can
        cylinder, pot
        revs, rpm
        idle, tick over, tickover
        rev counter, tacho, tachometer
        indicator, turn signal, flasher, blinker
        brake light, stop lamp, stop light, brake lamp
        dipped beam, low beam, dip
        ignition lock, ignition switch
        side stand, kickstand, stand
        sensor, sender, probe
        pickup, pick-up, crank sensor, crankshaft sensor
        tps, throttle sensor, throttle position sensor, throttle potentiometer
        reg, regulator
        freewheel, sprag, sprag clutch, starter clutch
        fuel tap, petcock
        vacuum, vac
        fork tube, stanchion, fork leg
        horn, hooter
        filler cap, fuel cap, tank cap
        vent, breather
        speed, velocity
        garage, shed
        puddle, pool
        rear, back
        kerb, curb
        false air, sucks air
        chafed, rubbed through, frayed
        bent, warped
        noise, sound
    """.strip().splitlines()
)
"""Groups of words; common usage, no source."""
