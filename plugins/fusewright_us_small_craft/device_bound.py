"""The lasting current that fuses and breakers let through a cable, whatever is plugged in.

Current crosses a cable from one side to the other: what feeds the one and what leaves the other
both bound it. Which bound is allowed, is the rules' business.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from coordination.rules import Derived, Unknown, Value, derive
from fusewright_us_small_craft.stated import limit_of, rated_current
from fusewright_us_small_craft.walk import Zone, spread, zone


@dataclass(frozen=True, slots=True)
class Unbounded:
    """No device bounds the current; `sources` are what feeds it, `limited` if only such do."""

    sources: tuple[str, ...]
    limited: bool


def device_bound(cable: Any, study: Any) -> Value | Unbounded | None:
    """Largest lasting current [A] that devices let through the cable; None: nothing feeds it.

    max over both directions of min(what feeds one side, what leaves the other)
    """
    sides = [zone(end, study, without=cable) for end in (cable.start, cable.end)]
    crossings = [_crossing(cable, near, far, study) for near, far in (sides, list(reversed(sides)))]
    found = [crossing for crossing in crossings if crossing is not None]
    open_ones = [crossing for crossing in found if isinstance(crossing, Unbounded)]
    if open_ones:
        return open_ones[0]
    values = [crossing for crossing in found if not isinstance(crossing, Unbounded)]
    return _one("current that its devices let through", "I_d", "max", values) if values else None


def supply(point: str, without: Any, study: Any) -> Value | None:
    """What devices and self-limiting sources let into a point's zone [A]; None: nothing does.

    without -- an element left out; asked only where no battery stands in the zone itself.
    """
    near = zone(point, study, without=without)
    feeding = [device for device, _ in near.devices if _fed(device, near, without, study)]
    limited = near.limited(study)
    if not (feeding or limited):
        return None
    return _sum("what feeds it lets through", "S", feeding, limited)


def _crossing(cable: Any, near: Zone, far: Zone, study: Any) -> Value | Unbounded | None:
    batteries, limited = near.batteries(study), near.limited(study)
    feeding = [device for device, _ in near.devices if _fed(device, near, cable, study)]
    if not (batteries or limited or feeding):
        return None
    limits: list[Value] = []
    if not batteries:
        limits.append(_sum("what feeds it lets through", "S", feeding, limited))
    if not (far.loads(study) or far.batteries(study)):
        limits.append(_sum("what it feeds lets through", "D", [d for d, _ in far.devices], ()))
    if not limits or (not batteries and not feeding and len(limits) == 1):
        names = tuple(source.name for source in (*batteries, *limited))
        return Unbounded(names, limited=not batteries)
    return _one("current that crosses it", "I_x", "min", limits)


def _fed(device: Any, near: Zone, cable: Any, study: Any) -> bool:
    """Whether a source stands behind a device, seen from a zone and not through it."""
    ends = [point for point in (device.start, device.end) if point not in near.lengths]
    behind = spread(ends, study, without=cable, closed=near.lengths)
    return bool(behind.batteries(study) or behind.limited(study))


def _sum(quantity: str, symbol: str, devices: Sequence[Any], limited: Sequence[Any]) -> Value:
    parts = [rated_current(device, f"I_{n}") for n, device in enumerate(devices, 1)]
    parts += [limit_of(source, f"I_{n}") for n, source in enumerate(limited, len(parts) + 1)]
    if len(parts) == 1:
        return parts[0]
    formula = " + ".join(f"I_{n}" for n in range(1, len(parts) + 1)) or "0"
    return derive(lambda *each: sum(each), quantity, symbol, "A", formula, *parts)


def _one(quantity: str, symbol: str, pick: str, values: Sequence[Value]) -> Value:
    """The smallest or largest of several currents; unknown where one of them is."""
    if len(values) == 1 or any(isinstance(value, Unknown) for value in values):
        return next((value for value in values if isinstance(value, Unknown)), values[0])
    known = [value for value in values if isinstance(value, Derived)]
    named = [_symbol(value, f"{value.symbol}{n}") for n, value in enumerate(known, 1)]
    formula = f"{pick}({', '.join(value.symbol for value in named)})"
    function = max if pick == "max" else min
    return derive(lambda *each: function(each), quantity, symbol, "A", formula, *named)


def _symbol(value: Derived, symbol: str) -> Derived:
    return replace(value, symbol=symbol)
