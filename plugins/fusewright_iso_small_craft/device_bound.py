"""The lasting current that devices let through a cable, whatever is plugged in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from coordination.rules import Derived, Unknown, Value, derive
from fusewright_iso_small_craft.stated import device_rating, limit_of


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
        return _of([device_rating(device, f"I_{n}") for n, device in enumerate(series, 1)], min)
    if any(side.exposed for side in fed):
        return None
    return _larger([_end(side) for side in fed])


def _end(side: Any) -> Value:
    parts = [device_rating(device, f"I_{n}") for n, device in enumerate(side.devices, 1)]
    parts += [limit_of(source, f"I_{n}") for n, source in enumerate(side.limited, len(parts) + 1)]
    return _of(parts, sum)


def _of(parts: Sequence[Value], how: Any) -> Value:
    if len(parts) == 1:
        return parts[0]
    names = [f"I_{n}" for n in range(1, len(parts) + 1)]
    formula = " + ".join(names) if how is sum else f"min({', '.join(names)})"
    what = "what feeds it lets through" if how is sum else "smallest device of its circuit"
    return derive(lambda *each: how(each), what, "I_d", "A", formula, *parts)


def _larger(ends: Sequence[Value]) -> Value:
    if len(ends) == 1:
        return ends[0]
    first, second = (
        end if isinstance(end, Unknown) else replace(end, symbol=f"S_{n}")
        for n, end in enumerate(ends, 1)
    )
    return derive(max, "current that its devices let through", "I_d", "A", "max(S_1, S_2)",
                  first, second)  # fmt: skip


def smallest(values: Sequence[Value], what: str) -> Value:
    """The smallest of several currents [A]; unknown where one of them is."""
    if len(values) == 1:
        return values[0]
    known = [
        replace(value, symbol=f"I_{n}") if isinstance(value, Derived) else value
        for n, value in enumerate(values, 1)
    ]
    formula = f"min({', '.join(f'I_{n}' for n in range(1, len(known) + 1))})"
    return derive(lambda *each: min(each), what, "I_min", "A", formula, *known)
