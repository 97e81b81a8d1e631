"""The lasting current that fuses and breakers let through a cable, whatever is plugged in.

Current enters a cable at either side; what feeds that side bounds it. Which bound is allowed, is
the rules' business.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from coordination.rules import Value
from coordination.rules.kit.joined import is_fuse_or_breaker
from coordination.rules.kit.several import largest, smallest, total
from coordination.rules.kit.stated import limit_of, renamed
from coordination.rules.kit.zone import Zone, zone
from fusewright_us_small_craft.stated import rated_current
from fusewright_us_small_craft.walk import spread


@dataclass(frozen=True, slots=True)
class Unbounded:
    """No device bounds the current; `sources` are what feeds it, `limited` if only such do."""

    sources: tuple[str, ...]
    limited: bool


def device_bound(cable: Any, study: Any) -> Value | Unbounded | None:
    """Rating [A] of the device that protects the cable; None: nothing feeds it.

    The smallest device that the same current flows through; without one, all that feeds the cable
    together, the larger of both directions. Self-limiting sources alone count only if nothing
    else does. Where the device must stand, is a matter of placement.
    """
    own = [device for device in study.series_devices(cable) if is_fuse_or_breaker(device)]
    sides = [zone(end, study, without=cable) for end in (cable.start, cable.end)]
    ways = [_crossing(cable, near, far, study) for near, far in (sides, sides[::-1])]
    if own and any(way is not None for way in ways):
        return _smallest(own)
    bare = [way for way in ways if isinstance(way, Unbounded)]
    values = [way for way in ways if way is not None and not isinstance(way, Unbounded)]
    if bare and not (values and all(way.limited for way in bare)):
        return min(bare, key=lambda way: way.limited)
    return _largest("current that its devices let through", values) if values else None


def supply(point: str, without: Any, study: Any, *, singly: bool = False) -> Value | None:
    """What devices and self-limiting sources let into a point's zone [A]; None: nothing does.

    without -- an element left out; singly -- the largest device alone, not all together
    Asked only where no battery stands in the zone itself.
    """
    near = zone(point, study, without=without)
    feeding = [device for device, _ in near.met if _fed(device, near, without, study)]
    limited = near.limited(study)
    if not (feeding or limited):
        return None
    if singly and feeding:
        feeding, limited = [max(feeding, key=_rating_or_infinite)], ()
    return _sum("what feeds it lets through", "S", feeding, limited)


def _rating_or_infinite(device: Any) -> float:
    rated = device.part.rated_current
    return math.inf if rated is None else float(rated)


def _crossing(cable: Any, near: Zone, far: Zone, study: Any) -> Value | Unbounded | None:
    """What devices let cross from the near side; a fault in the cable draws on that side alone.

    Only where a battery stands bare on it, before any device, do the devices beyond count: how
    long such a conductor may be, is a matter of placement.
    """
    batteries, limited = near.batteries(study), near.limited(study)
    feeding = [device for device, _ in near.met if _fed(device, near, cable, study)]
    if batteries:
        if far.loads(study) or far.batteries(study) or not far.met:
            return Unbounded(tuple(each.name for each in batteries), limited=False)
        return _sum("what it feeds lets through", "D", [each for each, _ in far.met], ())
    if limited and not feeding:
        return Unbounded(tuple(each.name for each in limited), limited=True)
    return _sum("what feeds it lets through", "S", feeding, limited) if feeding else None


def _fed(device: Any, near: Zone, cable: Any, study: Any) -> bool:
    """Whether a source stands behind a device, seen from a zone and not through it."""
    ends = [point for point in (device.start, device.end) if point not in near.lengths]
    behind = spread(ends, study, without=[cable] if cable else (), closed=near.lengths)
    return bool(behind.batteries(study) or behind.limited(study))


def _sum(quantity: str, symbol: str, devices: Sequence[Any], limited: Sequence[Any]) -> Value:
    parts = [rated_current(device, f"I_{n}") for n, device in enumerate(devices, 1)]
    parts += [limit_of(source, f"I_{n}") for n, source in enumerate(limited, len(parts) + 1)]
    return total(parts, quantity, symbol)


def _smallest(devices: Sequence[Any]) -> Value:
    if len(devices) == 1:
        return rated_current(devices[0], "I_n")
    ratings = [rated_current(device, f"I_{n}") for n, device in enumerate(devices, 1)]
    return smallest(ratings, "smallest device in series", "I_n")


def _largest(quantity: str, values: Sequence[Value]) -> Value:
    """The largest of one or two currents; unknown where one of them is."""
    if len(values) == 1:
        return values[0]
    named = [renamed(value, f"S_{n}") for n, value in enumerate(values, 1)]
    return largest(named, quantity, "I_d")
