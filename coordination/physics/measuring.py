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
