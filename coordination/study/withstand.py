"""The fault currents along a cable, from each end that feeds it, and which devices clear them.

Knows currents, places and shares; how long they last and what the copper bears is for rules.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from math import inf
from typing import TYPE_CHECKING

from catalogue.frozen import dataclass, field
from coordination.curves import Opening
from coordination.model import Element, Source
from coordination.study.openings import RISEN, RISEN_TIME, slower_end
from coordination.study.pairs import arriving, lowest, share_of
from coordination.trace import Derived, Unknown, Value, unknowns

if TYPE_CHECKING:
    from coordination.study.study import Study

#: Halvings to find where along a cable a current belongs.
STEPS = 40


@dataclass(frozen=True, slots=True)
class Clearer:
    """A device that clears what flows in a cable, with its share [1] of that current."""

    device: Element
    share: Value


@dataclass(frozen=True, slots=True)
class Band:
    """A clearer whose figures are all known: its band, share [1], what the rise adds [s]."""

    clearer: Clearer
    opening: Opening
    share: float
    late: float

    def lasts(self, current: float) -> float | None:
        """Latest clearing [s] of a current in the cable [A]."""
        through = current * self.share * (RISEN if self.late else 1.0)
        time = self.opening.latest(through)
        return None if time == inf else time + self.late

    def belongs(self, currents: Iterable[float]) -> Iterator[float]:
        """The currents in the cable [A] for which those, or their rise, flow through the device."""
        for current in currents:
            yield current / self.share
            if self.late:
                yield current / self.share / RISEN


@dataclass(frozen=True, slots=True)
class FaultRange:
    """What may flow in a cable from one of its ends, for faults on it and beyond.

    end      -- "start" or "end": the terminal that the current comes in by
    highest  -- [A], fault at that terminal, max bound
    lowest   -- [A], the weakest fault beyond in the cable's zone, min bound
    clearers -- the first devices towards the batteries on that side; all of them must open
    exposed  -- batteries that reach that end with no device between
    least    -- current [A] from which on it must be cleared: `lowest` where no consumer hangs
                beyond; 0: from where each device must open, for overloads flow as well
    unsure   -- what would have to be known of the weakest fault where no consumer hangs beyond:
                currents near `least` perhaps never flow
    missing  -- what would have to be known of the clearers; empty: `bands` holds them all
    length   -- of the cable, one way [m]
    at       -- current [A] of a fault at a distance [m] from that end, max bound
    """

    cable: Element
    end: str
    highest: Value
    lowest: Value
    clearers: tuple[Clearer, ...]
    exposed: tuple[Source, ...]
    least: float
    unsure: tuple[str, ...]
    missing: tuple[str, ...]
    length: float
    at: Callable[[float], float] = field(repr=False, compare=False)
    bands: tuple[Band, ...] = field(repr=False, compare=False)

    def clearings(self, current: float) -> tuple[tuple[float | None, Clearer], ...]:
        """How long each clearer's share of a current [A] lasts at most [s]; None: no end known.

        A mechanism is given the time in which the current rises to where it stays above `RISEN` of
        its final value.
        """
        return tuple((band.lasts(current), band.clearer) for band in self.bands)

    def corners(self) -> tuple[float, ...]:
        """Currents [A] at which the time that they last jumps or bends."""
        corners = (band.belongs(band.opening.slow_corners()) for band in self.bands)
        return tuple(sorted(self.jumps().union(*corners)))

    def jumps(self) -> frozenset[float]:
        """Those of them at which it jumps, so that both sides must be looked at [A]."""
        jumps = (band.belongs(band.opening.slow_jumps()) for band in self.bands)
        return frozenset().union(*jumps)

    def where(self, current: float) -> float | None:
        """Distance [m] from the end at which a fault draws that current; None: beyond the cable."""
        if current >= self.at(0.0):
            return 0.0
        if current < self.at(self.length):
            return None
        low, high = 0.0, self.length
        for _ in range(STEPS):
            middle = (low + high) / 2
            if self.at(middle) > current:
                low = middle
            else:
                high = middle
        return (low + high) / 2


def fault_ranges(study: Study, element: Element) -> tuple[FaultRange, ...]:
    """One range for each end that is fed through devices, or bare from a battery."""
    return tuple(_ranges(study, element))


def _ranges(study: Study, element: Element) -> Iterator[FaultRange]:
    branch = study._figures.branch_of.get(element.name)
    if branch is None:
        return
    length = element.length or 0.0
    for end, forward in (("start", True), ("end", False)):
        exposed = study.protectors(element, end).exposed
        feeders = [f for f in study._upstream.feeders(branch, forward) if f.nearest]
        if not feeders and not exposed:
            continue
        clearers = tuple(
            Clearer(device, share_of(study, feeder, element, device))
            for feeder in feeders
            for device in (study.network.branches[feeder.branch].element,)
        )
        highest = arriving(study, element, forward)
        lowest_fault = study._faults.through_beyond(element, forward)
        overload = study._upstream.users_beyond(branch, forward)
        least = 0.0
        if not overload and isinstance(lowest_fault, Derived) and isinstance(highest, Derived):
            least = min(lowest_fault.value, highest.value)
        unsure = () if overload else unknowns((lowest_fault,))
        yield FaultRange(
            element, end, highest, lowest_fault, clearers, exposed, least, unsure,
            _missing(study, element, clearers, least), length,
            _along(study, branch, forward, length), _bands(study, element, clearers),
        )  # fmt: skip


def _missing(
    study: Study, element: Element, clearers: tuple[Clearer, ...], least: float
) -> tuple[str, ...]:
    """What would have to be known of the clearers.

    least -- current [A] from which on each must have cleared; 0: from where its curve says so
    """
    found: dict[str, None] = {}
    for clearer in clearers:
        opening, share = study.opening(clearer.device), clearer.share
        found.update(dict.fromkeys(unknowns((share,))))
        if isinstance(opening, Unknown):
            found.update(dict.fromkeys(opening.missing))
            continue
        through = least * share.value if isinstance(share, Derived) else 0.0
        if not opening.slowest.points and not (through and opening.cleared_by(through).time):
            found.update(dict.fromkeys(unknowns((lowest(study, clearer.device),))))
        if not opening.slowest.melts:
            found.update(dict.fromkeys(unknowns((slower_end(study, element),))))
    return tuple(found)


def _bands(study: Study, element: Element, clearers: tuple[Clearer, ...]) -> tuple[Band, ...]:
    found: list[Band] = []
    for clearer in clearers:
        opening = study.opening(clearer.device)
        if isinstance(opening, Opening) and isinstance(clearer.share, Derived):
            late = 0.0
            if not opening.slowest.melts:
                rise = slower_end(study, element)
                late = RISEN_TIME * rise.value if isinstance(rise, Derived) else 0.0
            found.append(Band(clearer, opening, clearer.share.value, late))
    return tuple(found)


def _along(study: Study, branch: int, forward: bool, length: float) -> Callable[[float], float]:
    def at(distance: float) -> float:
        place = min(1.0, distance / length) if length else 0.0
        sides = study._figures.sides(branch, place if forward else 1.0 - place)
        return abs(sides[0 if forward else 1])

    return at
