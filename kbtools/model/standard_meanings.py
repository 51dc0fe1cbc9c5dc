"""What the standard calls some of its codes, as far as it was remembered.

From memory of SAE J2012, not held against its text: so it stands on the pages too. A code that is not here may be the
standard's all the same; nothing is claimed of it. C0035, C0045 and C0110 were in doubt and were left out; the demo has
codes of the maker in their place.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

FROM: Final = "from memory of SAE J2012, not held against its text"
"""How sure the list is."""

STANDARD_MEANINGS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "P0016": "crankshaft and camshaft position, correlation",
        "P0117": "engine coolant temperature sensor 1, circuit low",
        "P0118": "engine coolant temperature sensor 1, circuit high",
        "P0122": "throttle or pedal position sensor A, circuit low",
        "P0128": "coolant temperature below the thermostat's",
        "P0135": "oxygen sensor heater, bank 1 sensor 1",
        "P0171": "mixture too lean, bank 1",
        "P0172": "mixture too rich, bank 1",
        "P0217": "engine over temperature",
        "P0230": "fuel pump, primary circuit",
        "P0301": "misfire on cylinder 1",
        "P0302": "misfire on cylinder 2",
        "P0335": "crankshaft position sensor A, circuit",
        "P0340": "camshaft position sensor A, circuit",
        "P0351": "ignition coil A, primary or secondary circuit",
        "P0352": "ignition coil B, primary or secondary circuit",
        "P0412": "secondary air injection, switching valve A",
        "P0420": "catalyst efficiency below threshold, bank 1",
        "P0443": "evaporative purge control valve, circuit",
        "P0480": "cooling fan 1, control circuit",
        "P0500": "vehicle speed sensor",
        "P0504": "brake switches A and B, correlation",
        "P0505": "idle control system",
        "P0507": "idle speed higher than expected",
        "P0513": "wrong immobiliser key",
        "P0562": "system voltage low",
        "P0563": "system voltage high",
        "P0571": "brake switch A, circuit",
        "P0615": "starter relay, circuit",
        "P0850": "park or neutral switch, input circuit",
        "P0914": "gear shift position, circuit",
        "P2119": "throttle actuator, range or performance",
        "P2135": "throttle position sensors A and B, correlation",
        "P2138": "throttle or pedal position sensors D and E, correlation",
        "U0100": "lost communication with the engine unit",
        "U0121": "lost communication with the anti-lock unit",
        "U0125": "lost communication with the acceleration sensor unit",
        "U0155": "lost communication with the instrument unit",
    }
)
"""Code without failure type → what the standard calls it, in words of our own."""
