"""What two insulated conductors, touching side by side in still air, may carry: a heat balance.

Heat made in the copper crosses the insulation and leaves by the surface. Bundles and parallel runs
are `bundling`'s; tables of a code are that code's pack.
"""

from __future__ import annotations

from math import log, pi, sqrt

from coordination.errors import OutOfRange
from coordination.physics.conductors import conductor_diameter, resistance_at_temperature
from coordination.physics.guards import (
    require_not_negative,
    require_positive,
    require_temperature,
)

#: Thermal resistivity of common insulations: the higher end, PVC and rubber [K*m/W].
INSULATION_RESISTIVITY = 5.0
#: Surface constants of two cables touching, side by side, in free air (Z, E, g).
TOUCHING_PAIR = (0.29, 2.35, 0.50)


def film_coefficient(outside_diameter: float) -> float:
    """Heat that a cable's surface gives off, per area and rise to the power 1.25.

    Z / D^g + E, with Z = 0.29, E = 2.35, g = 0.50

    outside_diameter -- over the insulation D [m]
    gives            -- heat dissipation coefficient h [W/m**2/K**1.25]
    Raises OutOfRange if the diameter is not positive.
    Holds for two cables touching, side by side, in still air, black surfaces, up to 0.15 m.
    Source: IEC 60287-2-1:2015, Table 2 (from memory, not read here).

    >>> round(film_coefficient(0.01), 2)         # hand calculation: 0.29 / 0.1 + 2.35
    5.25
    """
    require_positive(outside_diameter=outside_diameter)
    z, e, g = TOUCHING_PAIR
    return z / float(outside_diameter**g) + e


def surface_rise(heat: float, outside_diameter: float) -> float:
    """How much warmer than the air a cable's surface is.

    (W / (π D h))^0.8

    heat             -- given off per length W [W/m]
    outside_diameter -- over the insulation D [m]
    gives            -- rise of the surface over the air [K]
    Raises OutOfRange if heat is negative or the diameter not positive.
    Source: IEC 60287-2-1:2015, 4.2.1 (from memory, not read here).

    >>> round(surface_rise(5.25 * 3.14159 * 0.01, 0.01), 3)  # hand: 1 K by definition of h
    1.0
    """
    require_not_negative(heat=heat)
    surface = pi * outside_diameter * film_coefficient(outside_diameter)
    return float((heat / surface) ** 0.8)


def insulation_resistance(conductor: float, outside_diameter: float) -> float:
    """Thermal resistance of the insulation, per length of one cable.

    rho_th / (2 π) ln(D / d), with rho_th = 5 K·m/W

    conductor        -- diameter over the strands d [m]
    outside_diameter -- over the insulation D [m]
    gives            -- thermal resistance [K*m/W]
    Raises OutOfRange if a diameter is not positive or D is below d.
    Source: IEC 60287-2-1:2015, 4.1.2.1; resistivity of Table 1 (from memory, not read here).

    >>> round(insulation_resistance(0.01, 0.0271828), 3)  # hand calculation: 5 / 6.2832
    0.796
    """
    require_positive(conductor=conductor, outside_diameter=outside_diameter)
    if outside_diameter < conductor:
        bound = f"at least the conductor's diameter, {conductor:g} m"
        raise OutOfRange("outside_diameter", outside_diameter, bound)
    return INSULATION_RESISTIVITY / (2.0 * pi) * log(outside_diameter / conductor)


def conductor_rise(heat: float, conductor: float, outside_diameter: float) -> float:
    """How much warmer than the air a conductor is that gives off a given heat.

    W R_th + (W / (π D h))^0.8

    heat             -- made per length W [W/m]
    conductor        -- diameter over the strands d [m]
    outside_diameter -- over the insulation D [m]
    gives            -- rise of the conductor over the air [K]
    Raises OutOfRange if heat is negative or a diameter out of range.
    Source: IEC 60287-1-1:2006, 1.4 (from memory, not read here).

    >>> round(conductor_rise(5.0, 0.005, 0.007), 2)  # hand: 5 × 0.26776 + (5 / 0.12791)^0.8
    20.12
    """
    across = heat * insulation_resistance(conductor, outside_diameter)
    return across + surface_rise(heat, outside_diameter)


