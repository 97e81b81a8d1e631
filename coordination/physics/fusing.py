"""Currents at which bare copper wire melts: for orders of magnitude, never for a rating."""

from __future__ import annotations

from math import log10, sqrt

from coordination.physics.adiabatic import CIRCULAR_MIL, MELTING_POINT
from coordination.physics.guards import require_positive, require_within


def preece_current(diameter: float) -> float:
    """Steady current that melts a copper wire in free air.

    10244 d^1.5, d in inches

    diameter -- of the wire d [m]
    gives    -- current [A]
    Raises OutOfRange if the diameter is not positive.
    Holds for long horizontal wires in still air, about 0.05 to 2 mm.
    Source: Preece's law as tabled on an engineering data page.

    >>> round(preece_current(0.0524 * 0.0254))   # 0.0524 in: 123 A
    123
    """
    require_positive(diameter=diameter)
    return 10244.0 * float((diameter / 0.0254) ** 1.5)


def onderdonk_current(area: float, time: float, ambient: float) -> float:
    """Current that melts a copper wire in a short time.

    A sqrt(log10(1 + (1083 - T_a) / (234 + T_a)) / (33 t)), A in circular mils

    area    -- cross-section A [m**2]
    time    -- until it melts t [s]
    ambient -- temperature at the start T_a [degC]
    gives   -- current [A]
    Raises OutOfRange if area or time is not positive or ambient outside -90 ... 1083 °C.
    Holds below about 10 s.
    Source: Onderdonk's equation; computed constant 288.7 A·s^0.5/mm² from 25 °C.

    >>> round(onderdonk_current(1e-6, 1.0, 25.0), 1)  # from 25 °C: k = 288.7 A·s^0.5/mm²
    288.7
    """
    require_positive(area=area, time=time)
    require_within(-90.0, MELTING_POINT, ambient=ambient)
    decades = log10(1.0 + (MELTING_POINT - ambient) / (234.0 + ambient))
    return area / CIRCULAR_MIL * sqrt(decades / (33.0 * time))
