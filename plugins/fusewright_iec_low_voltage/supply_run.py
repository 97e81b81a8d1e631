"""What lies between a battery and the first device on its way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from coordination.rules import Source, Unknown, Value, given
from fusewright_iec_low_voltage.walk import batteries, reach

_DEVICES = ("fuse", "breaker")
#: Two ways shorter than this apart [m] are equally long.
SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Run:
    """Conductor ahead of a device: its length [m], and the cables drawn on the shortest way."""

    length: Value
    cables: tuple[Any, ...]


def supply_runs(device: Any, study: Any) -> Iterator[Run]:
    """The run from each battery that reaches the device with no other one between."""

    def crosses(element: Any) -> bool:
        return element is not device and element.kind not in _DEVICES

    for point in (device.start, device.end):
        lengths = reach(point, study, crosses)
        for battery in batteries(lengths, study):
            back = reach(battery.name, study, crosses)
            length = _length(device, battery, lengths[battery.name])
            yield Run(length, _on_the_way(lengths, back, lengths[battery.name], study))


def _on_the_way(
    there: Mapping[str, float], back: Mapping[str, float], total: float, study: Any
) -> tuple[Any, ...]:
    """Cables on a shortest way, by the lengths from either end of it."""

    def shortest(cable: Any) -> bool:
        ways = ((cable.start, cable.end), (cable.end, cable.start))
        return any(
            near in there
            and far in back
            and there[near] + (cable.length or 0.0) + back[far] <= total + SAME
            for near, far in ways
        )

    return tuple(
        element
        for element in study.system.elements()
        if element.kind == "cable" and study.closed(element) and shortest(element)
    )


def _length(device: Any, battery: Any, drawn: float) -> Value:
    """The stated distance, or what is drawn if that is longer; Unknown where neither is there."""
    words = f"conductor from {battery.name} to {device.name}"
    stated = device.distance
    if stated is not None and stated >= drawn:
        source = Source("system file", f"{device.name}: distance")
        return given(words, "l", stated, "m", source, device.written.get("distance", ""))
    if drawn:
        return given(words, "l", drawn, "m", Source("system file", "lengths of the cables"))
    return Unknown(words, (f"{device.name}: distance from {battery.name}",))
