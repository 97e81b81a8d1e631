"""What a measurement leaves open: the bounds of a difference, and of a resistance made of two."""

from __future__ import annotations

from coordination.physics.guards import require_not_negative, require_positive, require_within


def least_difference(difference: float, accuracy: float, resolution: float) -> float:
    """The least that a difference of two readings of one meter can truly be.

    D (1 - a) - 2 r: the meter's gain errs alike in both readings, the last digit in each by one.

    difference -- of the two readings D [V]
    accuracy   -- error of the meter's gain a, as a share of the reading [1]
    resolution -- last digit of the reading r [V]
    gives      -- least true difference [V]
    Raises OutOfRange unless the difference is positive and the accuracy from 0 to below 1.
    Source: common practice.

    >>> round(least_difference(0.64, 0.005, 0.01), 4)    # hand: 0.64 × 0.995 - 0.02
    0.6168
    """
    _require_meter(difference, accuracy, resolution)
    return difference * (1.0 - accuracy) - 2.0 * resolution


def largest_difference(difference: float, accuracy: float, resolution: float) -> float:
    """The most that a difference of two readings of one meter can truly be.

    D (1 + a) + 2 r

    difference -- of the two readings D [V]
    accuracy   -- error of the meter's gain a, as a share of the reading [1]
    resolution -- last digit of the reading r [V]
    gives      -- largest true difference [V]
    Raises OutOfRange unless the difference is positive and the accuracy from 0 to below 1.
    Source: common practice.

    >>> round(largest_difference(0.64, 0.005, 0.01), 4)    # hand: 0.64 × 1.005 + 0.02
    0.6632
    """
    _require_meter(difference, accuracy, resolution)
    return difference * (1.0 + accuracy) + 2.0 * resolution


def _require_meter(difference: float, accuracy: float, resolution: float) -> None:
    require_positive(difference=difference)
    require_within(0.0, 0.99, accuracy=accuracy)
    require_not_negative(resolution=resolution)


def scaled_rise(
    temperature: float, ambient: float, current: float, design_current: float, design_ambient: float
) -> float:
    """What a terminal would reach at its design current, by what it reached at another.

    Ta_d + (T - Ta) (I_d / I)²: the heat of a resistance grows with the square of its current.

    temperature    -- measured T [degC]
    ambient        -- air at the measurement Ta [degC]
    current        -- at the measurement I [A]
    design_current -- I_d [A]
    design_ambient -- air that is designed for Ta_d [degC]
    gives          -- temperature at the design current [degC]
    Raises OutOfRange unless the current is positive and the other not negative.
    Source: common practice.

    >>> scaled_rise(45.0, 25.0, 100.0, 200.0, 35.0)    # hand: 35 + 20 × 4
    115.0
    """
    require_positive(current=current)
    require_not_negative(design_current=design_current)
    return design_ambient + (temperature - ambient) * (design_current / current) ** 2


def least_sum_of_currents(loads: float, charger: float, power_factor: float) -> float:
    """The least that AC loads and a charger can draw together.

    sqrt((I_l + I_c pf)^2 + I_c^2 (1 - pf^2)): loads wholly in phase with the voltage, as heaters
    are. No load whose phase lies between that and the charger's own makes the sum smaller; the most
    is the plain sum, both in phase with each other.

    loads        -- effective current of the loads I_l [A]
    charger      -- effective current of the charger I_c [A]
    power_factor -- of the charger's input pf [1]
    gives        -- least effective current of both [A]
    Raises OutOfRange if a current is negative, or the power factor not above 0 and up to 1.
    Source: addition of sinusoidal currents.

    >>> round(least_sum_of_currents(8.0, 10.0, 0.8), 2)    # hand: sqrt((8 + 8)^2 + 6^2)
    17.09
    """
    require_not_negative(loads=loads, charger=charger)
    require_within(0.01, 1.0, power_factor=power_factor)
    active = loads + charger * power_factor
    return float((active**2 + charger**2 * (1.0 - power_factor**2)) ** 0.5)
