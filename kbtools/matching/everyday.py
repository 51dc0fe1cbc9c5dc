"""Everyday and workshop English that means the same, whatever the club; a club's own `words.yml` comes on top.

Only words whose difference never tells two faults apart. Names of parts stand here where they are short forms or other
names of the same part. To add a group, add a line; a name may have up to three words.
"""

from __future__ import annotations

from typing import Final

EVERYDAY: Final = tuple(
    tuple(word.strip() for word in line.split(","))
    for line in """
        defective, faulty, failed, fails, failing, failure, duff, knackered, shot, toast, kaput, packs up, packed up
        defective, failed, given up, gone, bust, fried, out of order, out of action
        worn, worn out, shagged, tired, wear
        broken, snapped, fractured, break, breaks, interrupted
        cracked, split, holed, perished, torn, crack, nicked, ripped
        blocked, clogged, bunged, gummed, gunged, choked, plugged up, blockage
        stuck, seized, jammed, seizes, sticks, sticking, binding, hangs
        dirty, dirt, muck, mud, grime, grit, dust, filth
        corroded, corrosion, rusty, rusted, rust, rots, rotten, crust, crusty, verdigris, green, oxidised
        burnt, burned, scorched, molten, melted, melts, fried
        overheats, too hot, overheated, cooked, boils, boiling
        leaks, weeps, drips, seeps, oozes, leaking, pissing, wet with, loses, loss of
        loose, slack, not tight, play, slop, comes loose, undone, wobbly
        lost, missing, absent, without, lacks
        weak, feeble, poor, tired out, low on
        aged, old, ancient, hardened, hard with age
        empty, exhausted, used up, flat, discharged, dead
        rattle, chatter, clatter, bag of spanners
        knock, clonk, clunk, clack, bang, thump
        howl, whine, screech, squeal, squeak, scream
        whirr, hum, buzz, whizz, whirring, humming
        tick, ticking, tapping
        rumble, growl, grumble
        wobble, shimmy, waggle, oscillate, tank slapper
        wallow, sway, weave
        judder, shudder, shake, pulse, pulsate, vibrate, vibration
        smell, stink, reek, whiff, odour
        smoke, cloud, fumes, puff
        backfires, pops, bangs, spits
        misfires, stutters, coughs, splutters, stumbles, hesitates, runs rough, drops out
        stalls, dies, cuts out, conks out, stops, quits, shuts off, gives up, goes off
        snatchy, jerky, lurchy, lurches, harsh, bucks, kangaroos, bunny hopping, jerks, jerk
        surges, hunts, wanders, swings, erratic, unsteady, up and down, fluctuates, dances, jumps
        flickers, blinks, glimmers, winks, flashes, flashing, blinking
        glows, lit, comes on, lights up, illuminated, shines
        dark, unlit, not lit, out
        fades, weakens, dims, dim, goes yellow
        lights, lamps, headlamp, headlight
        slips, slipping, spins
        creeps, crawls
        shows, reads, displays, says, indicates
        starts, fires, fires up, catches
        cranks, turns over, cranking
        press, push, touch
        fitted, mounted, installed
        refit, reassemble, put back
        forgotten, left out, left off
        unplugged, disconnected, off its, slipped off, came off, half off, plug off, not connected
        rubs, touches, scrapes, chafes, pinched, squeezed, kinked, chafed, frayed, rubbed
        bent, warped, distorted, out of true, twisted
        rounded, hooked, rounded off
        scored, pitted, pit, dented, dents, brinelled
        dry, no grease, not greased
        hot, warm, warmed, warmed through, heat, operating temperature
        frost, freezing, icy, below zero, brass monkeys
        cold, cool
        traffic, jam, town, city, queue
        motorway, highway, cruising speed, cruising, at speed
        lights, traffic light, red light
        walking pace, crawl, crawling, crawling speed, low speed
        full throttle, wide open throttle, flat out, at full, wide open, the beans
        overrun, rolling off, roll off, shut off, deceleration, coasting, rolling out
        throttle, gas, twist grip, twistgrip, accelerator
        opening the throttle, accelerating, getting on the gas, load
        overtaking, passing
        hairpin, tight bend
        bend, curve, corner
        hill, uphill, pass, mountain
        bumps, cobbles, cobblestones, kerb, rough road, potholes, bumpy, paving
        parked, standing, lay-up, laid up, storage, stored, left standing
        overnight, next morning, in the morning, night
        winter, cold season
        summer, hot day
        soaked, soaking, downpour, wet, rain, rainwater, rainy, chucking it down, damp
        washing, wash, pressure washer, pressure washing
        renew, replace, swap, change, exchange, new
        service, inspection, maintenance
        fix, repair, mend
        gauge, meter, display
        bike, motorbike, motorcycle, machine
        engine, motor, lump
        handlebar, handlebars, bars, bar
        wire, lead, cable, conductor, wiring, loom, harness
        terminal, lug, battery post, clamp, battery clamp
        contact, pin, contacts
        plug, connector, coupling, socket
        tyre, tire
        silencer, muffler, exhaust can, can
        exhaust, header, manifold, exhaust pipe
        cylinder, pot
        revs, rpm, engine speed
        power, juice, current, electrics
        idle, tick over, tickover, idling
        rev counter, tacho, tachometer
        speedo, speedometer, speed display
        dash, dashboard, clocks, instruments, instrument cluster, cluster
        indicator, turn signal, flasher, blinker
        brake light, stop lamp, stop light, brake lamp
        rear light, tail light, back light
        dipped beam, low beam, dip
        high beam, main beam, full beam
        warning lamp, warning light, engine lamp, check lamp, engine light, orange light, yellow lamp, red lamp
        lamp, light
        ignition lock, ignition switch, key switch
        key on, ignition on, switch on, switched on, ignition is switched on
        side stand, kickstand, stand, sidestand
        steering head, headstock, head bearing
        sensor, sender, probe, transducer
        pickup, pick-up, crank sensor, crankshaft sensor
        tps, throttle sensor, throttle position sensor, throttle potentiometer
        oxygen sensor, lambda, lambda sensor
        lambda heater, sensor heating, heating element, heater element
        reg, regulator
        alternator, generator
        winding, coil, windings
        insulation, varnish, lacquer
        freewheel, sprag, sprag clutch, starter clutch
        fuel tap, petcock
        fuel, petrol, gasoline
        vacuum, vac
        membrane, diaphragm
        fork tube, stanchion, fork leg, tube
        shock, shock absorber, strut, damper, rear shock
        seal, o-ring, sealing ring, gasket, lip
        bush, bushing
        horn, hooter
        filler cap, fuel cap, tank cap
        vent, breather
        air box, airbox
        air filter, air cleaner
        fuel line, petrol pipe, fuel hose
        hose, pipe, tube
        clamp, clip, clips
        caliper, stopper
        brakes, anchors
        disc, rotor
        pads, linings
        gear lever, shift pedal, gear pedal, shift lever
        gear, shift
        upshift, shifting up
        downshift, shifting down
        sprocket carrier, carrier
        cush drive, cush, shock dampers, damping rubbers
        rubber, rubbers, stub, stubs
        quickshifter, shift assistant, blipper
        immobiliser, immobilizer, key not recognised
        thermostat, stat
        fan, cooling fan, radiator fan
        coolant, antifreeze, water
        master cylinder, brake cylinder
        circuit, system
        short, shorted, short circuit
        open, open circuit
        program, software
        adjusted, set, setting, adjustment, adjuster
        too high, too much, above
        too low, too little, below
        limit, limits, limiting
        full, brimmed, tankful
        consumption, drinks, thirst, uses
        rich, too rich
        soot, sooty, black
        noise, sound
        speed, velocity
        garage, shed
        puddle, pool, drops
        rear, back, behind
        kerb, curb
        false air, sucks air, air leak
        mixture, fuelling
        oil film, oily, oil mist, greasy
        code, codes, dtc
        pedal, foot lever
        hesitates, flat spot, dead spot
        heavy, stiff, hard to turn
        rarely, seldom
        always, permanently, all the time, constantly
        sometimes, now and then, at times, at random, intermittent
        quickly, fast, rapid, hectic
        second gear, second
    """.strip().splitlines()
)
"""Groups of words; common usage, no source."""
