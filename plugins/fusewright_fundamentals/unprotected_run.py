"""How much conductor lies between a battery's terminal and the first device on its way.

Lengths only: which length is allowed, is the rule's business.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import Derived, Source, Unknown, Value, derive, given
from coordination.rules.kit.joined import elements_at, interrupts, is_battery
from fusewright_fundamentals.joined import at_battery, reach


def unprotected_run(cable: Any, end: str, study: Any) -> Value | None:
    """Conductor length [m] from the batteries at this end, through the cable, to its devices.

    The longest of the ways from a battery that reaches the end with no device between, to a first
    device beyond the other end. None where a way beyond meets no device at all.
    """
    near, far = (cable.start, cable.end) if end == "start" else (cable.end, cable.start)
    behind = reach(near, study, without=cable)
    ahead = reach(far, study, without=cable)
    if any(_consumes(point, study) for point in ahead):
        return None
    devices = {
        element.name: (element, length)
        for point, length in ahead.items()
        for element in elements_at(point, study)
        if interrupts(element)
    }
    batteries = {point: length for point, length in behind.items() if is_battery(point, study)}
    if not devices or not batteries:
        return None
    battery = max(batteries, key=lambda point: batteries[point])
    runs = [
        _sum(cable, battery, batteries[battery] + length, device)
        for device, length in devices.values()
    ]
    return max(runs, key=lambda run: run.value)


def undrawn_run(device: Any, study: Any) -> Value | None:
    """Conductor length [m] between a battery and a device with no cable drawn between them.

    None where no battery reaches the device without another device or a drawn cable between:
    a drawn cable is judged for itself.
    """
    if at_battery(device.start, study) or at_battery(device.end, study):
        return _distance(device)
    return None


def _consumes(point: str, study: Any) -> bool:
    system = study.system
    return point in system.equipment or point.removesuffix(".input") in system.converters


def _sum(cable: Any, battery: str, rest: float, device: Any) -> Derived:
    own = given("length", "l", cable.length, "m", _file(cable, "length"), _text(cable, "length"))
    further = given(
        f"cables between {battery} and {device.name} before and after it",
        "l_rest",
        rest + (device.distance or 0.0),
        "m",
        Source("system file", f"{device.name}: distance"),
    )
    total = derive(
        lambda one, other: one + other,
        "unprotected conductor",
        "l_u",
        "m",
        "l + l_rest",
        own,
        further,
    )
    assert isinstance(total, Derived)
    return total


def _distance(device: Any) -> Value:
    if device.distance is None:
        return Unknown("unprotected conductor", (f"{device.name}: distance from the battery",))
    source, text = _file(device, "distance"), _text(device, "distance")
    return given("unprotected conductor", "l_u", device.distance, "m", source, text)


def _file(subject: Any, field: str) -> Source:
    return Source("system file", f"{subject.name}: {field}")


def _text(subject: Any, field: str) -> str:
    return str(subject.written.get(field, ""))
