"""How much conductor leaves a battery before its first device, way by way.

Lengths only: which length is allowed, is the rules' business.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from coordination.rules import DEFINITION, Source, Unknown, Value, derive, given
from fusewright_us_small_craft.cranking import of_starter
from fusewright_us_small_craft.walk import Zone, zone


@dataclass(frozen=True, slots=True)
class Run:
    """One unprotected conductor [m] from a battery, the device at its end, and its sheath.

    device   -- None where the conductor itself is meant, whatever stands beyond it
    sheathed -- the whole way; None where something on it does not say
    unsaid   -- what does not say
    """

    length: Value
    device: Any
    sheathed: bool | None
    unsaid: tuple[str, ...] = ()


def around(battery: Any, study: Any) -> Zone:
    """What lies around a battery up to the first devices, circuits of starters left out."""
    return zone(battery.name, study, skip=lambda element: of_starter(element, study))


def runs(inside: Zone) -> Iterator[Run]:
    """The run to each device, and each conductor on the way by its own far end."""
    for cable, length in inside.cables:
        drawn = given(f"conductor up to the far end of {cable.name}", "l", length, "m", _FILE)
        yield Run(drawn, None, *_sheath(inside.cables))
    for device, length in inside.devices:
        cover = _sheath(inside.cables) if length else _own(device)
        yield Run(run_to(device, length), device, *cover)


def run_to(device: Any, drawn: float) -> Value:
    """Conductor length [m] to a device: what is drawn, or the stated distance if longer."""
    quantity = f"conductor up to {device.name}"
    if device.distance is None:
        if not drawn:
            return Unknown(quantity, (f"{device.name}: distance from the source",))
        return given(quantity, "l", drawn, "m", _FILE)
    source = Source("system file", f"{device.name}: distance")
    own = given("distance stated", "l_s", device.distance, "m", source,
                device.written.get("distance", ""))  # fmt: skip
    if drawn <= device.distance:
        return own
    cables = given("cables drawn", "l_d", drawn, "m", _FILE)
    return derive(max, quantity, "l", "m", "max(l_s, l_d)", own, cables, source=DEFINITION)


_FILE = Source("system file", "lengths along the conductors")


def _sheath(cables: Any) -> tuple[bool | None, tuple[str, ...]]:
    """Of all conductors around: a bare one makes the way bare, a silent one leaves it open."""
    if any(cable.sheathed is False for cable, _ in cables):
        return False, ()
    silent = tuple(f"{cable.name}: sheathed" for cable, _ in cables if cable.sheathed is None)
    return (None, silent) if silent else (True, ())


def _own(device: Any) -> tuple[bool | None, tuple[str, ...]]:
    if device.sheathed is None:
        return None, (f"{device.name}: sheathed",)
    return device.sheathed, ()
