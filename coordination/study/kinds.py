"""What a study's accessors give where a single value is not enough."""

from __future__ import annotations

from collections.abc import Callable

from catalogue.frozen import dataclass, field
from catalogue.parts import Part
from coordination.model import Converter, Element, Source
from coordination.trace import Value


@dataclass(frozen=True, slots=True)
class Protection:
    """What stands between one end of a conductor and the sources that can feed that end.

    devices -- the first devices met, walking away from the conductor, behind which a source stands
    exposed -- batteries that reach this end with no device between
    limited -- self-limiting sources that reach it with no device between
    measure -- gives `stub`, which few ask for
    """

    devices: tuple[Element, ...]
    exposed: tuple[Source, ...]
    limited: tuple[Source | Converter, ...]
    measure: Callable[[], Value] = field(repr=False, compare=False)

    @property
    def stub(self) -> Value:
        """Conductor length [m] from the nearest such source's terminal to the first device."""
        return self.measure()


@dataclass(frozen=True, slots=True)
class BranchDevices:
    """The devices around a busbar: those behind which a source stands, and the others."""

    upstream: tuple[Element, ...]
    downstream: tuple[Element, ...]


@dataclass(frozen=True, slots=True)
class Leg:
    """One conductor of a cable's loop: there ("positive") or back ("return").

    part            -- the cable, or None where the way back is a stated resistance or not stated
    area [m²], length [m, one way], resistance_high [Ω, hot], insulation_temperature [°C]
    runs            -- equal cables in parallel
    """

    name: str
    part: Part | None
    area: Value
    length: Value
    runs: int
    resistance_high: Value
    insulation_temperature: Value
