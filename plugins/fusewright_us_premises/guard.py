"""Which overcurrent device protects a cable, and what lasting current it lets through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from coordination.rules import Value
from coordination.rules.kit.several import smallest, total
from coordination.rules.kit.stated import limit_of, rating


@dataclass(frozen=True, slots=True)
class Guard:
    """What limits the lasting current of a cable.

    current -- [A]
    single  -- one device does; else it is a sum over several, or a source's own limit
    """

    current: Value
    single: bool


@dataclass(frozen=True, slots=True)
class Bare:
    """Nothing limits it: names of the batteries that reach the cable with no device."""

    batteries: tuple[str, ...]


def guards(cable: Any, study: Any) -> tuple[Guard, ...] | Bare:
    """The device in the cable's own circuit, or what feeds it at each end; empty: no source.

    Of several in the same circuit the smallest counts; of devices that feed one end together the
    sum. Two ends feed it one at a time: each is to be judged.
    """
    sides = [study.protectors(cable, end) for end in ("start", "end")]
    fed = [side for side in sides if side.devices or side.exposed or side.limited]
    series = study.series_devices(cable) if fed else ()
    if series:
        ratings = [device_rating(device, f"I_{n}") for n, device in enumerate(series, 1)]
        return (_smallest(ratings),)
    bare = tuple(dict.fromkeys(source.name for side in fed for source in side.exposed))
    return Bare(bare) if bare else tuple(_end(side) for side in fed)


def device_rating(device: Any, symbol: str = "I_n") -> Value:
    """Lasting current [A] a device lets through: its rating; of electronics, where they trip."""
    field = "trip_current" if device.kind == "channel" else "rated_current"
    return rating(device.part, field, f"rating of {device.name}", symbol, "A")


def _end(side: Any) -> Guard:
    parts = [device_rating(device, f"I_{n}") for n, device in enumerate(side.devices, 1)]
    for n, source in enumerate(side.limited, len(parts) + 1):
        parts.append(limit_of(source, f"I_{n}", "limit"))
    single = len(parts) == 1 and bool(side.devices)
    return Guard(total(parts, "what feeds it lets through together", "I_s"), single)


def _smallest(ratings: Sequence[Value]) -> Guard:
    return Guard(smallest(ratings, "smallest device in its circuit", "I_n"), True)
