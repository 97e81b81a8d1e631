"""What lies between a battery and the first device on its way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from coordination.rules import Value
from coordination.rules.kit.joined import batteries, is_fuse_or_breaker, reach
from coordination.rules.kit.runs import run_between

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
        return element is not device and not is_fuse_or_breaker(element)

    for point in (device.start, device.end):
        lengths = reach(point, study, crosses)
        for battery in batteries(lengths, study):
            back = reach(battery.name, study, crosses)
            length = run_between(battery, device, lengths[battery.name])
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
