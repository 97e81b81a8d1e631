"""Which conductors lead to an engine's starter, and what else hangs on them.

A starter's conductors go unprotected by custom: no fuse both carries its stall current and
protects its cable. The exemption ends where something unprotected joins them.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Judgement, note
from coordination.rules.kit.starters import cranks, joined_circuits, main_feed


def cranking_note(cable: Any, study: Any) -> Judgement | None:
    """The exemption of a starter's conductor, naming what else is joined to it; None for others.

    A starter's own circuit counts, as long as it brings a battery's current to the starter; and
    the lead from a battery to the point where such a circuit begins, if whatever else begins
    there has a device of its own.
    """
    circuit = study.system.circuits[cable.circuit]
    if cranks(circuit, study) or main_feed(circuit, study):
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
    sources = study.system.sources
    ends = (circuit.start, circuit.end)
    points = [end for end in ends if end not in sources or sources[end].part is None]
    others = sorted(
        {other.name for end in points for other in joined_circuits(end, circuit, study)}
    )
    also = f"; also joined to it: {', '.join(others)}" if others else ""
    return note(f"cranking conductor, exempt by custom{also}", source=COMMON_PRACTICE)
