"""The lasting current that devices let through a cable, whatever is plugged in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from coordination.rules import Value
from coordination.rules.kit.several import largest, smallest, total
from coordination.rules.kit.stated import limit_of, renamed
from fusewright_iso_small_craft.stated import device_rating


def device_bound(cable: Any, study: Any) -> Value | None:
    """Largest lasting current [A] that devices let into a cable; None: no device is there.

    The smallest device of its own circuit; else, of what feeds one end, the sum, and of two ends
    the larger. A cable that a battery reaches with no device between is a matter of placement.
    """
    sides = [study.protectors(cable, end) for end in ("start", "end")]
    fed = [side for side in sides if side.devices or side.exposed or side.limited]
    if not fed:
        return None
    series = [device for device in study.series_devices(cable) if device.kind != "channel"]
    if series:
        ratings = [device_rating(device, f"I_{n}") for n, device in enumerate(series, 1)]
        return smallest(ratings, "smallest device of its circuit", "I_d")
    if any(side.exposed for side in fed):
        return None
    return _larger([_end(side) for side in fed])


def _end(side: Any) -> Value:
    parts = [device_rating(device, f"I_{n}") for n, device in enumerate(side.devices, 1)]
    parts += [limit_of(source, f"I_{n}") for n, source in enumerate(side.limited, len(parts) + 1)]
    return total(parts, "what feeds it lets through", "I_d")


def _larger(ends: Sequence[Value]) -> Value:
    if len(ends) == 1:
        return ends[0]
    named = [renamed(end, f"S_{n}") for n, end in enumerate(ends, 1)]
    return largest(named, "current that its devices let through", "I_d")


def least(values: Sequence[Value], what: str) -> Value:
    """The smallest of several currents [A]; unknown where one of them is."""
    if len(values) == 1:
        return values[0]
    named = [renamed(value, f"I_{n}") for n, value in enumerate(values, 1)]
    return smallest(named, what, "I_min")
