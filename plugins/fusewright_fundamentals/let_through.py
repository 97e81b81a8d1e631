"""The most heat that a fault gives off before its devices have cleared it, over all its currents.

I²t is straight in log-log between the corners of a clearing curve, so its largest value stands at
a corner, just beside a jump, or at an end of the range. What several devices let through adds up
as (√J₁ + √J₂ + …)² at most, each with its own share until it has cleared (Minkowski's inequality).
What bears it is the rules' business.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import sqrt
from typing import Any, NamedTuple

from coordination.rules import (
    COMMON_PRACTICE,
    Derived,
    Source,
    Unknown,
    Value,
    dataclass,
    derive,
    given,
)
from coordination.rules.kit.stated import renamed

#: How far beside a jump its other side is looked at (relative).
BESIDE = 1e-9
_CURVE = Source("part data", "latest clearing at that current")
_MINKOWSKI = Source("definition", "the I²t of a sum of currents is at most this (Minkowski)")


class Part(NamedTuple):
    """What one device lets through: a current [A] until [s] it has cleared."""

    current: float
    time: float
    device: Any


@dataclass(frozen=True, slots=True)
class Heat:
    """A fault current [A] and what each device that clears it lets through."""

    current: float
    parts: tuple[Part, ...]

    @property
    def energy(self) -> float:
        """I²t [A²s], at most."""
        return sum(part.current * sqrt(part.time) for part in self.parts) ** 2

    @property
    def time(self) -> float:
        """When the last device has cleared [s]."""
        return max(part.time for part in self.parts)


@dataclass(frozen=True, slots=True)
class Clearing:
    """How long faults at one place last.

    names   -- the devices that clear them
    missing -- what would have to be known of them
    corners -- currents [A] at which a time jumps or bends
    parts   -- what each device makes of a current [A]; None: no end known
    """

    names: str
    missing: tuple[str, ...]
    corners: tuple[float, ...]
    parts: Callable[[float], tuple[Part, ...] | None]


def of_side(side: Any) -> Clearing:
    """What the devices ahead of one end of an element make of a fault behind it."""

    def parts(current: float) -> tuple[Part, ...] | None:
        found = [
            None if time is None else Part(current * clearer.share.value, time, clearer.device)
            for time, clearer in side.clearings(current)
        ]
        known = tuple(part for part in found if part is not None)
        return known if known and len(known) == len(found) else None

    names = ", ".join(each.device.name for each in side.clearers)
    return Clearing(names, side.missing, side.corners(), parts)


def of_device(device: Any, study: Any) -> Clearing:
    """What one device, through which all of the current flows, makes of a fault."""
    opening = study.opening(device)
    if isinstance(opening, Unknown):
        return Clearing(device.name, opening.missing, (), lambda _: None)
    constant = study.time_constant(device.end)

    def parts(current: float) -> tuple[Part, ...] | None:
        value = given("fault current", "I", current, "A", COMMON_PRACTICE)
        energy = study.clearing(device, value, constant).let_through
        if isinstance(energy, Unknown):
            return None
        return (Part(current, energy.value / current**2, device),)

    corners = (*opening.slow_corners(), *opening.slow_jumps())
    return Clearing(device.name, (), corners, parts)


def unknowns(values: Iterable[Value]) -> tuple[str, ...]:
    """Everything missing among several values."""
    missing = (phrase for each in values if isinstance(each, Unknown) for phrase in each.missing)
    return tuple(dict.fromkeys(missing))


def heats(
    low: float, high: float, corners: Iterable[float], clearing: Clearing
) -> Iterator[Heat | float]:
    """What a fault gives off at every current that may be the worst, low to high [A].

    gives -- a bare current [A] where nothing says that it ends
    """
    inside = (
        each
        for corner in corners
        for each in (corner * (1 - BESIDE), corner, corner * (1 + BESIDE))
        if low <= each <= high
    )
    for current in sorted({low, high, *inside}):
        parts = clearing.parts(current)
        yield current if parts is None else Heat(current, parts)


def steps(heat: Heat, subject: Any, highest: Value) -> Value:
    """The I²t [A²s] of one fault as a derivation."""
    current = _fault_current(heat, subject, highest)
    if len(heat.parts) == 1:
        return _one(heat.parts[0], current, "J")
    return together([_one(part, current, "J") for part in heat.parts])


def together(energies: Sequence[Value]) -> Value:
    """What several devices let through [A²s], at most, whenever each of them clears."""
    if len(energies) == 1:
        return energies[0]
    named = [renamed(each, f"J_{number}") for number, each in enumerate(energies, 1)]
    roots = " + ".join(f"√J_{number}" for number in range(1, len(named) + 1))
    return derive(
        lambda *each: sum(map(sqrt, each)) ** 2, "let through by all of them together", "J", "A²s",
        f"({roots})²", *named, source=_MINKOWSKI,
    )  # fmt: skip


def _fault_current(heat: Heat, subject: Any, highest: Value) -> Derived:
    if not isinstance(highest, Unknown) and heat.current == highest.value:
        return Derived(
            f"largest fault current through {subject.name}", "I", highest.value, "A",
            highest.formula, highest.inputs, highest.source,
        )  # fmt: skip
    words = f"fault current through {subject.name} that heats it most"
    return given(words, "I", heat.current, "A", COMMON_PRACTICE)


def _one(part: Part, total: Derived, symbol: str) -> Value:
    name, current = part.device.name, total
    if part.current != total.value:
        share = given(f"share of {name}", "s", part.current / total.value, "", COMMON_PRACTICE)
        current = Derived(
            f"of it through {name}", "I", part.current, "A", "s × I", (share, total)
        )  # fmt: skip
    time = Derived(f"latest clearing of {name}", "t", part.time, "s", "t(I)", (current,), _CURVE)
    return derive(
        lambda amperes, seconds: amperes * amperes * seconds, f"let through by {name}", symbol,
        "A²s", "I² × t", current, time,
    )  # fmt: skip
