"""Whose surge may flow through a switch: equipment on one side of it, a source on the other.

Looks at what is connected, not at how much flows: in a loop everything connected counts.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from fusewright_fundamentals.joined import reach


def surging(switch: Any, study: Any) -> Iterator[tuple[Any, bool]]:
    """Equipment that states a surge, draws in this condition and may do so through `switch`.

    With each: whether all of its surge must flow through it (no source on its own side).
    """
    draw = study.condition.draw
    able = [e for e in study.system.equipment.values() if e.surge and draw.get(e.name, 1.0) > 0]
    if not able or not study.closed(switch):
        return
    near = reach(switch.start, study, without=switch, devices=True).keys()
    far = reach(switch.end, study, without=switch, devices=True).keys()
    sources = _sources(study)
    for equipment in able:
        for own, other in ((near, far), (far, near)):
            if equipment.name in own and not sources.isdisjoint(other):
                yield equipment, sources.isdisjoint(own)
                break


def _sources(study: Any) -> set[str]:
    """Points at which anything feeds the network in this condition."""
    names = set(study.system.sources) | {f"{name}.output" for name in study.system.converters}
    return names - set(study.condition.without)
