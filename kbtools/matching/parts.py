"""Names of parts, of their circuits and of what is set on them, that mean the same or nearly so.

A line is a group; a name may have up to three words.
"""

from __future__ import annotations

from typing import Final

PARTS: Final = tuple(
    tuple(word.strip() for word in line.split(","))
    for line in """
        missing link, clip link, joining link, master link
        rear sprocket, chain ring, sprocket
        chain guard, chain guide, slider, rubbing block
        axle, spindle, wheel spindle
        wheel nut, axle nut, spindle nut
        yoke, triple clamp, fork bridge
        stem, steering stem, steering head
        fork oil, fork fluid
        dust seal, dust cap, wiper
        slider, fork slider, lower leg
        linkage, rocker, dog bone, relay arm, suspension linkage
        frame, chassis
        subframe, rear frame
        footrest, footpeg, peg, pegs
        pegs, footpegs, footrests
        windscreen, screen, windshield
        fairing, cowl, panel, bodywork, plastics
        numberplate, number plate, licence plate
        grip, grips, heated grips, grip heaters
        twist grip, throttle grip, throttle tube
        clutch basket, outer drum, basket, drum
        clutch hub, inner drum, hub
        clutch plates, friction plates, plates, discs, linings
        pressure plate, clutch springs
        pushrod, push rod, release rod, release bearing
        slave cylinder, slave, clutch slave, release cylinder
        hydraulics, hydraulic, fluid
        fluid, brake fluid, dot
        brake hose, brake line, hose, line
        calliper, caliper, calipers
        seals, seal, piston seals, rubbers
        anti-rattle spring, pad spring
        pad pins, pins, retaining pins
        floating disc, bobbins, buttons, floaters
        run-out, runout, wobble, warp, warped
        thickness, thin, worn down
        bleed nipple, bleeder, nipple
        pressure sensor, map sensor, vacuum sensor
        air temperature sensor, intake air sensor
        coolant sensor, temperature sensor, water temperature sensor, temp sensor, temp sender
        knock sensor, detonation sensor
        cam sensor, camshaft sensor, phase sensor
        tilt sensor, lean angle sensor, bank angle sensor, fall sensor, tip-over sensor
        neutral switch, neutral sensor, neutral light, neutral lamp
        gear sensor, gear position sensor, gear indicator, gear display
        oil pressure switch, oil switch, oil sender, oil light, oil lamp
        clutch switch, clutch lever switch
        idle actuator, idle valve, stepper motor, idle control, idle air valve
        idle screw, throttle stop, slow running screw
        pilot jet, idle jet, slow jet
        main jet, jet, jets
        jet needle, needle
        throttle cable, gas cable, accelerator cable
        fuel rail, rail, distributor
        fuel pressure, pressure
        pressure regulator, fuel regulator
        fuel filter, filter, strainer
        fuel pump relay, pump relay
        canister, charcoal canister, carbon canister
        exhaust valve, exhaust flap, flap, power valve
        catalyst, catalytic converter, cat, catalyser
        heat shield, shield, guard
        gasket, seal, packing
        water pump, coolant pump
        water pump seal, mechanical seal, shaft seal
        weep hole, tell-tale hole, drain hole
        radiator cap, pressure cap, filler cap
        head gasket, cylinder head gasket, blown gasket
        oil pump, pump
        oil filter, filter
        oil cooler, cooler
        piston rings, rings
        valve stem seals, valve seals, stem seals
        big end, con rod bearing, conrod bearing, main bearing
        compression, compression test
        decompressor, decomp
        balancer, balance shaft
        kickstarter, kick start, kick starter
        charge lamp, charging light, charge light, alternator lamp, battery light
        rectifier, diode, diodes
        phase, phases, winding
        magnet, magnets, flywheel
        slip rings, slip ring, rings
        voltage regulator, regulator rectifier, reg rec, regrec
        charger, battery maintainer, trickle charger
        charging, charge, charges
        cell, cells, plates
        lithium, lipo, lifepo
        lead acid, lead-acid
        main fuse, fuse
        fuse box, fuse holder, fuses
        blown fuse, fuse blown, fuse gone, pops the fuse
        earth fault, short to earth, short to ground
        broken conductor, broken wire, open wire, wire break, strands
        solder joint, soldered joint, dry joint, solder, cold joint
        crimp, crimped
        switchgear, switch, switches, handlebar switch
        kill switch, stop switch, engine cut-off, red switch, engine stop switch
        ignition key, key, transponder, chip
        aerial, antenna, ring antenna
        bus, can, data bus
        flashing, blinks fast, hyperflash, blinks hectically, twice as fast
        bulb holder, lamp holder, socket
        reflector, lens, glass
        mist, fog, fogged, condensation, steamed up, misted
        beam, beams, headlight beam
        dazzles, blinds, too high
        speed reading, speedometer, speedo
        odometer, mileage, kilometres, mileometer
        pixels, lcd, display, screen
        resets, reset, goes to zero, loses, forgets
        clock, time
        mph, kilometres per hour
        puncture, flat tyre, nail, slow leak
        valve stem, tyre valve
        tyre pressure, pressure, underinflated
        scalloped, cupped, cupping, stepped, sawtooth
        flat spot, squared off, squared
        balance, weights, balancing
        spins, turns freely, free
        bottom, bottoms out, hits the stops
        topping out, tops out
        pitching, seesaw, rocking
        nervous, twitchy, unstable, wanders
        weave, wobble, tank slapper, headshake
        tramlining, follows grooves
        creak, creaks, groan, cracking noise
        click, clicking steering
        adjusted wrongly, misadjusted, wrongly set, badly set, wrong setting, set wrongly, out of adjustment
        wrongly fitted, fitted wrongly, wrong way round, backwards, upside down
        torque, tightened, not tightened, under-torqued
        overtightened, too tight, over-torqued, stripped
        valve service, workshop visit, service
        workshop, garage, dealer
        premium, super, posh, high octane
        old petrol, stale petrol, stale fuel, old fuel
        ethanol, alcohol
        water in fuel, watery, contaminated fuel
        too rich, runs rich, overfuels
        too lean, too weak, weak, runs lean, lean
    """.strip().splitlines()
)
"""Groups of words; common trade usage, no source."""
