"""Which overcurrent device protects a cable, and what lasting current it lets through."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from coordination.rules import Value, derive
from fusewright_us_premises.stated import rating, written


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
        field = "current_limited" if hasattr(source, "current_limited") else "output_current"
        parts.append(written(source, field, f"limit of {source.name}", f"I_{n}", "A"))
    if len(parts) == 1:
        return Guard(parts[0], bool(side.devices))
    formula = " + ".join(f"I_{n}" for n in range(1, len(parts) + 1))
    quantity = "what feeds it lets through together"
    return Guard(derive(lambda *each: sum(each), quantity, "I_s", "A", formula, *parts), False)


def _smallest(ratings: Sequence[Value]) -> Guard:
    if len(ratings) == 1:
        return Guard(ratings[0], True)
    formula = f"min({', '.join(f'I_{n}' for n in range(1, len(ratings) + 1))})"
    quantity = "smallest device in its circuit"
    return Guard(derive(lambda *each: min(each), quantity, "I_n", "A", formula, *ratings), True)
