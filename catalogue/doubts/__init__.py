"""What is hard to believe of a part: figures outside what is published of parts of its kind.

A doubt names the number that was to be expected and where that is from. It never keeps a part out:
a maker may be right where a table is not. What no part can be is refused by `checks`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from catalogue.doubts.batteries import battery_doubts
from catalogue.doubts.conductors import bar_doubts, cable_doubts
from catalogue.doubts.curves import curve_doubts
from catalogue.doubts.devices import device_doubts
from catalogue.doubts.doubt import Doubt
from catalogue.doubts.energies import energy_doubts
from catalogue.doubts.interrupting import interrupt_doubts
from catalogue.doubts.words import word_doubts
from catalogue.parts import Part

__all__ = ["Doubt", "doubts_of"]

_OVERCURRENT = (device_doubts, interrupt_doubts, curve_doubts, energy_doubts)
_BY_KIND: dict[str, tuple[Callable[..., Iterator[Doubt]], ...]] = {
    "fuse": _OVERCURRENT,
    "breaker": _OVERCURRENT,
    "channel": (device_doubts, interrupt_doubts),
    "disconnect": (device_doubts,),
    "busbar": (device_doubts, bar_doubts),
    "cable": (cable_doubts,),
    "battery": (battery_doubts,),
}


def doubts_of(part: Part) -> tuple[Doubt, ...]:
    """Everything hard to believe of a part, in the order of its checks; empty as a rule."""
    found = [doubt for check in _BY_KIND[part.kind] for doubt in check(part)]
    found.extend(word_doubts(part))
    return tuple(found)
