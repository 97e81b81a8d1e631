"""What a flat copper bar on edge in still air resists and carries.

For comparing with a stated rating; a bar in an enclosure, flat, or painted is another matter.
"""

from __future__ import annotations

from math import sqrt

from coordination.physics.conductors import resistance_per_length, temperature_factor
from coordination.physics.guards import (
    require_not_negative,
    require_positive,
    require_temperature,
    require_within,
)

#: Air and bar temperature [degC] for which the empirical formula holds.
FORMULA_AIR, FORMULA_BAR = 40.0, 90.0
#: Power of the rise in the current.
RISE_EXPONENT = 0.61
STEFAN_BOLTZMANN = 5.67e-8


def bar_area(width: float, thickness: float) -> float:
    """Section of a flat bar.

    w t

    width     -- w [m]
    thickness -- t [m]
    gives     -- area [m**2]
    Raises OutOfRange if a dimension is not positive.
    Source: definition.

    >>> round(bar_area(0.030, 0.005) * 1e6)      # 30 × 5 mm: 150 mm² in DIN 43671
    150
    """
    require_positive(width=width, thickness=thickness)
    return width * thickness


def bar_resistance(area: float, length: float, temperature: float) -> float:
    """Resistance of a copper bar.

    rho L / S (234.5 + T) / 254.5

    area        -- section S [m**2]
    length      -- L [m]
    temperature -- of the bar T [degC]
    gives       -- resistance [ohm]
    Raises OutOfRange if area is not positive, length negative, or T outside -90 ... 1083 °C.
    Source: NBS Handbook 100 (1966); IEC 60228:2004, Annex B (from memory, not read here).

    >>> round(bar_resistance(150e-6, 1.0, 20.0) * 1e6, 1)  # hand calculation: 17241 / 150 µΩ
    114.9
    """
    require_not_negative(length=length)
    return resistance_per_length(area) * length * temperature_factor(temperature)


def empirical_current(width: float, thickness: float) -> float:
    """Direct current that warms a bar by 50 K in air of 40 °C.

    7.73 S^0.5 p^0.39, S in mm² and the perimeter p in mm

    width     -- w [m]
    thickness -- t [m]
    gives     -- current [A]
    Raises OutOfRange if a dimension is not positive.
    Holds for one bare flat bar on edge in still, unconfined air.
    Source: CDA Publication 22, section 10, formula 4.

    >>> round(empirical_current(0.100, 0.0063), -1)  # 100 × 6.3 mm: 1570 A
    1570.0
    """
    area = bar_area(width, thickness) * 1e6
    perimeter = 2.0 * (width + thickness) * 1e3
    return 7.73 * sqrt(area) * float(perimeter**0.39)


def bar_current(width: float, thickness: float, ambient: float, bar_temperature: float) -> float:
    """Direct current that warms a bar from one temperature to another.

    I_50 ((T - T_a) / 50)^0.61 sqrt((234.5 + 90) / (234.5 + T))

    width           -- w [m]
    thickness       -- t [m]
    ambient         -- air temperature T_a [degC]
    bar_temperature -- highest bar temperature T [degC]
    gives           -- current, 0 where the air is as hot as allowed [A]
    Raises OutOfRange if a dimension is not positive or T outside -90 ... 1083 °C.
    Holds for rises of 20 to 80 K; within -4 ... +3 % of DIN 43671, bare bars, 35 to 65 °C.
    Source: CDA Publication 22, section 10, formula 4; rise exponent from memory, not read here.

    >>> round(bar_current(0.030, 0.005, 35.0, 65.0))  # 30 × 5 mm bare: 379 A in DIN 43671
    378
    """
    require_temperature(ambient=ambient)
    at_fifty = empirical_current(width, thickness)
    colder = temperature_factor(FORMULA_BAR) / temperature_factor(bar_temperature)
    if ambient >= bar_temperature:
        return 0.0
    share = (bar_temperature - ambient) / (FORMULA_BAR - FORMULA_AIR)
    return at_fifty * float(share**RISE_EXPONENT) * sqrt(colder)


def bar_heat(
    width: float, thickness: float, ambient: float, bar_temperature: float, emissivity: float
) -> float:
    """Heat that a bar on edge gives off per length, by convection and radiation.

    2 w 7.66 dT^1.25 / w^0.25 + t 5.92 dT^1.25 / t^0.25 + p e σ (T⁴ - T_a⁴), w and t in mm below
    the fourth root, T in K; the underside is left out

    width           -- w, upright [m]
    thickness       -- t [m]
    ambient         -- air temperature T_a [degC]
    bar_temperature -- T [degC]
    emissivity      -- of the surface e: 0.1 bright, 0.4 dull, 0.9 painted [1]
    gives           -- heat per length [W/m]
    Raises OutOfRange if a dimension is not positive, emissivity outside 0 ... 1, or T below T_a.
    Source: CDA Publication 22 (2014) (from memory, not read here).

    >>> round(bar_heat(0.0508, 0.00635, 40.0, 90.0, 0.4), 1)  # hand: 38.8 + 3.1 + 20.2
    62.1
    """
    require_positive(width=width, thickness=thickness)
    require_temperature(ambient=ambient)
    require_within(0.0, 1.0, emissivity=emissivity)
    require_within(ambient, 1083.0, bar_temperature=bar_temperature)
    rise = float((bar_temperature - ambient) ** 1.25)
    sides = 2.0 * width * 7.66 * rise / float((width * 1e3) ** 0.25)
    top = thickness * 5.92 * rise / float((thickness * 1e3) ** 0.25)
    radiant = (bar_temperature + 273.15) ** 4 - (ambient + 273.15) ** 4
    return sides + top + 2.0 * (width + thickness) * emissivity * STEFAN_BOLTZMANN * radiant


def bar_force(current: float, distance: float) -> float:
    """Force per length between two long parallel bars that carry a current there and back.

    2e-7 I² / d

    current  -- in each of them I [A]
    distance -- between their centres d [m]
    gives    -- force per length [N/m]
    Raises OutOfRange if current is negative or distance not positive.
    Holds for bars further apart than about twice their height; closer ones feel less.
    Source: IEC 60865-1:2011, 5.2 (from memory, not read here).

    >>> round(bar_force(10e3, 0.1))              # hand calculation: 2e-7 × 1e8 / 0.1
    200
    """
    require_not_negative(current=current)
    require_positive(distance=distance)
    return 2e-7 * current**2 / distance
