"""The largest lasting current that protection lets through, whatever is plugged in.

Physics of series and parallel paths only; whether a cable or bar bears it is the rules' business.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from coordination.rules import Unknown, Value, dataclass, derive
from coordination.rules.kit.kept import once
from coordination.rules.kit.stated import rating, written

#: Devices and sources that are named in the words for what they let through together.
MOST_NAMED = 4


@dataclass(frozen=True, slots=True)
class Bare:
    """Nothing limits the current: names of the batteries that reach the cable with no device."""

    batteries: tuple[str, ...]


def overload_bound(
    cable: Any, study: Any, limit_of: Callable[[Any, str], Value] | None = None
) -> Value | Bare | None:
    """Smallest lasting current [A] that its protection bounds the cable to.

    limit_of -- current [A] that one device lets through, under a symbol; default: its rating

    min(devices in series, the larger of what either end can deliver)

    Current enters a cable at one end at a time, so the larger end counts, never the smaller; an
    end delivers what all its devices and bare self-limiting sources together let through.
    None where no source reaches the cable. Source: definition (current law at the cable's ends).
    """
    if limit_of is not None:
        return _bound(cable, study, limit_of)
    known = once(_by_rating, study)
    if cable.name not in known:
        known[cable.name] = _bound(cable, study, device_limit)
    return known[cable.name]


def _by_rating(_: Any) -> dict[str, Value | Bare | None]:
    """The bounds of one study's cables by their devices' ratings, as they are found."""
    return {}


def _bound(
    cable: Any, study: Any, limit_of: Callable[[Any, str], Value]
) -> Value | Bare | None:
    sides = [study.protectors(cable, end) for end in ("start", "end")]
    fed = [side for side in sides if feeds(side)]
    if not fed:
        return None
    series = study.series_devices(cable)
    bare = tuple(dict.fromkeys(source.name for side in fed for source in side.exposed))
    if bare and not series:
        return Bare(bare)
    limits = [limit_of(device, f"I_s{n}") for n, device in enumerate(series, 1)]
    names = {device.name for device in series}
    if not bare and not any(device.name in names for side in fed for device in side.devices):
        limits.append(_larger_end(fed, limit_of))
    return smallest("bound of the overload current", "I_b", limits)


def feeds(side: Any) -> bool:
    """Whether any source stands on this side."""
    return bool(side.devices or side.exposed or side.limited)


def device_limit(device: Any, symbol: str) -> Value:
    """Lasting current [A] a device lets through: its rating; of electronics, where they trip."""
    field = "trip_current" if device.kind == "channel" else "rated_current"
    words = field.replace("_", " ")
    return rating(device.part, field, f"{words} of {device.name}", symbol, "A")


def source_limit(source: Any, symbol: str) -> Value:
    """Largest current [A] a self-limiting source gives of itself."""
    field = "current_limited" if hasattr(source, "current_limited") else "output_current"
    return written(source, field, f"limit of {source.name}", symbol, "A")


def total(
    quantity: str,
    symbol: str,
    devices: Iterable[Any],
    limited: Iterable[Any] = (),
    limit_of: Callable[[Any, str], Value] = device_limit,
) -> Value:
    """What several devices and bare self-limiting sources let through together [A]."""
    parts = [limit_of(device, f"I_{n}") for n, device in enumerate(devices, 1)]
    parts += [source_limit(source, f"I_{n}") for n, source in enumerate(limited, len(parts) + 1)]
    formula = " + ".join(f"I_{n}" for n in range(1, len(parts) + 1))
    return derive(lambda *each: sum(each), quantity, symbol, "A", formula, *parts)


def smallest(quantity: str, symbol: str, values: Sequence[Value]) -> Value:
    """The smallest of several currents [A]; unknown where one of them is."""
    if len(values) == 1:
        return values[0]
    formula = f"min({_symbols(values)})"
    return derive(lambda *each: min(each), quantity, symbol, "A", formula, *values)


def _larger_end(sides: Sequence[Any], limit_of: Callable[[Any, str], Value]) -> Value:
    ends = [
        total(f"what feeds end {n} lets through", f"S_{n}", side.devices, side.limited, limit_of)
        for n, side in enumerate(sides, 1)
    ]
    if len(ends) == 1:
        return ends[0]
    formula = f"max({_symbols(ends)})"
    quantity = "current from the stronger end"
    return derive(lambda *each: max(each), quantity, "S", "A", formula, *ends)


def _together(side: Any) -> str:
    """What feeds one end, by name as long as that can be read."""
    names = [each.name for each in (*side.devices, *side.limited)]
    if len(names) == 1:
        return f"what {names[0]} lets through"
    if len(names) > MOST_NAMED:
        names = [*names[: MOST_NAMED - 1], f"{len(names) - MOST_NAMED + 1} more"]
    return f"what {', '.join(names[:-1])} and {names[-1]} let through together"


def _symbols(values: Iterable[Value]) -> str:
    return ", ".join(value.symbol for value in values if not isinstance(value, Unknown))
