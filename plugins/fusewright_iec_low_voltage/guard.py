"""Which overcurrent devices protect a cable, and what lasting current they let through."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from coordination.rules import Unknown, Value, derive
from coordination.rules.kit.several import total
from coordination.rules.kit.stated import limit_of, rating


@dataclass(frozen=True, slots=True)
class Guard:
    """What limits the lasting current of a cable: devices and self-limiting sources, added up."""

    devices: tuple[Any, ...]
    limited: tuple[Any, ...] = ()


@dataclass(frozen=True, slots=True)
class Bare:
    """Nothing limits it: names of the batteries that reach the cable with no device."""

    batteries: tuple[str, ...]


def guards(cable: Any, study: Any) -> tuple[Guard, ...] | Bare:
    """The smallest device in the cable's own circuit, or what feeds it at each end; empty: none.

    Two ends feed it one at a time: each is to be judged. An unknown rating counts as the worst.
    """
    fed = [side for side in sides(cable, study) if side.devices or side.exposed or side.limited]
    series = study.series_devices(cable) if fed else ()
    if series:
        unknown = [device for device in series if _number(device_rating(device)) is None]
        weakest = unknown or sorted(series, key=lambda each: _number(device_rating(each)) or 0.0)
        return (Guard((weakest[0],)),)
    bare = tuple(dict.fromkeys(source.name for side in fed for source in side.exposed))
    return Bare(bare) if bare else tuple(Guard(side.devices, side.limited) for side in fed)


def sides(cable: Any, study: Any) -> tuple[Any, Any]:
    """What stands between each end of a cable and the sources that feed that end."""
    return study.protectors(cable, "start"), study.protectors(cable, "end")


def rated(found: Guard) -> Value:
    """Rated current I_n [A], added up where several feed the cable together."""
    return together(found, device_rating, "rated current of its protection", "I_n")


def together(found: Guard, of_device: Callable[[Any], Value], quantity: str, symbol: str) -> Value:
    """A current [A] of each device and the limit of each self-limiting source, added up."""
    parts = [of_device(device) for device in found.devices]
    parts += [limit_of(source, "I_lim", "limit") for source in found.limited]
    if len(parts) == 1:
        return parts[0]
    return _sum(parts, quantity, symbol)


def device_rating(device: Any) -> Value:
    """Rated current [A] of a device; of electronics, where they trip."""
    field = "trip_current" if device.kind == "channel" else "rated_current"
    return rating(device.part, field, f"rated current of {device.name}", "I_n", "A")


def _sum(parts: Sequence[Value], quantity: str, symbol: str) -> Value:
    named = [
        derive(lambda i: i, f"part {n} of it", f"I_{n}", "A", getattr(part, "symbol", ""), part)
        for n, part in enumerate(parts, 1)
    ]
    return total(named, quantity, symbol)


def _number(value: Value) -> float | None:
    return None if isinstance(value, Unknown) else value.value
