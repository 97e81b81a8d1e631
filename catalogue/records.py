"""The small records that fields of a part are made of: bounds, ratings, points of a curve."""

from __future__ import annotations

from catalogue.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Band:
    """A lower and an upper bound of one quantity."""

    min: float
    max: float


@dataclass(frozen=True, slots=True)
class InterruptRating:
    """The largest current [A] that a device breaks at up to this DC voltage [V]."""

    voltage: float
    current: float


@dataclass(frozen=True, slots=True)
class CurrentFor:
    """A current [A] that may flow for a time [s]."""

    current: float
    time: float


@dataclass(frozen=True, slots=True)
class BreakingRating:
    """The current [A] a switch breaks at a DC voltage [V]."""

    current: float
    voltage: float


@dataclass(frozen=True, slots=True)
class Discharge:
    """What a battery may deliver: a continuous current [A], and a peak for a time."""

    continuous: float | None = None
    peak: CurrentFor | None = None


@dataclass(frozen=True, slots=True)
class Curve:
    """Time-current boundaries as (current [A], time [s]) points, by rising current.

    fastest      -- never opens sooner than this (min_melt of a fuse, min_trip of a breaker)
    slowest      -- always open by then (max_clear of a fuse, max_trip of a breaker)
    gates        -- the points are a standard's gates, which promise no line between them
    average_melt -- the maker's average melting curve, in place of `fastest`
    tolerance    -- of that curve, as a share of its current [1]
    """

    fastest: tuple[tuple[float, float], ...] = ()
    slowest: tuple[tuple[float, float], ...] = ()
    gates: bool = False
    average_melt: tuple[tuple[float, float], ...] = ()
    tolerance: float | None = None

    @property
    def earliest(self) -> tuple[tuple[float, float], ...]:
        """Never opens before: as stated, or the average at the current less its tolerance."""
        if not self.average_melt:
            return self.fastest
        share = 1 - (self.tolerance or 0.0)
        return tuple((current * share, time) for current, time in self.average_melt)

    @property
    def latest_melting(self) -> tuple[tuple[float, float], ...]:
        """Melted by then, from the average; the arc that follows is not in it."""
        share = 1 + (self.tolerance or 0.0)
        return tuple((current * share, time) for current, time in self.average_melt)
