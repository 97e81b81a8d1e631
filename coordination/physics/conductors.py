"""Copper conductors: gauge numbers, dimensions, and resistance over length and temperature.

Leaves what they may carry to `ampacity`, and what a fault does to them to `adiabatic`.
"""

from __future__ import annotations

import re
from math import pi, pow, sqrt

from coordination.errors import OutOfRange
from coordination.physics.class_limits import class_limit
from coordination.physics.guards import (
    require_count,
    require_not_negative,
    require_positive,
    require_within,
)

#: Resistivity of annealed copper at 20 °C, 100 % IACS [ohm*m].
COPPER_RESISTIVITY = 0.017241e-6
#: Temperature below 0 °C at which copper's resistance would extrapolate to zero [K].
COPPER_BETA = 234.5
#: Largest resistance over nominal, where no standard's class limit applies.
NOMINAL_TOLERANCE = 1.04
#: Diameter of a stranded conductor over that of a solid one of the same metal area.
STRAND_FILL = 1.13

_AWG_TEXT = re.compile(r"(?:([1-4])/0|(\d{1,2}))(?:\s*AWG)?", re.IGNORECASE)
#: Insulation thickness [m] of common single-core cables below each nominal area [m²].
_INSULATION = ((6e-6, 0.0008), (25e-6, 0.0010), (50e-6, 0.0012), (100e-6, 0.0014))
_INSULATION_ABOVE = 0.0016


def awg_number(size: str) -> int:
    """Gauge number that a size text means: 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3.

    1 - m for m/0

    size  -- gauge as written, "4/0", "10" or "10 AWG" [text]
    gives -- gauge number n [1]
    Raises OutOfRange if the text is no gauge from 4/0 to 40.
    Source: ASTM B258 (from memory, not read here).

    >>> awg_number("4/0"), awg_number("1/0"), awg_number("18 AWG")
    (-3, 0, 18)
    """
    match = _AWG_TEXT.fullmatch(size.strip())
    if match is None or (match[2] is not None and int(match[2]) > 40):
        raise OutOfRange("size", size, "a gauge from 4/0 to 40")
    return 1 - int(match[1]) if match[1] else int(match[2])


def awg_diameter(number: float) -> float:
    """Diameter of the solid wire of a gauge number.

    0.005 in × 92^((36 - n) / 39)

    number -- gauge number n, 0 for 1/0, -3 for 4/0 [1]
    gives  -- diameter d [m]
    Raises OutOfRange outside 4/0 ... 40 (-3 ... 40).
    Source: ASTM B258 (from memory, not read here).

    >>> round(awg_diameter(-3) / 0.0254, 4)      # 4/0: 0.4600 in by definition
    0.46
    """
    require_within(-3, 40, number=number)
    return 0.005 * 0.0254 * pow(92.0, (36.0 - number) / 39.0)


def awg_area(number: float) -> float:
    """Metal area of a gauge number.

    π d² / 4

    number -- gauge number n, 0 for 1/0, -3 for 4/0 [1]
    gives  -- area S [m**2]
    Raises OutOfRange outside 4/0 ... 40 (-3 ... 40).
    Source: ASTM B258 (from memory, not read here).

    >>> round(awg_area(10) * 1e6 * 1973.525, -1) # 10 AWG: 10380 circular mils
    10380.0
    """
    return pi * awg_diameter(number) ** 2 / 4.0


def resistance_per_length(area: float, resistivity: float = COPPER_RESISTIVITY) -> float:
    """Resistance per length at 20 °C that follows from the metal area: a conductor's lowest.

    rho / S

    area        -- nominal cross-section S [m**2]
    resistivity -- of the metal at 20 °C, rho [ohm*m]
    gives       -- resistance per length at 20 °C [ohm/m]
    Raises OutOfRange if area or resistivity is not positive.
    Holds for solid metal; the lay of strands adds some percent.
    Source: NBS Handbook 100 (1966), annealed copper at 20 °C.

    >>> round(resistance_per_length(1e-6) * 1000, 3)  # 17.241 Ω/km for 1 mm² of annealed copper
    17.241
    """
    require_positive(area=area, resistivity=resistivity)
    return resistivity / area


def nominal_resistance_limit(area: float) -> float:
    """Largest resistance per length at 20 °C to count on where no standard's limit applies.

    1.04 rho / S

    area  -- nominal cross-section S [m**2]
    gives -- resistance per length at 20 °C [ohm/m]
    Raises OutOfRange if area is not positive.
    Holds for uncoated copper; published figures for tinned strands reach 1.09 rho / S.
    Source: common practice.

    >>> round(nominal_resistance_limit(1e-6) * 1000, 2)  # hand calculation: 1.04 × 17.241 Ω/km
    17.93
    """
    return NOMINAL_TOLERANCE * resistance_per_length(area)


