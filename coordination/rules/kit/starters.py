"""Which conductors crank an engine: those that bring current to its starter, no others.

What merely begins at a starter's terminal, an alternator's lead or a feed to the house, cranks
nothing. What a clause makes of it, is the rules' business.
"""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heappop, heappush
from math import inf
from typing import Any

from coordination.rules.kit.joined import beyond, elements_at, interrupts

_DEVICES = ("fuse", "breaker", "channel")


def starter_at(point: str, study: Any) -> bool:
    """Whether this point is an engine's starter."""
    equipment = study.system.equipment.get(point)
    return equipment is not None and bool(equipment.cranking)


def cranks(circuit: Any, study: Any, *, through_devices: bool = False) -> bool:
    """Whether a circuit ends at a starter and brings a battery's current to it.

    through_devices -- whether the battery may stand behind a device of another circuit
    Of several circuits at a starter the widest counts: whose smallest device on the way from a
    battery is the largest, none at all being wider than any. A fused link beside the starter's
    own cable cranks nothing. A way through other equipment's terminals does not count.
    """
    for starter, far in ((circuit.start, circuit.end), (circuit.end, circuit.start)):
        if not starter_at(starter, study):
            continue
        width = _width(circuit, far, study)
        if width is None or not (through_devices or _met_bare(far, circuit, study)):
            continue
        others = joined_circuits(starter, circuit, study)
        if all(width >= (_width(other, _far(other, starter), study) or 0.0) for other in others):
            return True
    return False


def main_feed(circuit: Any, study: Any, *, through_devices: bool = False) -> bool:
    """Whether a circuit leads from a battery to where a starter's circuit begins.

    Only if whatever else begins there has a device of its own, and no wider way leads there from
    another battery.
    """
    for near, far in ((circuit.start, circuit.end), (circuit.end, circuit.start)):
        if not _battery(near, study) or starter_at(far, study):
            continue
        others = list(joined_circuits(far, circuit, study))
        cranking = [each for each in others if cranks(each, study, through_devices=through_devices)]
        rest = [each for each in others if each not in cranking]
        own = min(map(_rating, circuit.elements), default=inf)
        if (
            cranking
            and all(own >= (_width(each, far, study) or 0.0) for each in cranking)
            and all(any(map(interrupts, each.elements)) for each in rest)
        ):
            return True
    return False


def joined_circuits(point: str, circuit: Any, study: Any) -> Iterator[Any]:
    """The other circuits, closed from end to end, that begin or end at this point."""
    for other in study.system.circuits.values():
        at_point = other is not circuit and point in (other.start, other.end)
        if at_point and all(study.closed(element) for element in other.elements):
            yield other


def _far(circuit: Any, point: str) -> str:
    far: str = circuit.end if circuit.start == point else circuit.start
    return far


def _width(circuit: Any, far: str, study: Any) -> float | None:
    """Rating [A] of the smallest device on the widest way from a battery; None: no battery.

    No device: infinite. A device without a rating: 0.
    """
    own = min(map(_rating, circuit.elements), default=inf)
    widest: dict[str, float] = {}
    heap = [(-own, far)]
    while heap:
        negative, here = heappop(heap)
        if here in widest:
            continue
        widest[here] = -negative
        if _battery(here, study):
            return -negative
        if not _ends(here, far, study):
            for element in elements_at(here, study):
                if element.circuit != circuit.name:
                    heappush(heap, (-min(-negative, _rating(element)), beyond(element, here)))
    return None


def _met_bare(far: str, circuit: Any, study: Any) -> bool:
    """Whether a battery reaches the circuit's far end with no device of others between."""
    seen, waiting = {far}, [far]
    while waiting:
        here = waiting.pop()
        if _battery(here, study):
            return True
        if _ends(here, far, study):
            continue
        for element in elements_at(here, study):
            after = beyond(element, here)
            if after not in seen and element.circuit != circuit.name and not interrupts(element):
                seen.add(after)
                waiting.append(after)
    return False


def _ends(here: str, far: str, study: Any) -> bool:
    """Whether a walk goes no further: at equipment, but for a starter where it begins."""
    return here in study.system.equipment and not (here == far and starter_at(here, study))


def _rating(element: Any) -> float:
    if element.kind not in _DEVICES:
        return inf
    return float(getattr(element.part, "rated_current", None) or 0.0)


def _battery(point: str, study: Any) -> bool:
    """A battery taken out in this condition counts: its cable is the starter's all the same."""
    source = study.system.sources.get(point)
    return source is not None and source.part is not None
