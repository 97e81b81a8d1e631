"""How much conductor lies between a battery and the first device on its way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Source, Unknown, Value, given
from fusewright_iec_low_voltage.walk import batteries, reach

_DEVICES = ("fuse", "breaker")


def supply_runs(device: Any, study: Any) -> Iterator[Value]:
    """Conductor length [m] from each battery that reaches the device with no other one between.

    The stated distance, or what is drawn if that is longer; Unknown where neither is there.
    """
    for point in (device.start, device.end):
        lengths = reach(point, study, lambda each: each is not device and not _is_device(each))
        for battery in batteries(lengths, study):
            yield _run(device, battery, lengths[battery.name])


def _run(device: Any, battery: Any, drawn: float) -> Value:
    words = f"conductor from {battery.name} to {device.name}"
    stated = device.distance
    if stated is not None and stated >= drawn:
        text = device.written.get("distance", "")
        return given(
            words, "l", stated, "m", Source("system file", f"{device.name}: distance"), text
        )
    if drawn:
        return given(words, "l", drawn, "m", Source("system file", "lengths of the cables"))
    return Unknown(words, (f"{device.name}: distance from {battery.name}",))


def _is_device(element: Any) -> bool:
    return bool(element.kind in _DEVICES)