def maximum_resistance_per_length(area: float, stranding: str | None = None) -> float:
    """Largest resistance per length at 20 °C: the limit of its class, else 1.04 × nominal.

    R_class, or 1.04 rho / S where the standard has no row

    area      -- nominal cross-section S [m**2]
    stranding -- class in words, "class 5 tinned" [text]
    gives     -- resistance per length at 20 °C [ohm/m]
    Raises OutOfRange if area is not positive.
    Source: IEC 60228:2004, Tables 1 to 4 (from memory, not read here); common practice.

    >>> round(maximum_resistance_per_length(70e-6, "class 5 tinned") * 1000, 3)
    0.277
    """
    nominal = nominal_resistance_limit(area)
    limit = class_limit(area, stranding)
    return nominal if limit is None else limit


def temperature_factor(temperature: float) -> float:
    """Resistance of copper over its resistance at 20 °C.

    (234.5 + T) / 254.5

    temperature -- of the conductor T [degC]
    gives       -- R(T) / R(20 °C) [1]
    Raises OutOfRange outside -90 ... 1083 °C.
    Holds for annealed copper from -90 °C to its melting point; best from 0 to 250 °C.
    Source: IEC 60228:2004, Annex B, exact formula (from memory, not read here).

    >>> round(temperature_factor(90), 4)         # 1.2750 at 90 °C
    1.275
    """
    require_within(-90.0, 1083.0, temperature=temperature)
    return (COPPER_BETA + temperature) / (COPPER_BETA + 20.0)


def resistance_at_temperature(resistance_20c: float, temperature: float) -> float:
    """Resistance of a copper conductor at a temperature, from its resistance at 20 °C.

    R_20 (234.5 + T) / 254.5

    resistance_20c -- at 20 °C, R_20 [ohm]
    temperature    -- of the conductor T [degC]
    gives          -- resistance at T [ohm]
    Raises OutOfRange if the resistance is negative or the temperature outside -90 ... 1083 °C.
    Source: IEC 60228:2004, Annex B, exact formula (from memory, not read here).

    >>> round(resistance_at_temperature(0.0164, 75), 5)  # 4/0 AWG, 100 m: 0.01994 Ω in NEC Ch. 9
    0.01994
    """
    require_not_negative(resistance_20c=resistance_20c)
    return resistance_20c * temperature_factor(temperature)


def leg_resistance(per_length: float, length: float, runs: float = 1) -> float:
    """Resistance of one leg: equal cables side by side, all of one length.

    R' L / n

    per_length -- of one cable at its temperature, R' [ohm/m]
    length     -- one way, L [m]
    runs       -- equal cables in parallel, n [1]
    gives      -- resistance [ohm]
    Raises OutOfRange if a value is negative or runs is no whole number from 1.
    Source: Ohm's law.

    >>> round(leg_resistance(0.277e-3, 1.5), 7)  # hand calculation: 1.5 m of 0.277 Ω/km
    0.0004155
    """
    require_not_negative(per_length=per_length, length=length)
    require_count(runs=runs)
    return per_length * length / runs


def loop_resistance(positive: float, return_path: float) -> float:
    """Resistance there and back: each leg has its own area, length and runs.

    R_p + R_r

    positive    -- resistance of the positive leg, R_p [ohm]
    return_path -- resistance of the way back, R_r [ohm]
    gives       -- loop resistance [ohm]
    Raises OutOfRange if a value is negative.
    Source: Ohm's law.

    >>> loop_resistance(0.102, 0.102)            # two wires of 100 ft at 1.02 Ω/kft
    0.204
    """
    require_not_negative(positive=positive, return_path=return_path)
    return positive + return_path


def conductor_diameter(area: float) -> float:
    """Diameter over the strands of a conductor of a nominal area.

    1.13 sqrt(4 S / π)

    area  -- nominal cross-section S [m**2]
    gives -- diameter d [m]
    Raises OutOfRange if area is not positive.
    Holds for stranded conductors; a solid wire is 12 % thinner.
    Source: NFPA 70 (NEC), chapter 9 Table 8: stranded over solid diameter 1.13 to 1.15.

    >>> round(conductor_diameter(8.366e-6) / 0.0254, 3)  # 8 AWG, 7 strands: 0.146 in
    0.145
    """
    require_positive(area=area)
    return STRAND_FILL * sqrt(4.0 * area / pi)


def outside_diameter(area: float) -> float:
    """Diameter over the insulation to assume where the part states none.

    d + 2 t, t = 0.8 mm below 6 mm², 1.0 below 25, 1.2 below 50, 1.4 below 100, 1.6 above

    area  -- nominal cross-section S [m**2]
    gives -- diameter over the insulation D [m]
    Raises OutOfRange if area is not positive.
    Holds for single-core cables for 600 V or 1 kV with ordinary wall thickness.
    Source: common practice.

    >>> round(outside_diameter(16e-6) * 1000, 1)  # hand calculation: 1.13 × 4.514 + 2 × 1.0
    7.1
    """
    diameter = conductor_diameter(area)
    for below, thickness in _INSULATION:
        if area < below * (1.0 - 1e-9):
            return diameter + 2.0 * thickness
    return diameter + 2.0 * _INSULATION_ABOVE
