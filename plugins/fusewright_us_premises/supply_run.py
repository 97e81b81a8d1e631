"""How much conductor lies between a battery and the first device on its way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Value
from coordination.rules.kit.joined import batteries, is_fuse_or_breaker, reach
from coordination.rules.kit.runs import run_between


def supply_runs(device: Any, study: Any) -> Iterator[Value]:
    """Conductor length [m] from each battery that reaches the device with no other one between.

    The stated distance, or what is drawn if that is longer; Unknown where neither is there.
    """
    for point in (device.start, device.end):
        lengths = reach(
            point, study, lambda each: each is not device and not is_fuse_or_breaker(each)
        )
        for battery in batteries(lengths, study):
            yield run_between(battery, device, lengths[battery.name])
