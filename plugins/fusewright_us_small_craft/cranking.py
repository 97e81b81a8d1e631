"""Which cables feed an engine's starter: several clauses leave them out."""

from __future__ import annotations

from typing import Any

from fusewright_us_small_craft.walk import is_device


def is_cranking(cable: Any, study: Any) -> bool:
    """Whether the cable is a starter's, or the main feed from a battery to starters.

    The main feed: from a battery to a point where an unprotected starter circuit begins, while
    whatever else begins there has a device of its own.
    """
    if of_starter(cable, study):
        return True
    circuit = study.system.circuits[cable.circuit]
    return any(
        _battery(near, study) and _feeds_starter(far, circuit, study)
        for near, far in ((circuit.start, circuit.end), (circuit.end, circuit.start))
    )


def of_starter(element: Any, study: Any) -> bool:
    """Whether the element lies in a circuit that ends at a starter."""
    return _starts(study.system.circuits[element.circuit], study)


def _starts(circuit: Any, study: Any) -> bool:
    equipment = study.system.equipment
    ends = (equipment.get(point) for point in (circuit.start, circuit.end))
    return any(each is not None and each.cranking for each in ends)


def _battery(point: str, study: Any) -> bool:
    source = study.system.sources.get(point)
    return source is not None and source.part is not None


def _feeds_starter(point: str, circuit: Any, study: Any) -> bool:
    others = [
        other
        for other in study.system.circuits.values()
        if other is not circuit
        and point in (other.start, other.end)
        and all(study.closed(element) for element in other.elements)
    ]
    starters = [other for other in others if _starts(other, study)]
    rest = [other for other in others if not _starts(other, study)]
    return bool(starters) and all(any(map(is_device, other.elements)) for other in rest)