def allowed_heat(
    insulation_temperature: float, ambient: float, conductor: float, outside_diameter: float
) -> float:
    """Heat per length that brings a conductor just to its insulation's limit.

    solves T_r - T_a = W R_th + (W / (π D h))^0.8

    insulation_temperature -- highest continuous conductor temperature T_r [degC]
    ambient                -- air temperature T_a [degC]
    conductor              -- diameter over the strands d [m]
    outside_diameter       -- over the insulation D [m]
    gives                  -- heat per length W, 0 where the air is as hot as allowed [W/m]
    Raises OutOfRange if a diameter is out of range.
    Source: IEC 60287-1-1:2006, 1.4 (from memory, not read here); solved by Newton's method.

    >>> round(allowed_heat(50.12, 30.0, 0.005, 0.007), 2)  # the example of conductor_rise, back
    5.0
    """
    require_temperature(insulation_temperature=insulation_temperature, ambient=ambient)
    across = insulation_resistance(conductor, outside_diameter)
    surface = pi * outside_diameter * film_coefficient(outside_diameter)
    rise = insulation_temperature - ambient
    if rise <= 0.0:
        return 0.0
    # Solved for the surface's rise: convex and increasing, so Newton from above cannot miss.
    film, slope = rise, across * surface
    for _ in range(60):
        excess = film + slope * film**1.25 - rise
        film -= excess / (1.0 + 1.25 * slope * film**0.25)
        if abs(excess) <= 1e-12 * rise:
            break
    return float(surface * film**1.25)


def ampacity_from_heat(heat: float, resistance: float) -> float:
    """Current that makes a given heat in a conductor.

    sqrt(W / R)

    heat       -- per length W [W/m]
    resistance -- per length at the conductor's temperature R [ohm/m]
    gives      -- current [A]
    Raises OutOfRange if heat is negative or resistance not positive.
    Source: conservation of energy.

    >>> ampacity_from_heat(10.0, 0.001)          # hand calculation: sqrt(10000)
    100.0
    """
    require_not_negative(heat=heat)
    require_positive(resistance=resistance)
    return sqrt(heat / resistance)


def pair_ampacity(
    area: float,
    resistance_20c: float,
    insulation_temperature: float,
    outside_diameter: float,
    ambient: float,
) -> float:
    """Continuous current of a single-core cable that touches its equal return, in still air.

    sqrt(W / R_T), with W from the heat balance at T_r and R_T = R_20 (234.5 + T_r) / 254.5

    area                   -- nominal cross-section S [m**2]
    resistance_20c         -- largest per length at 20 °C, R_20 [ohm/m]
    insulation_temperature -- highest continuous conductor temperature T_r [degC]
    outside_diameter       -- over the insulation D [m]
    ambient                -- air temperature T_a [degC]
    gives                  -- current, 0 where the air is as hot as allowed [A]
    Raises OutOfRange if a value is out of range.
    Holds for open runs in still air, 1 to 300 mm²: with 1.04 × nominal resistance within -6 ...
    +3 % of IEC 60364-5-52 method F. In conduit or loom the codes allow about a quarter less.
    Source: IEC 60287-1-1:2006 and IEC 60287-2-1:2015 (from memory, not read here).

    >>> round(pair_ampacity(25e-6, 0.000727, 70.0, 0.00878, 30.0))  # method F, PVC: 131 A
    125
    """
    heat = allowed_heat(
        insulation_temperature, ambient, conductor_diameter(area), outside_diameter
    )
    require_positive(resistance_20c=resistance_20c)
    hot = resistance_at_temperature(resistance_20c, insulation_temperature)
    return ampacity_from_heat(heat, hot)
