"""Which conductors lead to an engine's starter, and what else hangs on them.

A starter's conductors go unprotected by custom: no fuse both carries its stall current and
protects its cable. The exemption ends where something unprotected joins them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import COMMON_PRACTICE, Judgement, note
from fusewright_fundamentals.joined import elements_at, is_device


def cranking_note(cable: Any, study: Any) -> Judgement | None:
    """The exemption of a starter's conductor, naming what else is joined to it; None for others.

    A starter's own circuit counts, as long as it brings a battery's current to the starter; and
    the lead from a battery to the point where an unprotected starter circuit begins, if whatever
    else begins there has a device of its own.
    """
    circuit = study.system.circuits[cable.circuit]
    if _brings_to_starter(circuit, study):
        return _exempt(circuit, study)
    for near, far in ((circuit.start, circuit.end), (circuit.end, circuit.start)):
        if _battery(near, study) and _feeds_starter(far, circuit, study):
            return _exempt(circuit, study)
    return None


def cranking_draw(study: Any) -> float:
    """What all starters together draw in this condition [A]."""
    total, draw = 0.0, study.condition.draw
    for each in study.system.equipment.values():
        if each.cranking:
            total += (each.current or 0.0) * draw.get(each.name, 1.0)
    return total


def _exempt(circuit: Any, study: Any) -> Judgement:
    ends = [circuit.start, circuit.end]
    points = [point for point in ends if not _battery(point, study)]
    others = sorted({other.name for point in points for other in _joined(point, circuit, study)})
    also = f"; also joined to it: {', '.join(others)}" if others else ""
    return note(f"cranking conductor, exempt by custom{also}", source=COMMON_PRACTICE)


def _brings_to_starter(circuit: Any, study: Any) -> bool:
    """Whether one end is a starter and a battery stands at the other with no device between.

    What merely begins at a starter's terminal, an alternator's lead or a feed to the house, does
    not crank the engine.
    """
    ways = ((circuit.start, circuit.end), (circuit.end, circuit.start))
    return any(starter_at(end, study) and _met_bare(far, circuit, study) for end, far in ways)


def _met_bare(point: str, circuit: Any, study: Any) -> bool:
    """Whether a battery reaches the point with no device between, nor by way of a starter."""
    seen, waiting = {point}, [point]
    while waiting:
        here = waiting.pop()
        if _battery(here, study):
            return True
        if starter_at(here, study) and here != point:
            continue
        for element in elements_at(here, study):
            far = element.end if element.start == here else element.start
            if far not in seen and element.circuit != circuit.name and not is_device(element):
                seen.add(far)
                waiting.append(far)
    return False


def _feeds_starter(point: str, circuit: Any, study: Any) -> bool:
    others = list(_joined(point, circuit, study))
    starters = [
        other for other in others if starter_at(other.start, study) or starter_at(other.end, study)
    ]
    rest = [other for other in others if other not in starters]
    return bool(starters) and all(_protected(other) for other in rest)


def _joined(point: str, circuit: Any, study: Any) -> Iterator[Any]:
    for other in study.system.circuits.values():
        closed = all(study.closed(element) for element in other.elements)
        if other is not circuit and closed and point in (other.start, other.end):
            yield other


def _protected(circuit: Any) -> bool:
    return any(is_device(element) for element in circuit.elements)


def starter_at(point: str, study: Any) -> bool:
    """Whether this point is an engine's starter."""
    equipment = study.system.equipment.get(point)
    return equipment is not None and equipment.cranking


def _battery(point: str, study: Any) -> bool:
    source = study.system.sources.get(point)
    return source is not None and source.part is not None
