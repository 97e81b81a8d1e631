"""Devices in series: for a fault behind one of them, every other that feeds it, and its share.

Knows the currents of a pair: the range over which they are compared, the share that flows through
the upstream device and what it carries besides. Who opens first is `curves`' business.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from catalogue.frozen import dataclass
from coordination.curves import Opening, PairResult, compare_at, compare_pair
from coordination.model import Element
from coordination.study.combine import KIRCHHOFF, NODAL
from coordination.study.deferred import deferred
from coordination.study.upstream import SLIGHT, Feeder
from coordination.trace import Derived, Source, Unknown, Value, unknowns

if TYPE_CHECKING:
    from coordination.study.study import Study

LOWEST = "lowest current at which it must open"


@dataclass(frozen=True, slots=True)
class Pair:
    """Two devices in series, for faults beyond the downstream one.

    forward    -- the fault lies beyond the end of `down`; False: beyond its start
    low        -- lowest current [A] at which `down` must open, by its curve
    high       -- largest current [A] through `down` for a fault at its terminal
    share      -- current through `up` for each ampere through `down` [1]
    other_load -- current [A] that `up` carries besides, for loads that hang elsewhere
    nearest    -- no other device stands between the two
    alone      -- nothing else is fed between them: it is all one which of them opens
    unsure     -- what would have to be known of the weakest fault, where no overload flows: the
                  range may begin above `low`
    """

    down: Element
    up: Element
    forward: bool
    low: Value
    high: Value
    share: Value
    other_load: Value
    nearest: bool
    alone: bool
    unsure: tuple[str, ...] = ()


def pairs_of(study: Study) -> Iterator[Pair]:
    """Every pair of one condition, by downstream device in the file's order."""
    reach, branches = study._reach, study.network.branches
    for branch, protective in enumerate(reach.protective):
        if not protective:
            continue
        for forward in (True, False):
            feeders = study._upstream.feeders(branch, forward)
            if not feeders:
                continue
            high = arriving(study, branches[branch].element, forward)
            low, unsure = _from(study, branch, forward)
            for feeder in feeders:
                yield _pair(study, branch, forward, feeder, low, high, unsure)


def _from(study: Study, branch: int, forward: bool) -> tuple[Value, tuple[str, ...]]:
    """Where a pair's range begins [A], and what is missing to say that it begins higher.

    Where nothing but sources hang beyond, no overload flows: the weakest fault begins it.
    """
    element = study.network.branches[branch].element
    low = lowest(study, element)
    if isinstance(low, Unknown) or study._upstream.users_beyond(branch, forward):
        return low, ()
    least = study._faults.through_beyond(element, forward)
    if isinstance(least, Unknown):
        return low, least.missing
    return (least if least.value > low.value else low), ()


def _pair(
    study: Study, branch: int, forward: bool, feeder: Feeder, low: Value, high: Value,
    unsure: tuple[str, ...],
) -> Pair:  # fmt: skip
    branches = study.network.branches
    down, up = branches[branch].element, branches[feeder.branch].element
    share = share_of(study, feeder, down, up)
    other = _other_load(study, branch, 1 if forward else -1, feeder)
    alone = study._upstream.nothing_between(branch, forward, feeder.branch)
    return Pair(down, up, forward, low, high, share, other, feeder.nearest, alone, unsure)


def lowest(study: Study, element: Element) -> Value:
    """Lowest current [A] at which a device must open: the first point of its slowest boundary."""
    quantity = f"{LOWEST}, {element.name}"
    opening = study.opening(element)
    if isinstance(opening, Unknown):
        return Unknown(quantity, opening.missing)
    part = element.name if element.part is None else element.part.id
    if not opening.slowest.points:
        what = "maximum trip curve" if element.kind == "breaker" else "maximum clearing curve"
        return Unknown(quantity, (f"{part}: {what}",))
    source = Source("part data", f"{part}: first point of the slowest boundary")
    return Derived(quantity, "I_low", opening.slowest.points[0][0], "A", source=source)


def arriving(study: Study, element: Element, forward: bool) -> Value:
    """Largest current [A] through an element for a fault at its end (`forward`) or its start."""
    return study._once(
        "arriving", element.name, lambda: study._faults.arriving(element, forward), str(forward)
    )


