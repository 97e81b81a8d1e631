"""What may lastingly flow into a busbar, and out of it, through each circuit joined to it.

Finds the limits that protection sets at each branch; how much meets on the bar is left to
`busbar_bound`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from coordination.rules import Derived, Value
from fusewright_fundamentals.cranking_path import starter_at
from fusewright_fundamentals.joined import elements_at, is_device
from fusewright_fundamentals.overload_bound import device_limit, feeds, smallest, total


@dataclass(frozen=True, slots=True)
class Branch:
    """One circuit at a bar.

    gives, takes    -- whether a lasting current may come in from it, and go out to it
    inward, outward -- what protection limits that current to [A]; None: nothing does
    """

    circuit: str
    gives: bool
    takes: bool
    inward: Value | None
    outward: Value | None


def branches(busbar: Any, study: Any) -> tuple[Branch, ...]:
    """The closed circuits joined to a busbar, in its order where the file states all of them."""
    found = list(_joined(busbar, study))
    if ordered(busbar, found):
        found.sort(key=lambda branch: busbar.order.index(branch.circuit))
    return tuple(_numbered(branch, n) for n, branch in enumerate(found, 1))


def ordered(busbar: Any, found: Iterable[Branch]) -> bool:
    """Whether the file tells where along the bar each of these branches is joined."""
    return {branch.circuit for branch in found} <= set(busbar.order)


def _numbered(branch: Branch, n: int) -> Branch:
    inward, outward = _named(branch.inward, f"I_{n}"), _named(branch.outward, f"O_{n}")
    return replace(branch, inward=inward, outward=outward)


def _named(value: Value | None, symbol: str) -> Value | None:
    return replace(value, symbol=symbol) if isinstance(value, Derived) else value


def _joined(busbar: Any, study: Any) -> Iterator[Branch]:
    for circuit in study.system.circuits.values():
        if not all(study.closed(element) for element in circuit.elements):
            continue
        if circuit.start == busbar.name:
            yield _branch(circuit, circuit.elements[0], "end", study)
        if circuit.end == busbar.name:
            yield _branch(circuit, circuit.elements[-1], "start", study)


def _branch(circuit: Any, first: Any, away: str, study: Any) -> Branch:
    """A branch seen from the bar: its first element, and which end of that points away from it."""
    name, far = circuit.name, getattr(circuit, away)
    alone = len(list(elements_at(far, study))) == 1 and not _tapped(circuit, study)
    side = study.protectors(first, away)
    own = (first,) if is_device(first) else ()
    devices = (*own, *study.series_devices(first))
    series = [device_limit(device, f"I_s{n}") for n, device in enumerate(devices, 1)]
    leaving = smallest(f"what leaves to {name}", "O", series) if series else None
    coming: list[Value] = list(series)
    if feeds(side) and not side.exposed:
        coming.append(total("what feeds it lets through", "S", side.devices, side.limited))
    return Branch(
        name,
        gives=feeds(side),
        takes=not (alone and (_only_gives(far, study) or (not series and starter_at(far, study)))),
        inward=smallest(f"what comes from {name}", "I", coming) if coming else None,
        outward=leaving,
    )


def _tapped(circuit: Any, study: Any) -> bool:
    """Whether another circuit begins or ends at one of this circuit's junctions."""
    return any(len(list(elements_at(e.end, study))) > 2 for e in circuit.elements[:-1])


def _only_gives(point: str, study: Any) -> bool:
    """A self-limiting source takes nothing lasting: current back into it is a fault."""
    source = study.system.sources.get(point)
    return point.endswith(".output") if source is None else source.part is None
