"""Whether a battery can be parted from everything else by a switch or a breaker."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    ROUNDING,
    Judgement,
    Source,
    Unknown,
    Value,
    fail,
    note,
    passed,
    unproven,
)
from coordination.rules.kit.joined import load_points, reach


def disconnected(battery: Any, study: Any) -> Judgement:
    """A pass where no load is reached from the battery but over a switch or a breaker.

    A switch that a battery's own electronics drive is none that a hand opens.
    """
    bare = load_points(reach(battery.name, study, lambda each: not _parts(each)), study)
    if bare:
        return fail(f"no disconnect between it and {', '.join(sorted(bare))}")
    by_hand = load_points(reach(battery.name, study, lambda each: not _by_hand(each)), study)
    if by_hand:
        fed = ", ".join(sorted(by_hand))
        return unproven(f"a disconnect that a hand opens between {battery.name} and {fed}")
    return passed("a disconnect before everything it feeds")


def ahead_of_disconnects(battery: Any, study: Any) -> tuple[str, ...]:
    """Points joined to the battery with no disconnect between."""
    return tuple(reach(battery.name, study, lambda each: not _parts(each)))


def above(value: float, threshold: float) -> bool:
    """Whether a voltage or energy is truly above a threshold, rounding aside."""
    return value > threshold * (1 + ROUNDING)


def not_required(nominal: Value, threshold: float, source: Source) -> Judgement | None:
    """The answer below a threshold [V], or where the nominal voltage is not known; else None."""
    if isinstance(nominal, Unknown):
        return unproven(*nominal.missing)
    if above(nominal.value, threshold):
        return None
    words = f"not required: {nominal.value:g} V is not above {threshold:g} V"
    return note(words, source=source)


def _parts(element: Any) -> bool:
    return bool(element.kind in ("disconnect", "breaker"))


def _by_hand(element: Any) -> bool:
    return _parts(element) and element.operated_by is None
