"""What may lastingly flow into a busbar, and out of it, through each circuit joined to it.

Finds the limits that protection sets at each branch; how much meets on the bar is left to
`busbar_bound`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from coordination.rules import Value, dataclass
from coordination.rules.kit.joined import elements_at, interrupts
from coordination.rules.kit.stated import renamed
from fusewright_fundamentals.behind import behind
from fusewright_fundamentals.overload_bound import device_limit, smallest, total


@dataclass(frozen=True, slots=True)
class Branch:
    """One circuit at a bar, and what stands behind it.

    gives           -- a source: a lasting current may come in
    draws, stores   -- consumers, or batteries alone: current may go out, into a battery only as
                       much as self-limiting sources give (between batteries it soon dies away)
    inward, outward -- what protection limits that current to [A]; None: nothing does
    charge          -- what self-limiting sources behind it give together [A]
    """

    circuit: str
    gives: bool
    draws: bool
    stores: bool
    inward: Value | None
    outward: Value | None
    charge: float = 0.0


def branches(busbar: Any, study: Any) -> tuple[Branch, ...]:
    """The closed circuits joined to a busbar, in its order where the file states all of them."""
    firsts = list(_joined(busbar, study))
    if _in_order(busbar, (first.circuit for first, _ in firsts)):
        firsts.sort(key=lambda each: busbar.order.index(each[0].circuit))
    return tuple(_branch(first, away, study, n) for n, (first, away) in enumerate(firsts, 1))


def ordered(busbar: Any, found: Iterable[Branch]) -> bool:
    """Whether the file tells where along the bar each of these branches is joined."""
    return _in_order(busbar, (branch.circuit for branch in found))


def _in_order(busbar: Any, circuits: Iterable[str]) -> bool:
    return set(circuits) <= set(busbar.order)


def _joined(busbar: Any, study: Any) -> Iterator[tuple[Any, str]]:
    """The element at the bar of each circuit, and which end of it points away."""
    for element in elements_at(busbar.name, study):
        yield element, "end" if element.start == busbar.name else "start"


def _branch(first: Any, away: str, study: Any, n: int) -> Branch:
    side, there = study.protectors(first, away), behind(first, away, study)
    devices = ((first,) if interrupts(first) else ()) + study.series_devices(first)
    series = [device_limit(device, f"I_s{number}") for number, device in enumerate(devices, 1)]
    names = {device.name for device in devices}
    gives = bool(there.batteries or there.limited)
    coming: list[Value] = list(series)
    if gives and not side.exposed and not any(device.name in names for device in side.devices):
        coming.append(total("what feeds it lets through", "S", side.devices, side.limited))
    # A starter without a device draws for seconds; with one, its rating counts like any other.
    draws = bool(there.consumers or (there.starters and series))
    return Branch(
        first.circuit,
        gives=gives,
        draws=draws,
        stores=bool(there.batteries) and not draws,
        inward=_least(f"what comes from {first.circuit}", f"I_{n}", coming),
        outward=_least(f"what leaves to {first.circuit}", f"O_{n}", series),
        charge=there.limited,
    )


def _least(quantity: str, symbol: str, limits: list[Value]) -> Value | None:
    """The smallest of the limits, under the branch's own symbol; None where there is none."""
    return renamed(smallest(quantity, symbol, limits), symbol) if limits else None
