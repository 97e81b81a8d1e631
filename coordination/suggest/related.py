"""What a finding rests on, near enough to be changed: devices, cables, bars and switches.

Rules of any pack may ask, so this goes by the kind of subject and by the network alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.model import PROTECTIVE

if TYPE_CHECKING:
    from coordination.model import Element, System
    from coordination.study import Study


class Spot(NamedTuple):
    """A thing that may be changed for a finding.

    thing -- an element or a busbar
    guard -- a device may be added before or behind it, in its circuit
    """

    thing: Any
    guard: bool = False


def related(subject: str, study: Study) -> tuple[Spot, ...]:
    """Things that a finding on this subject rests on, the subject first; each once."""
    found: dict[str, Spot] = {}
    for spot in _spots(subject, study):
        found.setdefault(spot.thing.name, spot)
    return tuple(found.values())


def _spots(subject: str, study: Study) -> Iterator[Spot]:
    system = study.system
    element = next((each for each in system.elements() if each.name == subject), None)
    if element is not None:
        yield Spot(element, guard=element.kind in ("cable", "channel"))
        yield from _of_element(element, study)
    elif subject in system.busbars:
        bar = system.busbars[subject]
        around = study.branch_devices(bar)
        yield Spot(bar)
        yield from map(Spot, (*around.upstream, *around.downstream))
    elif subject in system.sources:
        yield from _leads(system)
    else:
        yield from map(Spot, _way_to(subject, system))


def _of_element(element: Element, study: Study) -> Iterator[Spot]:
    if element.kind in (*PROTECTIVE, "channel"):
        yield from (Spot(pair.up) for pair in study.pairs_below(element))
    else:
        for end in ("start", "end"):
            yield from map(Spot, study.protectors(element, end).devices)
    yield from map(Spot, study.series_devices(element))
    circuit = study.system.circuits[element.circuit]
    if element.kind != "cable":
        yield from (Spot(each, guard=True) for each in circuit.elements if each.kind == "cable")


def _leads(system: System) -> Iterator[Spot]:
    """Devices and cables of every circuit at a battery: they share its current with the others."""
    batteries = {source.name for source in system.sources.values() if source.part is not None}
    for circuit in system.circuits.values():
        if batteries & {circuit.start, circuit.end}:
            yield from (
                Spot(each) for each in circuit.elements if each.kind in (*PROTECTIVE, "cable")
            )


def _way_to(equipment: str, system: System) -> Iterator[Element]:
    """Cables of the circuits at a piece of equipment, then of those that feed them, outwards."""
    points, seen = [equipment, f"{equipment}.input"], set()
    while points:
        point = points.pop(0)
        for circuit in system.circuits.values():
            if point not in (circuit.start, circuit.end) or circuit.name in seen:
                continue
            far = circuit.start if point == circuit.end else circuit.end
            # Towards sources only: what ends at other equipment feeds nothing.
            if far in system.equipment or far.endswith(".input"):
                continue
            seen.add(circuit.name)
            yield from (each for each in circuit.elements if each.kind == "cable")
            if far not in system.sources:
                points.append(far.partition("@")[0] if far not in system.busbars else far)
