"""Turns of the workshop and the commonest names of parts that mean the same, or nearly so.

`everyday.py` has what machines do and how it sounds, `parts.py` more names of parts.
A line is a group; a name may have up to three words.
"""

from __future__ import annotations

from typing import Final

WORKSHOP: Final = tuple(
    tuple(word.strip() for word in line.split(","))
    for line in """
        carb, carburettor, carburetor
        balanced, synchronised, in sync, sync, synchronisation, matched
        unbalanced, out of sync, not synchronised, not balanced, out of balance
        glue, adhesive, bonding, unglued, unstuck
        comes off, fell off, falls off, falls out, let go, comes away, parted, detached
        hole, holed, pierced, punctured, perforated, through
        radiator, cooler, rad
        mudguard, fender, guard
        expansion tank, reservoir, header tank, overflow bottle
        tight, taut, overtensioned, too tight, tensioned, tension
        stiff, rigid, hard, harsh, wooden
        pinks, pinking, knocks, detonation, tinkle, tinny
        labouring, lugging, pulling
        ignition timing, timing, advance
        early, advanced, too soon
        late, retarded
        anti-lock, abs
        self-test, test
        volts, voltage, supply
        dips, dip, sags, drops, falls, sinks, goes down
        climbs, rises, goes up, increases, jumps, soars
        tired, lazy, slow, sluggish, weak
        drain, quiescent current, parasitic, leakage current, draws current, sleep current
        accessory, accessories, add-on, extras, aftermarket, retrofitted
        alarm, tracker
        awake, not fall asleep, not sleep
        weekend, few days, days, week, fortnight
        click, clicks, clicking
        solenoid, starter relay, starter solenoid
        welded, stuck on, stuck closed, fused
        relay, contactor
        keeps, goes on, carries on, continues, runs on, wont stop, not stop
        begins, starts, kicks in, cuts in, switches on
        switches off, turned off, switch off, key out, key off, ignition off
        let go, released, release, lets go
        pull, pulled, pulling, squeezed
        find, found, finds, locate
        false neutral, between gears, no gear
        jumps out, pops out, drops out, slips out
        detent, index
        linkage, joint, rod, rods
        top gear, sixth, highest gear, top
        lever, pedal, handle
        separate, disengage, release, clears
        bleed, bleeding, air
        groove, grooves, notch, notches, notched, ridges, steps
        overflow, overflows, flood, floods, floods over, spills, runs over
        float needle, needle valve, float valve
        float bowl, float chamber, bowl, bowls
        slides, slide, piston
        butterfly, throttle valve, throttle plate, throttle body
        stub, intake rubber, manifold rubber, inlet rubber
        bubbles, vapour, vapour lock, steam, boils, boiling
        travel, stroke, longer
        firm, hard, solid
        mushy, spongy, soft, vague, squidgy
        bite, effect, stopping power, braking
        halt, standstill, stop, stopping
        stone, rock, gravel, chip
        bulb, filament, lamp
        led, segment, diode
        message, text, display says
        parking light, position light, side light
        seat, saddle
        swing arm, swinging arm, swingarm
        wheel bearing, bearing, bearings
        spoke, spokes
        rim, wheel
        tread, profile
        pillion, two up, passenger, loaded, luggage, load
        rear end, back end, rear
        front end, front, nose
        weight, heavy
        spring, springs
        preload, pre-load, spring tension
        damping, damped, rebound, compression
        bouncy, pogo, pogo stick, bounces, hops, hop
        bolt, screw, fastener, stud
        nut, nuts
        washer, shim
        thread, threads, stripped
        bracket, mount, holder, mounting
        grommet, sleeve, sheath
        insulated, insulation, bare
        chafed, rubbed through, worn through, bare
        fuse blows, blows fuse, fuse, fuses
        ground, earth, earthing, mass
        strap, earth strap, earth cable
        current, amps, ampere
        resistance, ohms, measures
        infinite, open, no continuity
        spark plug, plug, plugs
        plug cap, cap, spark plug cap
        spark, sparks, arcs, arcing
        ignition coil, coil
        ht lead, plug lead, ignition lead, ignition cable
        ecu, control unit, engine control, brain, control box, black box
        memory, stored
        starter, starter motor
        starter button, button, press
        one-way clutch, freewheel
        brushes, brush, carbon brushes
        dragging, drags, rubs, binds, sticks on
        piston, pistons
        pin, pins, slider, slide pins
        grease, lubrication, lube, lubricant, greased
        oil level, level
        dipstick, sight glass
        crankcase, engine case, casing, case, cover
        sump, oil pan
        breather hose, breather, ventilation
        valve clearance, clearance, tappets, valves
        timing chain, cam chain
        tensioner, chain tensioner
        head gasket, gasket
        exhaust gas, exhaust fumes
        manifold, header, headers, downpipe
        flange, port, head
        black, dark, sooty
        blue smoke, burns oil, oil consumption, uses oil
        white smoke, steam
        hiss, hissing, whistle, whistling
        vacuum hose, vac pipe, vacuum pipe, vacuum line
        strainer, filter, sieve, screen
        fuel pump, pump
        injector, nozzle, injection valve
        pressure, bar
        tank, fuel tank
        reserve, low fuel
        water, moisture, condensation, damp
        drain, drain hole, drain pipe, drain hose
        recess, well
        cold start, start from cold, starting cold, cold morning
        choke, cold start device, enrichener, cold start lever
        cable, bowden cable, inner cable
        return, returns, comes back, springs back
        hooked, unhooked, off its pulley, jumped off
        frayed, fray, frays, strands
        adjust, adjusted, set
        chain, drive chain
        sprocket, chain wheel
        slack, sag
        stretch, stretched, elongated, lengthened
        link, links, joint
        kink, stiff link, tight spot, tight spots
        noise, noisy, racket, sound
        vibrates, vibration, tingles, tingle, buzz, buzzing, blur
        mirror, mirrors
        steering, handling
        pulls to one side, pulls, drifts
        dive, dives, bottoms
        front fork, fork, forks
        lock, full lock
        speed sensor, wheel sensor, abs sensor
        tone ring, sensor ring, toothed ring, reluctor
        gap, air gap, distance
        dirty, fouled, coated
        wiggle, wiggling, shake, waggling
        intermittently, sometimes, on and off, comes and goes
        straight away, at once, immediately, right away, instantly
        bump start, push start, jump start, jumped, jump leads
        sulphated, worn, aged, end of life
        acid, electrolyte
        boils over, spits coolant, overflows
        thermo switch, fan switch, temperature switch
        not work, no function, inoperative, no effect, dead, wont work, not function, nothing happens
        unlocks, opens, open
        locks, latches, latched, shuts, closes
        seat lock, lock barrel, lock, latch
        rattle, loose
        hard start, hard to start, starts badly, poor starting, bad starter, reluctant to start, takes ages
        backfire, pop, popping, bang
        flat, gutless, no pull, no power, lack of power, sluggish, down on power
        thirsty, drinks, consumption, fuel consumption, uses more
        first, first gear, bottom gear
        revs rise, revs climb, revs without, spins up
        judder, grabs, grabby, snatches, bites
        wear, wears, worn down, down to metal
        uneven, unevenly, one side, one-sided
        grating, grinding, grinds, scraping, scrape
        accelerate, accelerates, accelerating, acceleration, pulls away, pulling away, sets off, open the throttle
        decelerate, slows down, slowing down, engine braking, back off, backing off, shutting the throttle
        brake, braking, brakes, stopping, slowing, hauling up
        hairline crack, crack, fissure
        snaps, shears, sheared, breaks off, broken off, parts
        crooked, bent, skewed, askew, misaligned, out of line, not in line, tweaked
        scratched, scored, scoring, scuffed, grooved
        polished, glazed, shiny, glassy
        contaminated, oily, greasy, fouled, soiled
        swollen, swells, expanded, expands, bulges, puffed up
        shrunk, shrinks, contracted
        sealed, sealing, tight
        frozen, freezes, iced up, ice, frost
        burst, bursts, blown, blows, exploded, popped
        sinks, sags, drops down, collapses, squats, sinks down
        rises, lifts, comes up
        nothing, zero, zilch, nowt, sod all, naff all, not a sausage
        completely, totally, wholly, stone, fully
        again, repeatedly, time and again, over and over, constantly
        first start, first thing, morning, cold start
        after a while, after some time, after half an hour, once warm, warmed up, when warm
        long ride, motorway, long distance, long run, touring
        short trips, short rides, short runs, town
        rest, break, pause, cooling down, cools down, cooled, fag break, ten minutes
        standing, stationary, parked, standstill, stopped, at rest
        moving, riding, rolling, underway, on the move, on the road
        while turning, in bends, in corners, cornering, leaned over, leaning
        straight, straight ahead, straight line
        hands off, letting go of the bars, no hands, loose grip
        low revs, low engine speed, down low, bottom end, low rpm
        high revs, high engine speed, up top, top end, high rpm, redline
        mid range, midrange, middle revs, medium revs
        part throttle, half throttle, steady throttle, constant throttle, cruising
        blip, blipping, blips, rev, revving
        uneven, rough, lumpy, irregular, erratic
        smooth, even, steady, stable, regular
        crackle, crackles, crackling, spits, popping
        clicks, ticks, clack, snapping
        screeching, squeals, squealing, shriek, scream
        clunks, thuds, thud, thump, bang, knock
        drone, boom, roar, loud, noisy, deafening
        blows, blowing, leaking exhaust, chuffing, chuff
        itch, tingle, tingling, numb, numbness, pins and needles
        kicks, kick, kickback, thumps, jolts, jolt, jumps
        heavy, stiff, hard to pull, hard to move, sticky, needs force, needs two hands
        light, easy, slack, floppy, no resistance, limp
        snags, catches, hooks, notchy, stiff spot, detent
        clicks in, engages, goes in, takes, bites
        disengages, comes out, jumps out, pops out, slips out
        refuses, wont, not want to, balks
    """.strip().splitlines()
)
"""Groups of words; common trade usage, no source."""
