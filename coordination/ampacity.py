"""What an ampacity basis is asked, and what it answers; bases themselves come from packs.

A basis is one way of saying how much current a conductor may carry (a heat balance, a table of a
code). Knows nothing of the system or of files, so that a code pack can bring its own.
"""

from __future__ import annotations

from collections.abc import Callable

from catalogue.frozen import dataclass
from coordination.trace import Source, Value


@dataclass(frozen=True, slots=True, kw_only=True)
class Installation:
    """One leg of a cable as installed; every input is a Derived or an Unknown.

    area, insulation_temperature [degC], resistance_20c_max [ohm/m], outside_diameter [m]
    ambient [degC] -- of the place; bundle -- circuits bundled, this one included
    runs -- equal cables in parallel; nominal_voltage [V]; leg -- "positive" or "return"
    """

    leg: str
    area: Value
    insulation_temperature: Value
    resistance_20c_max: Value
    outside_diameter: Value
    ambient: Value
    engine_space: bool
    bundle: int
    runs: int
    sheathed: bool | None
    nominal_voltage: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AmpacityBasis:
    """A named way to find the continuous current of an installed conductor.

    ampacity  -- Installation to current [A] in this installation (ambient, bundle, runs included)
    """

    name: str
    title: str
    source: Source
    ampacity: Callable[[Installation], Value]