def share_of(study: Study, feeder: Feeder, down: Element, up: Element) -> Value:
    """Share [1] of the current through one device that comes through another upstream of it."""
    quantity = f"share of {up.name} in the fault current through {down.name}"
    missing = study._doubts.sharing(feeder.branch)
    if missing:
        return Unknown(quantity, missing)
    if abs(feeder.share - 1.0) <= SLIGHT:
        return Derived(quantity, "s", 1.0, "", source=KIRCHHOFF)
    return Derived(f"{quantity}, the larger of both bounds", "s", feeder.share, "", source=NODAL)


def _other_load(study: Study, branch: int, sign: int, feeder: Feeder) -> Value:
    """Current [A] through the upstream device besides what flows on through the downstream one."""
    branches = study.network.branches
    down, up = branches[branch].element, branches[feeder.branch].element
    quantity = f"current of {up.name} besides that of {down.name}"
    shape = study._figures.shape
    island = shape.island[shape.start[branch]]
    if not shape.island_batteries[island]:
        return _other_of_limited(study, quantity, island, loop=branch in shape.chain_with)
    missing = unknowns((study.load(up), study.load(down)))
    if missing:
        return Unknown(quantity, missing)
    best, flows = 0.0, (0.0, 0.0)
    for case in study._loads.cases:
        through_up = case.flows[feeder.branch] * feeder.sign
        through_down = case.flows[branch] * sign
        rest = through_up - feeder.share * through_down
        if rest > best:
            best, flows = rest, (through_up, through_down)

    def steps() -> Derived:
        inputs = (
            Derived(f"load of {up.name} in the same case", "I_up", flows[0], "A", source=NODAL),
            Derived(f"load of {down.name} in that case", "I_down", flows[1], "A", source=NODAL),
            Derived("share of the upstream device", "s", feeder.share, "", source=NODAL),
        )
        return Derived(quantity, "I_other", best, "A", "I_up − s × I_down", inputs, KIRCHHOFF)

    return deferred("I_other", best, "A", steps)


def _other_of_limited(study: Study, quantity: str, island: int, *, loop: bool) -> Derived:
    """What limited sources alone give besides [A].

    On one way there is no more than flows through both. Round a loop all of it may come through
    the upstream device, and little of it go on through the downstream one.
    """
    if not loop:
        words = f"{quantity}: limited sources give no more"
        return Derived(words, "I_other", 0.0, "A", source=KIRCHHOFF)
    total = study._loads.supply.get(island, 0.0)
    words = f"{quantity}: all that limited sources give, as it flows round a loop too"
    return Derived(words, "I_other", total, "A", source=KIRCHHOFF)


@dataclass(frozen=True, slots=True)
class Compared:
    """A pair with what its curves say: the result, or what is missing for one."""

    pair: Pair
    result: PairResult | None
    missing: tuple[str, ...]


def compared(study: Study, pair: Pair) -> Compared:
    """The two devices over the whole range of currents that can flow.

    Where the largest fault current is below the lowest at which the downstream device must open,
    they are compared at the fault current alone: nothing then says that it opens first.
    """
    down, up = study.opening(pair.down), study.opening(pair.up)
    missing: tuple[str, ...] = ()
    for item in (down, up):
        missing += item.missing if isinstance(item, Unknown) else ()
    missing += unknowns((pair.low, pair.high, pair.share, pair.other_load))
    if missing:
        return Compared(pair, None, tuple(dict.fromkeys(missing)))
    assert isinstance(down, Opening)
    assert isinstance(up, Opening)
    low, high, share, other = (
        item.value for item in (pair.low, pair.high, pair.share, pair.other_load)
        if isinstance(item, Derived)
    )  # fmt: skip
    if high <= 0:
        return Compared(pair, None, (f"{pair.down.name}: a fault current through it",))
    result = compare_pair(down, up, min(low, high), high, share, other)
    if result.standing == "broken" and pair.unsure:
        broken = compare_at(down, up, high, share, other).standing == "broken"
        # Else perhaps no current flows at which they break.
        return Compared(pair, result, ()) if broken else Compared(pair, None, pair.unsure)
    return Compared(pair, result, ())
